coatwright finishes --own examples/desk-finishes

coatwright finishes shellac-dewaxed --own examples/desk-finishes

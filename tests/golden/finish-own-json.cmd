coatwright finishes hardwax-oil-two-part --own examples/kitchen-finishes --json

coatwright finishes hardwax-oil-two-part --json

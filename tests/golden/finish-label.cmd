coatwright finishes hardwax-oil-two-part --from-label

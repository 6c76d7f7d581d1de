coatwright mix waterborne-polyurethane-two-part 4 ml

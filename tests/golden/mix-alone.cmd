coatwright mix hardwax-oil-two-part 350 ml

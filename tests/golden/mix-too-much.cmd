coatwright mix hardwax-oil-two-part 100 l

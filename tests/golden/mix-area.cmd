coatwright mix hardwax-oil-two-part 1.4 m2 --wood oak

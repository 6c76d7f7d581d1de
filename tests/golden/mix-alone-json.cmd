coatwright mix hardwax-oil-two-part 350 ml --at '12 C' --json

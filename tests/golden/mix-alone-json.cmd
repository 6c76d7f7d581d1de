coatwright mix hardwax-oil-two-part 400 ml --at '12 C' --json

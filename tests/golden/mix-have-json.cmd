coatwright mix hardwax-oil-two-part --have hardener 180 g --json

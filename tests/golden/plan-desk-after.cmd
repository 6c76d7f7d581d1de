coatwright plan examples/desk.json --now 2027-04-01

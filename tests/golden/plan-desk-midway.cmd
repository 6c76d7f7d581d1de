coatwright plan examples/desk.json --now "2027-03-04 07:30"

coatwright today examples/desk.json --day 2027-03-04

coatwright today examples/doors.json --day 2027-03-13

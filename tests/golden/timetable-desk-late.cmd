coatwright timetable examples/desk.json --late --now 2027-01-04T08:00Z

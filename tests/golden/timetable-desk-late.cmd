coatwright timetable examples/desk.json --latest --now 2027-01-04T08:00Z

coatwright timetable examples/doors.json --now 2027-01-04T08:00Z --chance 2>&1 | sed -n '/^The chance/,$p'

coatwright mix examples/desk.json --now 2027-01-04T08:00Z

coatwright check - --json <<'END'
{"format": "coatwright-job/1", "job": "A wide door", "zone": "Europe/London", "start": "2027-03-01", "deliver": "2027-03-19",
 "schedules": {"clear": [{"sand": 180}, {"coat": "danish-oil"}]},
 "parts": [{"part": "door", "length": 1900, "width": 750, "thickness": 25, "face": "clear"}]}
END

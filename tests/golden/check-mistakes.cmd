coatwright check - <<'END'
{"format": "coatwright-job/1", "job": "Five mistakes", "zone": "Europe/Lundon", "start": "2027-03-01 08:00",
 "deliver": "2027-03-19", "reserve": "10", "colour": "red",
 "schedules": {"clear": [{"sand": 180}, {"coat": "danish-oyl"}]},
 "parts": [{"part": "shelf", "length": "900 mn", "width": 250, "thickness": 18, "all": "cleer"}]}
END

coatwright check - <<'END'
{"format": "coatwright-job/1", "job": "Night shift", "zone": "Europe/London", "start": "2027-03-01", "deliver": "2027-03-19",
 "shop": {"hours": {"mon": ["22:00-06:00"]}}, "schedules": {"clear": [{"sand": 180}]},
 "parts": [{"part": "shelf", "length": 900, "width": 250, "thickness": 18, "wood": "oak", "all": "clear"}]}
END

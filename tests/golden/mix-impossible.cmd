coatwright mix - --now 2027-01-04T08:00Z <<'END'
{"format": "coatwright-job/1", "job": "Cold shelf", "zone": "Europe/London", "start": "2027-03-01", "deliver": "2027-03-19",
 "shop": {"air": [{"from": "00:00", "temperature": "4 C", "humidity": "60 %"}]},
 "schedules": {"clear": [{"sand": 180}, {"coat": "waterborne-polyurethane-two-part", "coats": 2, "by": "brush"}]},
 "parts": [{"part": "shelf", "length": 900, "width": 250, "thickness": 18, "wood": "oak", "all": "clear"}]}
END

coatwright timetable - --now 2027-01-04T08:00Z <<'END'
{"format": "coatwright-job/1", "job": "Sprayed isocyanate", "zone": "Europe/London", "start": "2027-03-01 08:00", "deliver": "2027-04-30", "deliver-at": "handle",
 "schedules": {"clear": [{"sand": 180}, {"coat": "two-part-urethane", "coats": 2, "by": "hvlp", "between": {"sand": 320}}]},
 "pieces": [{"piece": "shelf", "laid": "standing"}],
 "parts": [{"part": "shelf", "length": 900, "width": 250, "thickness": 18, "wood": "oak", "all": "clear"}]}
END

coatwright timetable - --now 2027-01-04T08:00Z <<'END'
{"format": "coatwright-job/1", "job": "Warm shop", "zone": "Europe/London", "start": "2027-03-01 08:00", "deliver": "2027-04-30", "deliver-at": "handle",
 "shop": {"air": [{"from": "00:00", "temperature": "30 C", "humidity": "50 %"}]},
 "schedules": {"danish": [{"sand": 180}, {"coat": "danish-oil", "coats": 2}], "linseed": [{"sand": 180}, {"coat": "boiled-linseed-oil", "coats": 1}]},
 "pieces": [{"piece": "shelf", "laid": "standing"}, {"piece": "box lid", "laid": "standing"}],
 "parts": [{"part": "shelf", "length": 900, "width": 250, "thickness": 18, "wood": "oak", "all": "danish"},
           {"part": "box lid", "length": 400, "width": 150, "thickness": 18, "wood": "ash", "all": "linseed"}]}
END

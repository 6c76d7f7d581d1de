coatwright timetable - --now 2027-01-04T08:00Z <<'END'
{"format": "coatwright-job/1", "job": "Cold night", "zone": "Europe/London", "start": "2027-03-01 08:00", "deliver": "2027-04-30", "deliver-at": "handle",
 "shop": {"air": [{"from": "07:00", "temperature": "18 C", "humidity": "50 %"}, {"from": "16:00", "temperature": "8 C", "humidity": "60 %"}]},
 "schedules": {"clear": [{"sand": 180}, {"task": "fit the lock", "takes": "4 h"}, {"coat": "brushing-varnish", "coats": 3}],
               "oil": [{"sand": 120}, {"coat": "exterior-oil", "coats": 2}]},
 "pieces": [{"piece": "shelf", "laid": "standing"}, {"piece": "bench", "laid": "standing"}],
 "parts": [{"part": "shelf", "length": 900, "width": 250, "thickness": 18, "wood": "oak", "all": "clear"},
           {"part": "bench", "length": 1200, "width": 350, "thickness": 30, "wood": "oak", "all": "oil"}]}
END

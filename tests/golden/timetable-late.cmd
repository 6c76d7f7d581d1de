cat >"$TEST_TMP/late.json" <<'END'
{"format": "coatwright-job/1", "job": "Late shelf", "zone": "Europe/London", "start": "2027-03-01", "deliver": "2027-03-05",
 "schedules": {"clear": [{"sand": 180}, {"coat": "brushing-varnish", "coats": 3, "by": "brush"}]},
 "parts": [{"part": "shelf", "length": 900, "width": 250, "thickness": 18, "wood": "oak", "all": "clear"}]}
END
coatwright timetable - --now 2027-01-04T08:00Z <"$TEST_TMP/late.json"

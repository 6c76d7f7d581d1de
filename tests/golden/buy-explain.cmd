coatwright buy examples/desk.json --explain hardwax-oil-two-part --now 2027-01-04
coatwright buy examples/doors.json --explain waterborne-polyurethane-two-part --now 2027-01-04
coatwright buy examples/desk.json --explain hardwax-oyl-two-part --now 2027-01-04
coatwright buy examples/desk.json --explain wiping-varnish --cost
mkdir -p "$TEST_TMP/thin" && cd "$TEST_TMP/thin" && cat >job.json <<'END'
{"format": "coatwright-job/1", "job": "Shelf", "zone": "Europe/London", "start": "2027-03-01", "deliver": "2027-03-19",
 "schedules": {"film": [{"coat": "brushing-varnish", "coats": 1, "by": "brush", "thin": "2:1"}, {"coat": "brushing-varnish", "coats": 1, "by": "brush", "thin": "10 %"}]},
 "parts": [{"part": "shelf", "length": 1000, "width": 500, "thickness": 20, "wood": "beech", "face": "film"}]}
END
coatwright buy job.json --explain brushing-varnish --now 2027-01-04

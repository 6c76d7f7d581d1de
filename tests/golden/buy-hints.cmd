mkdir -p "$TEST_TMP/hints/own"
for finish in wiping-varnish brushing-varnish pigment-stain; do
    sed 's/{"size": "250 ml"}/{"size": "250 ml", "price": "12.00"}/; s/{"size": "500 ml"}/{"size": "500 ml", "price": "20.00"}/
s/{"size": "1 l"}/{"size": "1 l", "price": "30.00"}/; s/{"size": "2.5 l"}/{"size": "2.5 l", "price": "65.00"}/' finishes/$finish.json >"$TEST_TMP/hints/own/$finish.json"
done
cd "$TEST_TMP/hints" && cat >job.json <<'END'
{"format": "coatwright-job/1", "job": "Boards", "zone": "Europe/London", "currency": "GBP", "start": "2027-03-01", "deliver": "2027-03-19", "finishes": "own",
 "schedules": {"thin": [{"coat": "wiping-varnish", "coats": 1, "by": "cloth"}], "thick": [{"coat": "brushing-varnish", "coats": 1, "by": "brush"}],
               "brown": [{"coat": "pigment-stain", "coats": 1}]},
 "parts": [{"part": "a", "shape": "area", "area": "6.2 m2", "wood": "beech", "face": "thin"},
           {"part": "b", "shape": "area", "area": "5 m2", "wood": "beech", "face": "thick"},
           {"part": "c", "shape": "area", "area": "8 m2", "wood": "beech", "face": "brown"}]}
END
coatwright buy job.json --now 2027-01-04 | sed -n '/^To buy/,/^$/p; /^Worth/,$p'
coatwright buy job.json --explain pigment-stain --now 2027-01-04 | sed -n '/^The need/,$p'

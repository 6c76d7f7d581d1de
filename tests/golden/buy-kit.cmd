mkdir -p "$TEST_TMP/kit/own" && sed '/"mix-by"/i\
  "kits": [{"contents": {"oil": "1 l", "hardener": "400 ml"}, "price": "118.00"}],
  s/{"size": \("[^"]*"\)}/{"size": \1, "price": "150.00"}/g' finishes/hardwax-oil-two-part.json >"$TEST_TMP/kit/own/hardwax-oil-two-part.json"
cd "$TEST_TMP/kit" && cat >job.json <<'END'
{"format": "coatwright-job/1", "job": "Long table", "zone": "Europe/London", "currency": "GBP", "start": "2027-03-01", "deliver": "2027-03-19",
 "finishes": "own", "schedules": {"oil": [{"coat": "hardwax-oil-two-part", "by": "pad"}]}, "pieces": [{"piece": "top", "laid": "flat"}],
 "parts": [{"part": "top", "length": 4200, "width": 1100, "thickness": 40, "wood": "beech", "all": "oil"}]}
END
coatwright buy job.json
coatwright buy job.json --json
coatwright plan job.json --now 2027-01-04 --out . >page && cat shopping.csv

mkdir -p "$TEST_TMP/shelf" && cd "$TEST_TMP/shelf" && cat >job.json <<'END'
{"format": "coatwright-job/1", "job": "Board", "zone": "Europe/London", "start": "2027-03-01", "deliver": "2027-04-30", "stock": "stock.csv",
 "schedules": {"oil": [{"coat": "hardwax-oil-two-part", "by": "pad", "coats": 2}], "spirit": [{"coat": "shellac-dewaxed"}]},
 "pieces": [{"piece": "board", "laid": "flat", "ready": "2027-03-16"}, {"piece": "lid", "laid": "flat"}],
 "parts": [{"part": "board", "length": 900, "width": 300, "thickness": 20, "wood": "beech", "face": "oil", "back": "oil"},
           {"part": "lid", "length": 400, "width": 300, "thickness": 8, "wood": "beech", "face": "spirit", "back": "spirit"}]}
END
printf '%s\n' finish,component,amount,opened,best-before hardwax-oil-two-part,hardener,120ml,2026-12-10, \
    hardwax-oil-two-part,oil,1l,,2027-03-17 hardwax-oil-two-part,oil,300ml,,2027-03-16 shellac-dewaxed,,200ml,,2027-02-28 >stock.csv
coatwright buy job.json --now 2027-03-01T08:00Z | sed -n '/^What it/,$p'
coatwright check job.json

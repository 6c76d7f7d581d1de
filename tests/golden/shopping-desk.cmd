coatwright plan examples/desk.json --now 2027-01-04T08:00Z --out "$TEST_TMP/desk" >"$TEST_TMP/page" && cat "$TEST_TMP/desk/shopping.csv"

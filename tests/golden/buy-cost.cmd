coatwright buy examples/desk.json --cost --now 2027-01-04
coatwright buy examples/desk.json --cost --json --now 2027-01-04
coatwright buy examples/desk.json --cost --csv "$TEST_TMP/quote.csv" --now 2027-01-04 >"$TEST_TMP/page" && cat "$TEST_TMP/quote.csv"
coatwright buy examples/doors.json --cost --now 2027-01-04
coatwright buy examples/desk.json --csv "$TEST_TMP/list.csv" --now 2027-01-04 >"$TEST_TMP/page" && cat "$TEST_TMP/list.csv"

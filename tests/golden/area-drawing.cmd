coatwright area examples/desk.json --svg "$TEST_TMP/areas.svg" >"$TEST_TMP/out"
cat "$TEST_TMP/areas.svg"

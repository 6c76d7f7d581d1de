coatwright timetable examples/doors.json --now 2027-01-04T08:00Z --svg "$TEST_TMP/doors.svg" >"$TEST_TMP/list" && cat "$TEST_TMP/doors.svg"

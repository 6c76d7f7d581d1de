"""Tests of the iCalendar checker: one good calendar, and what each change to it must be told for."""
import datetime as dt
import unittest
from zoneinfo import ZoneInfo

import hours
import ics
import ics_alarms
import ics_lines
import ics_moments
import ics_zones

GOOD = "\r\n".join([
    "BEGIN:VCALENDAR", "PRODID:-//Shop//Plan//EN", "VERSION:2.0",
    "BEGIN:VTIMEZONE", "TZID:Europe/London",
    "BEGIN:STANDARD", "DTSTART:20261025T020000", "RRULE:FREQ=YEARLY;BYMONTH=10;BYDAY=-1SU", "TZOFFSETFROM:+0100",
    "TZOFFSETTO:+0000", "TZNAME:GMT", "END:STANDARD",
    "BEGIN:DAYLIGHT", "DTSTART:20270328T010000", "RRULE:FREQ=YEARLY;BYMONTH=3;BYDAY=-1SU", "TZOFFSETFROM:+0000",
    "TZOFFSETTO:+0100", "TZNAME:BST", "END:DAYLIGHT", "END:VTIMEZONE",
    "BEGIN:VEVENT", "UID:a@shop.example", "DTSTAMP:20270101T000000Z", "DTSTART;TZID=Europe/London:20270326T080000",
    "DTEND;TZID=Europe/London:20270326T090000", "SUMMARY:Coat 1\\, top", "CATEGORIES:coat,top",
    "BEGIN:VALARM", "ACTION:DISPLAY", "DESCRIPTION:Wipe off", "TRIGGER;RELATED=END:-PT5M", "END:VALARM", "END:VEVENT",
    "BEGIN:VEVENT", "UID:b@shop.example", "DTSTAMP:20270101T000000Z", "DTSTART;TZID=Europe/London:20270329T080000",
    "DTEND;TZID=Europe/London:20270329T080500", "SUMMARY:Flip", "CATEGORIES:flip", "RELATED-TO:a@shop.example", "SEQUENCE:1", "END:VEVENT",
    "BEGIN:VEVENT", "UID:d@shop.example", "DTSTAMP:20270101T000000Z", "DTSTART:20270330T070000Z", "SUMMARY:Safe to wrap",
    "CATEGORIES:wrap", "END:VEVENT",
    "BEGIN:VEVENT", "UID:e@shop.example", "DTSTAMP:20270101T000000Z", "DTSTART:20270330T070000Z", "SUMMARY:Ready",
    "CATEGORIES:ready", "END:VEVENT",
    "BEGIN:VEVENT", "UID:f@shop.example", "DTSTAMP:20270101T000000Z", "DTSTART:20270402T160000Z", "SUMMARY:Delivery",
    "CATEGORIES:delivery", "END:VEVENT",
    "BEGIN:VTODO", "UID:c@shop.example", "DTSTAMP:20270101T000000Z", "DUE:20270325T120000Z", "SUMMARY:Buy", "END:VTODO",
    "END:VCALENDAR", ""])

PLAN = {"steps": [{"id": "a", "piece": "top", "batch": "apply/v/1/1", "start": "2027-03-26T08:00:00+00:00",
                   "end": "2027-03-26T09:00:00+00:00", "do": "apply", "after": []},
                  {"id": "b", "piece": "top", "batch": "flip/flip/1/1", "start": "2027-03-29T08:00:00+01:00",
                   "end": "2027-03-29T08:05:00+01:00", "do": "flip", "after": []}],
        "batches": [{"start": "2027-03-26T08:00:00+00:00", "end": "2027-03-26T09:00:00+00:00"},
                    {"start": "2027-03-29T08:00:00+01:00", "end": "2027-03-29T08:05:00+01:00"}],
        "states": [{"piece": "top", "state": "wrap", "at": "2027-03-30T08:00:00+01:00"}],
        "ready": "2027-03-30T08:00:00+01:00", "deliver": "2027-04-02T17:00:00+01:00"}

# (what is replaced, by what, a word of what must be told)
BROKEN = [
    ("\r\n", "\n", "CRLF"),
    ("SUMMARY:Flip", "SUMMARY:Flip" + "x" * 70, "octets"),
    ("SUMMARY:Flip", "SUMMARY:Flip; then wait", "unescaped"),
    ("SUMMARY:Flip", "SUMMARY:Flip\\x", "unescaped"),
    ("SUMMARY:Flip", "SUMMARY:Flip\x07", "control"),
    ("SUMMARY:Flip", "SUMMARY Flip", "no content line"),
    ("SUMMARY:Flip", "SUMMARY:Flip\r\nSUMMARY:Twice", "at most once"),
    ("SUMMARY:Flip", "\r\nSUMMARY:Flip", "empty line"),
    ("SUMMARY:Flip", "DUE:20270101T000000Z", "no place"),
    ("UID:b@shop.example", "UID:a@shop.example", "twice"),
    ("UID:b@shop.example\r\n", "", "UID 0 times"),
    ("VERSION:2.0", "VERSION:2.0\r\nMETHOD:PUBLISH", "METHOD has no place"),
    ("VERSION:2.0", "VERSION:1.0", "VERSION"),
    ("DTSTAMP:20270101T000000Z\r\nDUE", "DTSTAMP:20270101T000000\r\nDUE", "no moment in UTC"),
    ("DTSTART;TZID=Europe/London:20270329T080000", "DTSTART:20270329T080000", "either a TZID or a Z"),
    ("DTSTART;TZID=Europe/London:20270329T080000", "DTSTART;TZID=Europe/London:20270229T080000", "no date and time"),
    ("DTSTART;TZID=Europe/London:20270329T080000", "DTSTART;TZID=Europe/Paris:20270329T080000", "no VTIMEZONE Europe/Paris"),
    ("DTEND;TZID=Europe/London:20270329T080500", "DTEND;TZID=Europe/London:20270329T080000", "not after"),
    ("RELATED-TO:a@shop.example", "RELATED-TO:z@shop.example", "RELATED-TO nothing"),
    ("TRIGGER;RELATED=END:-PT5M", "TRIGGER:5 minutes", "no duration"),
    ("TRIGGER;RELATED=END:-PT5M", "TRIGGER;VALUE=DATE-TIME:20270326T080000", "no moment in UTC"),
    ("DESCRIPTION:Wipe off\r\n", "", "without DESCRIPTION"),
    ("ACTION:DISPLAY\r\n", "", "ACTION 0 times"),
    ("TZOFFSETTO:+0000\r\n", "", "TZOFFSETTO 0 times"),
    ("TZOFFSETTO:+0000", "TZOFFSETTO:0000", "no offset"),
    ("SEQUENCE:1", "SEQUENCE:one", "no integer"),
    ("END:VTODO\r\n", "", "END:VCALENDAR closes nothing"),
    ("DTSTART:20261025T020000", "DTSTART:20261025T020000Z", "no local date and time"),
]


class Strict(unittest.TestCase):
    def test_the_good_one_passes(self):
        self.assertEqual(ics.problems(GOOD.encode()), [])

    def test_each_break_is_told(self):
        for old, new, word in BROKEN:
            with self.subTest(new):
                self.assertIn(old, GOOD)
                told = " | ".join(text for _, text in ics.problems(GOOD.replace(old, new).encode()))
                self.assertIn(word, told)

    def test_folding_inside_a_character_is_told(self):
        good = GOOD.replace("SUMMARY:Flip", "SUMMARY:Flip “now”").encode()
        self.assertEqual(ics.problems(good), [])
        cut = good.replace("“".encode(), "“".encode()[:1] + b"\r\n " + "“".encode()[1:])
        self.assertTrue(any("cut by folding" in text for _, text in ics.problems(cut)))

    def test_unfolding(self):
        folded = GOOD.replace("SUMMARY:Flip", "SUMM\r\n ARY:Fl\r\n\tip")
        self.assertEqual(ics.problems(folded.encode()), [])
        root = ics_lines.read(folded.encode(), lambda line, text: self.fail(text))[0]
        self.assertEqual(root.children[2].one("SUMMARY").value, "Flip")

    def test_garbage_is_told(self):
        for data in (b"", b"hello", b"BEGIN:VCALENDAR\r\n", GOOD.encode() * 2, GOOD.encode()[:400]):
            self.assertTrue(ics.problems(data), data[:20])


class Zones(unittest.TestCase):
    def test_onsets_agree_with_the_zone_files(self):
        root = ics_lines.read(GOOD.encode(), lambda line, text: None)[0]
        zone = ics_zones.Zone(root.children[0])
        for text in ("20270101T120000", "20270326T080000", "20270329T080000", "20271030T080000", "20271101T080000"):
            local = ics_zones.local(text)
            want = local.replace(tzinfo=ZoneInfo("Europe/London")).astimezone(ics_moments.UTC).replace(tzinfo=None)
            self.assertEqual(zone.utc(text), want, text)
        self.assertIsNone(zone.utc("20200101T000000"))

    def test_a_wrong_onset_shifts_the_event(self):
        late = GOOD.replace("DTSTART:20270328T010000\r\nRRULE:FREQ=YEARLY;BYMONTH=3;BYDAY=-1SU", "DTSTART:20270404T010000")
        self.assertEqual(list(ics_moments.differences("r", ics_moments.own_spans(GOOD.encode()), PLAN)), [])
        self.assertEqual(len(list(ics_moments.differences("r", ics_moments.own_spans(late.encode()), PLAN))), 2)

    def test_what_is_missing_or_too_much_is_told(self):
        for old, new in (("CATEGORIES:wrap", "CATEGORIES:window"), ("DTSTART:20270402T160000Z", "DTSTART:20270402T170000Z"),
                         ("DTSTART:20270330T070000Z\r\nSUMMARY:Safe", "DTSTART:20270330T080000Z\r\nSUMMARY:Safe"),
                         ("DTEND;TZID=Europe/London:20270329T080500\r\n", ""),
                         ("DTSTART:20270330T070000Z\r\nSUMMARY:Ready", "DTSTART;VALUE=DATE:20270326\r\nSUMMARY:Ready")):
            with self.subTest(new):
                self.assertIn(old, GOOD)
                changed = GOOD.replace(old, new).encode()
                self.assertTrue(list(ics_moments.differences("r", ics_moments.own_spans(changed), PLAN)))


class Alarms(unittest.TestCase):
    def test_when_they_go_off(self):
        end = dt.datetime(2027, 3, 26, 9, 0, tzinfo=dt.timezone.utc)
        self.assertEqual(ics_alarms.of_calendar(GOOD.encode()), [("a@shop.example", hours.minutes(end) - 5)])

    def test_durations(self):
        for text, minutes in (("-PT15M", -15), ("P1DT2H", 1560), ("PT0S", 0), ("-P1W", -10080)):
            self.assertEqual(ics_alarms.span_of(text), dt.timedelta(minutes=minutes))

    def test_shortly_before(self):
        self.assertTrue(ics_alarms.rings_before([("u", 100)], 110))
        self.assertFalse(ics_alarms.rings_before([("u", 100)], 95))
        self.assertFalse(ics_alarms.rings_before([("u", 100)], 300))

"""The checker's own arithmetic, on published and hand-worked values."""
import math
import unittest
from fractions import Fraction as F
from pathlib import Path
from types import SimpleNamespace

import drying
import hours
import job_reader
import measure
import minutes
import rules_amounts
import shapes
import surfaces
import worked


def part(**cells):
    """A part as the reader makes it from a row."""
    return job_reader.read_part({"part": "p", **cells}, cells.get("units", "mm"), Path("."))


def areas(**cells):
    return shapes.part_areas(part(**cells))


class Measures(unittest.TestCase):
    """Factors: NIST Handbook 44 appendix C, NIST SP 811."""

    def test_lengths_in_every_form(self):
        for text, mm in (("19 mm", 19), ("3/4 in", F("19.05")), ('3/4"', F("19.05")), ("1.2 m", 1200), ("12'", F("3657.6")),
                         ("5' 2 3/8\"", F("1584.325")), ("5 ft 2-3/8 in", F("1584.325")), ("¾ in", F("19.05"))):
            self.assertEqual(measure.length(text), mm, text)

    def test_published_factors(self):
        self.assertEqual(measure.volume("1 gal"), F("3.785411784"))
        self.assertEqual(measure.volume("1 imp gal"), F("4.54609"))
        self.assertEqual(measure.mass("1 lb"), F("453.59237"))
        self.assertEqual(measure.area("1 ft2"), F("0.09290304"))
        self.assertAlmostEqual(float(measure.density("1 lb/gal")), 119.826427, 6)
        self.assertAlmostEqual(float(measure.coverage("40.745833 ft2/gal")), 1.0, 7)

    def test_spans_and_shares(self):
        self.assertEqual(measure.span("1 h 30 min"), 90)
        self.assertEqual(measure.span("2 wk"), 20160)
        self.assertEqual(measure.temperature("68 F"), 20)
        self.assertEqual(measure.share("12.5 %"), F(1, 8))

    def test_what_is_no_quantity_is_refused(self):
        for text in ("3/4 foo", "", "1,5 mm", "mm"):
            self.assertRaises((measure.BadQuantity, ValueError), measure.length, text)


class Surfaces(unittest.TestCase):
    """Figures, take-off: boards of PS 20, frusta, tori; identities."""

    def test_board_of_trade_size(self):
        inches = sum(areas(size="1x4", length="96 in").values()) / 0.00064516
        self.assertAlmostEqual(inches, 821.25, 9)  # 3/4 x 3 1/2 x 96 in, six sides

    def test_frustum_and_cone(self):
        face = areas(shape="cone", diameter=10, diameter2=4, length=4)["face"] * 1e6
        self.assertAlmostEqual(face, 35 * math.pi, 9)
        face = areas(shape="cone", diameter=6, length=4)["face"] * 1e6
        self.assertAlmostEqual(face, 15 * math.pi, 9)

    def test_triangle_by_sides_and_by_height(self):
        self.assertAlmostEqual(areas(shape="triangle", sides="3 4 5", thickness=1)["face"] * 1e6, 6, 12)
        by_height = areas(shape="triangle", base=6, height=4, thickness=1)
        self.assertAlmostEqual(by_height["edges"] * 1e6, 16, 12)

    def test_box_open_at_the_front(self):
        box = areas(shape="box", length=100, width=50, height=80, thickness=10, open="front")
        self.assertAlmostEqual(box["edges"] * 1e6, 100 * 80 - 80 * 60)
        self.assertAlmostEqual(box["outside"] * 1e6, 100 * 80 + 2 * 50 * 80 + 2 * 100 * 50)
        self.assertAlmostEqual(box["inside"] * 1e6, 80 * 60 + 2 * 40 * 60 + 2 * 80 * 40)

    def test_full_bevel_is_the_inset(self):
        board = areas(length=100, width=50, thickness=10, chamfer=10)
        self.assertAlmostEqual(board["face"] * 1e6, 80 * 30)
        self.assertAlmostEqual(board["edges"] * 1e6, (5000 - 2400) * math.sqrt(2))
        self.assertAlmostEqual(board["ends"], 0)

    def test_rounded_disc_is_a_quarter_torus(self):
        disc = areas(shape="disc", diameter=8, thickness=2, roundover=1)  # ring of radius 3 about which a circle of 1 turns
        strip = math.pi / 2 * 2 * math.pi * 3 + 2 * math.pi  # Pappus: arc length x path of its centroid (3 + 2/pi)
        self.assertAlmostEqual((disc["edges"] * 1e6) - 2 * math.pi * 4, strip, 9)

    def test_turning_of_one_frustum_is_a_cone(self):
        turned = areas(shape="turning", profile="0 10; 4 4")
        self.assertAlmostEqual(turned["face"] * 1e6, 35 * math.pi, 9)

    def test_covered_area_is_neither(self):
        board = part(length=100, width=50, thickness=10, qty=2, all="s", covered="face 2 x 10 mm x 20 mm; back 50 mm x 100 mm")
        found = {s.region: s.area * 1e6 for s in surfaces.of_part(board)}
        self.assertAlmostEqual(found["face"], 2 * (5000 - 400))
        self.assertAlmostEqual(found["back"], 0)


class Drying(unittest.TestCase):
    """Method, section 5, and figures: drying, windows, air."""

    def setUp(self):
        self.job = worked.load(worked.cold_night())
        self.film = self.job.finishes["v"]
        self.clocks = drying.Drying(self.job)

    def at(self, text):
        return hours.from_text(worked.moment(text), worked.ZONE)

    def test_dew_points(self):
        for t, humidity, dew in ((20, 0.5, 9.26), (23, 0.5, 12.01), (25, 0.6, 16.69), (10, 0.8, 6.71)):
            self.assertAlmostEqual(drying.dew_point(t, humidity), dew, 2)

    def test_half_speed_in_the_night(self):
        self.assertEqual(self.clocks.reach(self.film, "handle", self.at("Mon 10:00"), 1), self.at("Tue 02:00"))

    def test_reach_and_last_are_inverse(self):
        clock = self.clocks.clock(self.film, "handle")
        for needed in (1, 479, 480, 481, 720, 5000):
            end = clock.reach(self.at("Mon 10:00"), needed)
            self.assertEqual(clock.last(self.at("Mon 10:00"), needed), end)
            self.assertEqual(clock.at(end) - clock.at(self.at("Mon 10:00")), needed * drying.MILLION)

    def test_rates(self):
        film = SimpleNamespace(at=(F(23), F(1, 2)), air=((F(10), F(35)), (F(0), F(1))), dries_by="reaction")
        self.assertEqual(drying.rate(film, "handle", 33, 0.5), 2_000_000)
        self.assertEqual(drying.rate(film, "handle", 9, 0.5), 0)
        film.dries_by = "solvent"
        self.assertEqual(drying.rate(film, "handle", 23 - 15, 0.5), 0)
        self.assertEqual(drying.rate(film, "handle", 23 + 12, 0.5), 2_000_000)
        film.dries_by = "oxidation"
        self.assertEqual(drying.rate(film, "handle", 23, 0.76), 700_000)
        film.dries_by = "moisture"
        self.assertEqual(drying.rate(film, "handle", 23, 0.25), 500_000)
        film.dries_by = "water"
        self.assertEqual(drying.rate(film, "handle", 23, 1.0), 0)
        self.assertEqual(drying.rate(film, "handle", 35, 0.0), 1_500_000)
        self.assertEqual(drying.rate(film, "cured", 13, 1.0), 500_000)

    def test_five_minutes_with_a_second_of_tolerance(self):
        self.assertEqual(drying.up(F(5) + F(1, 60)), 5)
        self.assertEqual(drying.up(F(5) + F(2, 60)), 10)
        self.assertEqual(drying.down(F(5)), 5)
        self.assertEqual(drying.down(F(5) - F(1, 60)), 0)
        self.assertIsNone(drying.up(None))


class Hours(unittest.TestCase):
    def stretches(self, start, shop):
        job = worked.job("h", {}, [("a", "1 m2", "-")], start=start, shop=worked.shop(**shop), zone="Europe/London")
        return worked.load(worked.Problem("h", job, [], {}, None))

    def test_breaks_weekends_and_closed_days(self):
        job = self.stretches("2027-03-01 08:00", {"hours": worked.WORKDAYS, "closed": ["2027-03-02..2027-03-03"]})
        at = lambda text: hours.from_text(worked.moment(text), job.zone)
        self.assertTrue(job.hours.holds(at("Mon 08:00"), at("Mon 12:00")))
        self.assertFalse(job.hours.holds(at("Mon 11:55"), at("Mon 12:05")))
        self.assertFalse(job.hours.holds(at("Tue 09:00"), at("Tue 09:05")))
        self.assertTrue(job.hours.holds(at("Thu 13:00"), at("Thu 17:00")))
        self.assertFalse(job.hours.holds(at("Sat 09:00"), at("Sat 09:05")))

    def test_clock_changes_are_real_minutes(self):
        night = {"hours": {day: ["00:00-06:00"] for day in hours.DAYS}}
        spring, autumn = self.stretches("2027-03-28 00:00", night), self.stretches("2027-10-31 00:00", night)
        self.assertEqual(min(b - a for a, b in spring.hours.stretches[:3]), 300)
        self.assertEqual(max(b - a for a, b in autumn.hours.stretches[:3]), 420)

    def test_busy_times_are_cut_out(self):
        self.assertEqual(hours.without((0, 100), [(20, 30), (90, 200)]), [(0, 20), (30, 90)])
        self.assertEqual(hours.without((0, 100), [(0, 100)]), [])


class Minutes(unittest.TestCase):
    def test_pot_life_halves(self):
        """UFGS-09971 3.7.1.3: epoxy 4 h at 21 C: 2 h at 31 C, 8 h at 11 C, 2.83 h at 26 C."""
        epoxy = SimpleNamespace(at=(21, 0.5), pot_life=240, induction=0)
        for t, life in ((31, 120), (11, 480), (26, 169.7)):
            self.assertAlmostEqual(minutes.pot_life(epoxy, t), life, 1)
        self.assertAlmostEqual(minutes.working_time(epoxy, 21), 216)

    def test_a_large_pot_of_epoxy(self):
        """64 kJ/mol: 2.4 times per 10 C; twice the pot mass lives half as long (common practice, from memory)."""
        epoxy = SimpleNamespace(at=(21, 0.5), pot_life=240, induction=0, family="epoxy", pot_mass=500)
        self.assertAlmostEqual(minutes.pot_life(epoxy, 31, 500), 100)
        self.assertAlmostEqual(minutes.pot_life(epoxy, 21, 1000), 120)
        self.assertAlmostEqual(minutes.pot_life(epoxy, 21, 100), 240)

    def test_lots_by_hand(self):
        """1 m2 at 10 m2/h laid and 8 m2/h wiped: 6 and 7.5 min. One lot, wait 6, wiped dry after 13.5 - 6 = 7.5 min at last."""
        self.assertAlmostEqual(minutes.lot_fits(1, 6, 7.5, (5, 15)), 13.5)
        self.assertIsNone(minutes.lot_fits(1, 60, 75, (5, 15)))
        self.assertAlmostEqual(minutes.lot_fits(5, 60, 75, (5, 15)), 27)

    def test_rounding_up_to_five(self):
        self.assertEqual(minutes.rounded(30), {30})
        self.assertEqual(minutes.rounded(30.1), {35})
        self.assertEqual(minutes.rounded(30.01), {30})


class Packs(unittest.TestCase):
    def test_cheapest_then_fewest_then_least_left(self):
        packs = ((F(1, 2), F(9)), (F(1), F(15)), (F(5), F(60)))
        self.assertEqual(rules_amounts.best_choice(packs, 1.2), (1, 1, 0))
        self.assertEqual(rules_amounts.best_choice(packs, 3.6), (0, 0, 1))  # 60 each way: one can is fewer than four
        self.assertEqual(rules_amounts.best_choice(((F(1, 2), None), (F(2), None)), 1.2), (3, 0))

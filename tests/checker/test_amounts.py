"""The rules on square metres, litres, mixes and purchases, on one plan worked by hand.

0.98 m2 of beech at 2 m2/l, and 10 ml that stay in the brush, are 500 ml, an hour of work; 4:1 by volume at 1.20 and 0.95 g/ml that is
400 + 100 ml or 480 + 95 g (figures, two-part mixes: arithmetic). Resin 440 ml with reserve: one can of 500 ml; hardener
110 ml: two of 100 ml cost 16.00, one of 250 ml 15.00.
"""
import copy
import unittest

import byhand
import checker
import worked

RESIN = {"component": "resin", "parts": 4, "density": "1.2 kg/l",
         "packs": [{"size": "250 ml", "price": "9.00"}, {"size": "500 ml", "price": "15.00"}]}
HARDENER = {"component": "hardener", "parts": 1, "density": "0.95 kg/l",
            "packs": [{"size": "100 ml", "price": "8.00"}, {"size": "250 ml", "price": "15.00"}]}


def problem():
    mixed = {"components": [RESIN, HARDENER], "mix-by": "volume", "ratio-tolerance": "5 %", "pot-life": "2 h",
             "coverage": {"first": "2 m2/l", "later": "2 m2/l", "tolerance": "10 %"}}
    shop = worked.shop(losses={"brush": "10 ml"}, rates={"brush": "0.98 m2/h"})
    job = worked.job("mix", {"s": [worked.coats("v")]}, [("a", "0.98 m2", "s")], shop=shop)
    return worked.Problem("mix", job, [worked.finish("v", {"handle": "6 h"}, **mixed)], {"a/s/1/apply": "Mon 08:05"}, None)


def whole_plan(job):
    """The plan as it must be, with the amounts of this page's head."""
    area = {"surfaces": [{"piece": "a", "part": "a", "qty": 1, "region": "face", "schedule": "s", "wood": "beech", "area_m2": 0.98}],
            "by_schedule": [{"schedule": "s", "area_m2": 0.98}], "bare_m2": 0, "finished_m2": 0.98}
    components = [
        {"component": "resin", "need_ml": 400, "need_g": 480, "on_hand_ml": 0, "left_ml": 100,
         "buy": [{"size_ml": 500, "count": 1, "price": "15.00"}]},
        {"component": "hardener", "need_ml": 100, "need_g": 95, "on_hand_ml": 0, "left_ml": 150,
         "buy": [{"size_ml": 250, "count": 1, "price": "15.00"}]}]
    buy = {"finishes": [{"finish": "v", "need_l": {"low": 0.45, "likely": 0.5, "high": 0.55}, "components": components,
                         "cost": "30.00"}], "cost": "30.00"}
    pours = [{"component": "resin", "ml": 400, "g": 480, "weigh_g": 480}, {"component": "hardener", "ml": 100, "g": 95, "weigh_g": 95}]
    mix = {"finish": "v", "coat": 1, "pieces": ["a"], "volume_ml": 500, "components": pours, "ratio_error_pct": 0,
           "pot_life_min": 120, "apply_min": 60, "mixed_at": "2027-03-01T08:00:00+00:00",
           "apply_by": "2027-03-01T09:50:00+00:00", "pot_life_ends": "2027-03-01T10:05:00+00:00"}
    return {**byhand.plan(job, {"a/s/1/apply": f"{worked.MONDAY} 08:05"}), "area": area, "buy": buy,
            "mix": {"mixes": [mix], "warnings": []}, "cautions": []}


# (path to a value, a wrong value, first words of the rule that must be told)
BROKEN = [
    (("area", "surfaces", 0, "area_m2"), 0.981, "surfaces are taken off right"),
    (("area", "surfaces", 0, "schedule"), None, "surfaces are taken off right"),
    (("area", "by_schedule", 0, "area_m2"), 0.97, "area sums are right"),
    (("area", "bare_m2"), 0.1, "area sums are right"),
    (("buy", "finishes", 0, "need_l", "high"), 0.56, "litres needed are right"),
    (("buy", "finishes", 0, "components", 0, "need_g"), 400, "components share the need"),
    (("buy", "finishes", 0, "components", 0, "buy", 0, "size_ml"), 250, "purchases cover the need"),
    (("buy", "finishes", 0, "components", 0, "left_ml"), 60, "what is left"),
    (("buy", "finishes", 0, "components", 1, "buy"), [{"size_ml": 100, "count": 2, "price": "8.00"}], "purchases are the cheapest"),
    (("buy", "finishes", 0, "cost"), "29.00", "costs add up"),
    (("buy", "cost"), "29.00", "costs add up"),
    (("mix", "mixes", 0, "volume_ml"), 510, "components of a mix add up"),
    (("mix", "mixes", 0, "components", 1, "ml"), 110, "components of a mix"),
    (("mix", "mixes", 0, "components", 1, "g"), 100, "masses and volumes agree"),
    (("mix", "mixes", 0, "components", 0, "weigh_g"), 480.5, "weighing keeps to the scale"),
    (("mix", "mixes", 0, "components", 0, "weigh_g"), 490, "the ratio error is the true one"),
    (("mix", "mixes", 0, "pot_life_min"), 140, "mixes are laid within their pot life"),
    (("mix", "mixes", 0, "apply_min"), 115, "mixes are laid within their pot life"),
    (("mix", "mixes", 0, "apply_min"), 50, "mixes serve the whole laying"),
    (("mix", "mixes", 0, "apply_by"), "2027-03-01T10:30:00+00:00", "mixes are laid within their pot life"),
    (("mix", "mixes"), [], "mixes make what the coats take"),
]


class Amounts(unittest.TestCase):
    def setUp(self):
        self.job = worked.load(problem())
        self.plan = whole_plan(self.job)

    def test_the_plan_by_hand_passes(self):
        self.assertEqual(checker.violations(self.job, self.plan), [])

    def test_each_wrong_figure_is_told(self):
        for path, value, rule in BROKEN:
            with self.subTest(path):
                broken = copy.deepcopy(self.plan)
                place = broken
                for key in path[:-1]:
                    place = place[key]
                place[path[-1]] = value
                told = [v.rule for v in checker.violations(self.job, broken)]
                self.assertTrue(any(t.startswith(rule) for t in told), told)

"""The rules, on small plans whose truth is known by hand."""
import unittest

import batch_swaps
import byhand
import checker
import hours
import mutants
import worked


def plan_of(problem, job=None, starts=None, dropped=()):
    """The plan that the problem's hand-worked moments make, with some steps moved or dropped."""
    moments = {name: worked.dated(text) for name, text in {**problem.starts, **(starts or {})}.items()}
    return byhand.plan(job or worked.load(problem), {k: v for k, v in moments.items() if k not in dropped}, problem.together)


def rules_broken(job, plan):
    return {v.rule for v in checker.violations(job, plan, amounts=False)}


class Plans(unittest.TestCase):
    def test_worked_problems_keep_every_rule(self):
        for problem in worked.PROBLEMS:
            if problem.ready is None:
                continue
            with self.subTest(problem.name):
                job = worked.load(problem)
                plan = plan_of(problem, job)
                self.assertEqual(checker.violations(job, plan, amounts=False), [])
                ready = hours.from_text(plan["timetable"]["ready"], job.zone)
                self.assertEqual(ready, hours.from_text(worked.dated(problem.ready), job.zone))
                self.assertEqual(plan["timetable"]["late_min"], problem.late_min)

    def test_mutants_are_rejected_for_what_they_break(self):
        for problem in worked.PROBLEMS:
            if problem.ready is None:
                continue
            with self.subTest(problem.name):
                job = worked.load(problem)
                tried, slipped = mutants.slipped(job, plan_of(problem, job), 7, 99, amounts=False)
                self.assertEqual(slipped, [])
                self.assertGreaterEqual(len(tried), 10)

    def breaks(self, problem, rule, **moved):
        job = worked.load(problem)
        broken = rules_broken(job, plan_of(problem, job, **moved))
        self.assertTrue(any(r.startswith(rule) for r in broken), f"{rule}: {broken}")

    def test_too_early_for_the_film(self):
        self.breaks(worked.both_faces(), "a film is at handle", starts={"panel/s/1b/flip": "Mon 12:25"})

    def test_window_missed(self):
        self.breaks(worked.window_makes_late_start(), "recoat windows hold", starts={"a/s/1/apply": "Mon 09:00"})

    def test_scuff_left_out(self):
        self.breaks(worked.window_scuffed(), "recoat windows hold", dropped=["a/s/1/scuff-320"])

    def test_scuff_without_need(self):
        wide = worked.two_coats(["10 h", "40 h"], "scuff", "wide", worked.window_scuffed().starts, "Tue 15:15")
        self.breaks(wide, "added scuffs open a missed window")

    def test_polish_too_soon(self):
        self.breaks(worked.polish_in_the_wait(), "polish windows hold", starts={"a/s/1/polish": "Mon 09:05"})

    def test_dust_on_a_wet_coat(self):
        self.breaks(worked.sand_in_the_room(), "no dust falls", starts={"b/bare/0/sand-120": "Mon 10:25"})

    def test_rack_too_small(self):
        self.breaks(worked.rack_of_one(), "wet pieces fit on the rack", starts={"b/s/1/apply": "Mon 14:55"})

    def test_over_a_break(self):
        self.breaks(worked.lunch_break(), "a batch runs as its units do", starts={"a/s/0/sand-120": "Mon 11:30"})

    def test_too_many_hands(self):
        self.breaks(worked.dust_alone(), "one person does one batch at a time", starts={"b/b/1/apply": "Mon 09:15"})

    def test_one_working_at_night(self):
        self.breaks(worked.nights(), "a batch runs as its units do", starts={"a/s/3/apply": "Mon 18:00"})

    def test_cold_air_at_application(self):
        problem = worked.cold_night()
        problem.finishes[0]["air"]["temperature"] = ["15 C", "30 C"]
        self.breaks(problem, "water and reaction films stay within limits")

    def test_order_of_pieces_and_tasks(self):
        problem = worked.rack_of_one()
        problem.job["tasks"] = [{"task": "fit hinges", "takes": "30 min", "after": ["a handle"], "before": ["b"]}]
        starts = {"task/fit-hinges": "Mon 16:00", "b/s/1/apply": "Tue 08:00"}
        job = worked.load(problem)
        self.assertEqual(rules_broken(job, plan_of(problem, job, starts=starts)), set())
        self.breaks(problem, "pieces and tasks keep", starts={**starts, "task/fit-hinges": "Mon 14:30"})
        self.breaks(problem, "pieces and tasks keep", starts={**starts, "b/s/1/apply": "Mon 16:15"})

    def test_coats_a_day(self):
        problem = worked.nights()
        problem.finishes[0]["coats"]["a-day"] = 1
        self.breaks(problem, "no more coats a day")

    def test_a_set_up_that_a_swap_saves(self):
        """Two pieces sanded 120 and one 180: the grit of one alone in the middle costs a set-up more, at either end it does not."""
        v, shop = worked.finish("v", {"handle": "6 h"}), worked.shop(**{"set-up": {"sand": "5 min", "brush": "0 min"}})
        made = worked.job("swap", {"s": [{"sand": 120}, worked.coats("v")], "t": [{"sand": 180}, worked.coats("v")]},
                          [("p", "0.5 m2", "s"), ("r", "0.5 m2", "t"), ("q", "0.5 m2", "s")], shop=shop)
        coated = {"p/s/1/apply": "Mon 10:00", "r/t/1/apply": "Mon 10:30", "q/s/1/apply": "Mon 11:00"}
        apart = {"p/s/0/sand-120": "Mon 08:05", "r/t/0/sand-180": "Mon 08:40", "q/s/0/sand-120": "Mon 09:15"}
        swapped = {"p/s/0/sand-120": "Mon 08:05", "q/s/0/sand-120": "Mon 08:40", "r/t/0/sand-180": "Mon 09:15"}
        for sanded, wasted in ((apart, 1), (swapped, 0)):
            problem = worked.Problem("swap", made, [v], {**sanded, **coated}, "Mon 17:30")
            job = worked.load(problem)
            self.assertEqual(len(list(batch_swaps.wasted(job, plan_of(problem, job)))), wasted)

    def test_two_sides_of_unlike_schedules(self):
        """Back three coats, face one: the face goes on last, and the panel is turned over once."""
        problem = worked.back_sealed_once()
        problem.job["parts"][0] |= {"face": "t", "back": "s"}
        problem.starts = {"panel/s/1b/apply": "Mon 08:00", "panel/s/2b/apply": "Mon 12:30", "panel/s/3b/apply": "Mon 17:00",
                          "panel/s/3b/flip": "Mon 21:30", "panel/t/1f/apply": "Mon 21:35"}
        problem.together = []
        job = worked.load(problem)
        self.assertEqual(rules_broken(job, plan_of(problem, job)), set())

    def test_a_back_that_is_sealed_first_stays_below(self):
        """The face's first coat before the back's only one, which would be turned over twice."""
        starts = {"panel/s/1f/apply": "Mon 07:00"}
        self.breaks(worked.back_sealed_once(), "a step follows the one before", starts=starts)

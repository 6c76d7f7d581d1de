"""Problems of work in batches, worked by hand: one person, Monday to Friday 08:00-12:00 and 13:00-17:00, air at reference,
handling nought, start Monday 08:00 unless said. `batch_brute.py`, which tries every grouping, finds the same answers.
"""
from dataclasses import dataclass, field

import batch_brute as brute
import worked

ONE = (brute.Person("Ann"),)
TWO = (brute.Person("Ann"), brute.Person("Bob"))
DAY = brute.DAY
APART = {"dust-room": "separate"}


@dataclass
class Problem:
    name: str
    job: dict
    finishes: list
    batches: list  # ("Mon 08:00", "Mon 09:00", [(piece or None, "Mon 08:10", "Mon 08:30"), ...]) by start
    ready: str
    work: int  # hands-on minutes
    tiny: brute.Job
    options: list = field(default_factory=list)
    proven: bool = True  # the program shows that no plan that is as good before it takes less work


def shop(tool_set_up, clean_up, rest=None, **more):
    """Set-up and clean-up of a brush or gun in minutes; sanding set up in 5."""
    rates = {"hvlp": "1 m2/h", **more.pop("rates", {})}
    plain = {"set-up": {"brush": f"{tool_set_up} min", "hvlp": f"{tool_set_up} min", "sand": "5 min"},
             "clean-up": {"brush": f"{clean_up} min", "hvlp": f"{clean_up} min"}, "hours": worked.WORKDAYS,
             "losses": {"brush": "0 ml", "hvlp": "0 ml"}, "transfer": {"hvlp": "100 %"}, "rates": rates}
    return worked.shop(**(plain | ({"rest": rest} if rest else {}) | more))


def rows(names, minutes, schedule, qty=1):
    return [{"part": n, "piece": n, "qty": qty, "shape": "area", "area": f"{minutes / 60:.9f} m2", "region": "face",
             "face": schedule, "wood": "beech"} for n in names]


def brush(set_up=10, clean_up=10, rest=120):
    return brute.Kind("brush", set_up, clean_up, rest)


def pieces(names, steps, **more):
    return tuple(brute.Piece(n, tuple(steps), **more) for n in names)


def together():
    v = worked.finish("v", {"handle": "6 h"})
    return Problem("together", worked.job("together", {"s": [worked.coats("v")]}, rows("AB", 20, "s"), shop=shop(10, 10)), [v],
                   [("Mon 08:00", "Mon 09:00", [("A", "Mon 08:10", "Mon 08:30"), ("B", "Mon 08:30", "Mon 08:50")])],
                   "Mon 14:50", 60, brute.Job(pieces("AB", [brute.Step(brush(), (20,), held=360)]), ONE))


def paused(tool, rest, second, ready):
    v = worked.finish("v", {"handle": "1 h", "recoat": ["3 h", worked.FOREVER]}, by=[tool])
    kind = brush(rest=rest)
    return Problem(f"two coats with a {tool} over lunch",
                   worked.job("pause", {"s": [worked.coats("v", 2)]}, rows("AB", 20, "s"), shop=shop(10, 10)), [v],
                   [("Mon 08:00", "Mon 09:00", [("A", "Mon 08:10", "Mon 08:30"), ("B", "Mon 08:30", "Mon 08:50")]), second],
                   ready, 120, brute.Job(pieces("AB", [brute.Step(kind, (20,), 180), brute.Step(kind, (20,), held=60)]), ONE))


def pause():
    return paused("brush", 120, ("Mon 11:20", "Mon 13:30", [("A", "Mon 11:30", "Mon 11:50"), ("B", "Mon 13:00", "Mon 13:20")]),
                  "Mon 14:20")


def gun():
    return paused("hvlp", 30, ("Mon 13:00", "Mon 14:00", [("A", "Mon 13:10", "Mon 13:30"), ("B", "Mon 13:30", "Mon 13:50")]),
                  "Mon 14:50")


def wait_for_the_other(options, batches, ready, work):
    v = worked.finish("v", {"handle": "6 h"})
    job = worked.job("wait", {"s": [worked.coats("v")]}, rows("AB", 20, "s"), shop=shop(10, 10),
                     pieces=[{"piece": "B", "ready": "2027-03-03 08:00"}], deliver="2027-03-05 17:00", **{"to-spare": "1 d"})
    step = (brute.Step(brush(), (20,), held=360),)
    tiny = brute.Job((brute.Piece("A", step), brute.Piece("B", step, ready=2 * DAY + 480)), ONE, deliver=4 * DAY + 17 * 60,
                     to_spare=DAY, soonest=bool(options))
    return Problem("wait for the other" + "".join(options), job, [v], batches, ready, work, tiny, options)


def rack():
    v = worked.finish("v", {"handle": "2 h"}, by=["hvlp"])
    job = worked.job("rack", {"s": [worked.coats("v")]}, rows(["doors"], 10, "s", 6),
                     shop=shop(20, 20, rack="3 m2"), pieces=[{"piece": "doors", "rack": "6 m2"}])
    step = (brute.Step(brute.Kind("gun", 20, 20, 30), (10, 10, 10), held=120, handle=120),)
    return Problem("six doors, rack for three", job, [v],
                   [("Mon 08:00", "Mon 09:10", [("doors", "Mon 08:20", "Mon 08:50")]),
                    ("Mon 10:30", "Mon 11:40", [("doors", "Mon 10:50", "Mon 11:20")])], "Mon 13:20", 140,
                   brute.Job(pieces("AB", step, rack=3), ONE, rack=3))


def two_people(options, batches, ready, work):
    job = worked.job("panels", {"s": [{"sand": 120}]}, rows(["panels"], 10, "s", 12), shop=shop(10, 10, people=2))
    tiny = brute.Job(pieces(["panels"], [brute.Step(brute.Kind("sand", 5), (10,) * 12)]), TWO, soonest=bool(options))
    return Problem("twelve panels, two people" + "".join(options), job, [], batches, ready, work, tiny, options)


def two_grits():
    job = worked.job("grits", {"s": [{"sand": 120}, {"sand": 180}]}, rows("ABC", 10, "s"), shop=shop(10, 10))
    steps = [brute.Step(brute.Kind("120", 5), (10,)), brute.Step(brute.Kind("180", 5), (10,))]
    return Problem("two grits", job, [],
                   [("Mon 08:00", "Mon 08:35", [(None, "Mon 08:05", "Mon 08:15"), (None, "Mon 08:15", "Mon 08:25"),
                                                (None, "Mon 08:25", "Mon 08:35")]),
                    ("Mon 08:35", "Mon 09:10", [(None, "Mon 08:40", "Mon 08:50"), (None, "Mon 08:50", "Mon 09:00"),
                                                (None, "Mon 09:00", "Mon 09:10")])], "Mon 09:10", 70,
                   brute.Job(pieces("ABC", steps), ONE))


def one_grit(options, batches, ready, work, kinds, proven):
    """A is sanded (set-up 5), B scuffed with the same grit (set-up 15): together they take the larger set-up, alone each its own."""
    job = worked.job("grit", {"sanded": [{"sand": 320}], "scuffed": [{"scuff": 320}]}, rows("A", 10, "sanded") + rows("B", 10, "scuffed"),
                     shop=shop(10, 10, rates={"scuff": "1 m2/h"}), pieces=[{"piece": "B", "ready": "2027-03-03 08:00"}],
                     deliver="2027-03-05 17:00", **{"to-spare": "1 d"})
    job["shop"]["set-up"]["scuff"] = "15 min"
    first, second = ((brute.Step(kind, (10,)),) for kind in kinds)
    tiny = brute.Job((brute.Piece("A", first), brute.Piece("B", second, ready=2 * DAY + 480)), ONE, deliver=4 * DAY + 17 * 60,
                     to_spare=DAY, soonest=bool(options))
    return Problem("one grit for sanding and scuffing" + "".join(options), job, [], batches, ready, work, tiny, options, proven)


def one_waits_for_its_grit():
    """Two people. B is sanded twice, so that a batch of both pieces with the finer grit begins when A might be coated already. While
    one sands A the other sets the brush up."""
    v = worked.finish("v", {"handle": "6 h"})
    job = worked.job("grit first", {"coated": [{"sand": 180}, worked.coats("v")], "sanded": [{"sand": 120}, {"sand": 180}]},
                     rows("A", 10, "coated") + rows("B", 30, "sanded"), shop=shop(10, 10, people=2, **APART))
    fine, kind = brute.Kind("180", 5), brush()
    tiny = brute.Job((brute.Piece("A", (brute.Step(fine, (10,)), brute.Step(kind, (10,), held=360))),
                      brute.Piece("B", (brute.Step(brute.Kind("120", 5), (30,)), brute.Step(fine, (30,))))), TWO, soonest=True)
    return Problem("one piece waits for its grit", job, [v],
                   [("Mon 08:00", "Mon 08:15", [("A", "Mon 08:05", "Mon 08:15")]),
                    ("Mon 08:05", "Mon 08:35", [("A", "Mon 08:15", "Mon 08:25")]),
                    ("Mon 08:15", "Mon 08:50", [("B", "Mon 08:20", "Mon 08:50")]),
                    ("Mon 08:45", "Mon 09:20", [("B", "Mon 08:50", "Mon 09:20")])], "Mon 14:25", 115, tiny, ["--soonest"])


def long_sanding():
    """One person. Sanded in one batch with B, A would be coated when B is through."""
    v = worked.finish("v", {"handle": "6 h"})
    job = worked.job("long sanding", {"coated": [{"sand": 120}, worked.coats("v")], "sanded": [{"sand": 120}]},
                     rows("A", 10, "coated") + rows("B", 60, "sanded"), shop=shop(10, 10, **APART))
    grit = brute.Kind("120", 5)
    tiny = brute.Job((brute.Piece("A", (brute.Step(grit, (10,)), brute.Step(brush(), (10,), held=360))),
                      brute.Piece("B", (brute.Step(grit, (60,)),))), ONE, soonest=True)
    return Problem("long sanding behind a coat", job, [v],
                   [("Mon 08:00", "Mon 08:15", [("A", "Mon 08:05", "Mon 08:15")]),
                    ("Mon 08:15", "Mon 08:45", [("A", "Mon 08:25", "Mon 08:35")]),
                    ("Mon 08:45", "Mon 09:50", [("B", "Mon 08:50", "Mon 09:50")])], "Mon 14:35", 110, tiny, ["--soonest"])


def lunch():
    v = worked.finish("v", {"handle": "6 h"})
    job = worked.job("lunch", {"s": [worked.coats("v")]}, rows(["tiles"], 9, "s", 30), shop=shop(10, 10))
    return Problem("thirty tiles over lunch", job, [v],
                   [("Mon 08:00", "Mon 13:55", [("tiles", "Mon 08:10", "Mon 13:45")])], "Mon 19:45", 290,
                   brute.Job(pieces(["tiles"], [brute.Step(brush(), (9,) * 30, held=360)]), ONE))


def pot_life():
    """67 min of pot life are 60 of working time, ten in a hundred kept as a margin."""
    mixed = {"components": [{"component": c, "parts": 1, "density": "1 kg/l"} for c in ("base", "hardener")], "mix-by": "volume",
             "ratio-tolerance": "10 %", "pot-life": "67 min"}
    t = worked.finish("t", {"handle": "6 h"}, **mixed)
    t["sources"] |= {group: "worked by hand" for group in ("pot-life", "ratio-tolerance", "mix-by")}
    job = worked.job("pot life", {"s": [worked.coats("t")]}, rows("ABC", 10, "s", 4), shop=shop(10, 10))
    kind = brute.Kind("two-part", 10, 10, 120, 60, 67)
    return Problem("pot life", job, [t],
                   [("Mon 08:00", "Mon 10:30", [(None, "Mon 08:15", "Mon 08:55"), (None, "Mon 08:55", "Mon 09:40"),
                                                (None, "Mon 09:40", "Mon 10:20")])], "Mon 16:20", 150,
                   brute.Job(pieces("ABC", [brute.Step(kind, (10,) * 4, held=360)]), ONE))


PROBLEMS = [
    together(), pause(), gun(),
    wait_for_the_other([], [("Wed 08:00", "Wed 09:00", [(None, "Wed 08:10", "Wed 08:30"), (None, "Wed 08:30", "Wed 08:50")])],
                       "Wed 14:50", 60),
    wait_for_the_other(["--soonest"], [("Mon 08:00", "Mon 08:40", [("A", "Mon 08:10", "Mon 08:30")]),
                                       ("Wed 08:00", "Wed 08:40", [("B", "Wed 08:10", "Wed 08:30")])], "Wed 14:30", 80),
    rack(),
    two_people([], [("Mon 08:00", "Mon 10:05", [("panels", "Mon 08:05", "Mon 10:05")])], "Mon 10:05", 125),
    two_people(["--soonest"], [("Mon 08:00", "Mon 09:05", [("panels", "Mon 08:05", "Mon 09:05")])] * 2, "Mon 09:05", 130),
    one_grit([], [("Wed 08:00", "Wed 08:35", [(None, "Wed 08:15", "Wed 08:25"), (None, "Wed 08:25", "Wed 08:35")])], "Wed 08:35", 35,
             [brute.Kind("320", 15)] * 2, False),
    one_grit(["--soonest"], [("Mon 08:00", "Mon 08:15", [("A", "Mon 08:05", "Mon 08:15")]),
                             ("Wed 08:00", "Wed 08:25", [("B", "Wed 08:15", "Wed 08:25")])], "Wed 08:25", 40,
             [brute.Kind("sanded", 5), brute.Kind("scuffed", 15)], False),
    two_grits(), one_waits_for_its_grit(), long_sanding(), lunch(), pot_life()]

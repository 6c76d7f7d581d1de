"""The problems worked by hand (method, section 7; solver, last section) as jobs with finishes and shops of their own.

Areas and rates are chosen so that every step takes the time that the problem states: the brush covers 1 m2 an hour, and
set-up, clean-up and handling are nought. Monday is 2027-03-01.
"""
import json
import tempfile
from dataclasses import dataclass, field
from pathlib import Path

import checker
import job_reader

MONDAY = "2027-03-01"
WEEK = {"Mon": "2027-03-01", "Tue": "2027-03-02", "Wed": "2027-03-03", "Thu": "2027-03-04", "Fri": "2027-03-05",
        "Sat": "2027-03-06", "Sun": "2027-03-07"}
DAILY = {day: ["08:00-17:00"] for day in ("mon", "tue", "wed", "thu", "fri", "sat", "sun")}
WORKDAYS = {day: ["08:00-12:00", "13:00-17:00"] for day in ("mon", "tue", "wed", "thu", "fri")}
ZONE = "UTC"  # no clock change may lend a night an hour, but where it is the problem
FOREVER = "300 d"


@dataclass
class Problem:
    name: str
    job: dict
    finishes: list
    starts: dict  # step id -> "Mon 08:00"
    ready: str  # "Mon 15:00", or None where no plan exists
    whole_model: bool = False  # needs rack, dust, several people or --latest
    same: bool = False  # pieces are alike: only the moments by kind of work are fixed
    late_min: int = 0
    chain: list = field(default_factory=list)  # steps that the chain must name
    options: list = field(default_factory=list)
    notes: dict = field(default_factory=dict)  # step id -> what it must note
    together: list = field(default_factory=list)  # rows of steps that share a batch; every other step has its own


def moment(text):
    """`Mon 08:00` as a moment of the job."""
    day, clock = text.split()
    return f"{WEEK[day]} {clock}"


def finish(name, times, **more):
    """A finish with the times stated; what is not stated comes no later than that."""
    handle = times.get("handle", "1 h")
    full = {"dust-free": times.get("dust-free", handle), "handle": handle, "recoat": times.get("recoat", [handle, FOREVER]),
            "light-use": times.get("cured", handle), "cured": times.get("cured", handle), "at": "23 C 50 %"}
    if "sand" in times:
        full["sand"] = times["sand"]
    record = {"format": "coatwright-finish/1", "finish": name, "name": name.capitalize(), "family": "lacquer",
              "dries-by": "reaction", "components": [{"component": "varnish", "parts": 1, "density": "1 kg/l"}],
              "coverage": {"first": "10 m2/l", "later": "10 m2/l", "tolerance": "10 %"}, "by": ["brush"],
              "coats": {"usual": 1, "most": 9}, "times": full, "late-recoat": "refuse",
              "air": {"temperature": ["5 C", "35 C"], "humidity": ["0 %", "90 %"]},
              "resists": {"water": 1, "alcohol": 1, "heat": 1, "wear": 1, "outdoors": 0}, "cautions": [],
              "sources": {group: "worked by hand" for group in (
                  "components", "coverage", "coats", "times", "late-recoat", "air", "resists", "polish", "flip")}}
    return {**record, **more}


def shop(**more):
    plain = {"people": 1, "hours": DAILY, "air": [{"from": "00:00", "temperature": "23 C", "humidity": "50 %"}],
             "settle": "0 min", "set-up": "0 min", "clean-up": "0 min", "handling": "0 min",
             "rates": {"brush": "1 m2/h", "sand": "1 m2/h", "polish": "4 m2/h", "scuff": "4 m2/h"},
             "losses": {"brush": "0 ml"}}
    rates = {**plain["rates"], **more.pop("rates", {})}
    return {**plain, **more, "rates": rates}


def job(name, schedules, parts, **more):
    """A job of parts given as (piece, area, schedule) or whole rows."""
    rows = [p if isinstance(p, dict) else {"part": p[0], "shape": "area", "area": p[1], "region": "face", "face": p[2],
                                           "wood": "beech"} for p in parts]
    plain = {"format": "coatwright-job/1", "job": name, "units": "mm", "zone": ZONE, "currency": "GBP",
             "start": f"{MONDAY} 08:00", "deliver": "2027-04-30 17:00", "deliver-at": "handle", "finishes": "finishes",
             "shop": shop(), "schedules": schedules, "parts": rows}
    return {**plain, **more}


def coats(name, count=1, **more):
    return {"coat": name, "coats": count, **more}


def panel(size, schedule):
    return {"part": "panel", "shape": "board", "length": size[0], "width": size[1], "thickness": 1, "face": schedule,
            "back": schedule, "wood": "beech"}


def one_coat():
    return Problem("one piece, one coat", job("one", {"s": [coats("v")]}, [("a", "1 m2", "s")]),
                   [finish("v", {"handle": "6 h"})], {"a/s/1/apply": "Mon 08:00"}, "Mon 15:00")


def two_coats(window, late, name, starts, ready):
    v = finish("v", {"handle": "6 h", "recoat": window}, **{"late-recoat": late})
    return Problem(name, job("two", {"s": [coats("v", 2)]}, [("a", "1 m2", "s")]), [v], starts, ready)


def recoat_overnight():
    return two_coats(["10 h", FOREVER], "refuse", "two coats, recoat 10 h",
                     {"a/s/1/apply": "Mon 08:00", "a/s/2/apply": "Tue 08:00"}, "Tue 15:00")


def window_makes_late_start():
    return two_coats(["10 h", "20 h"], "refuse", "recoat window 10 h to 20 h",
                     {"a/s/1/apply": "Mon 11:00", "a/s/2/apply": "Tue 08:00"}, "Tue 15:00")


def window_never_opens():
    return two_coats(["10 h", "14 h"], "refuse", "recoat window 10 h to 14 h, refused", {}, None)


def window_never_opens_on_a_rack():
    """The same for a piece of two lots that take unlike room on a rack: that changes nothing."""
    v = finish("v", {"handle": "6 h", "recoat": ["10 h", "14 h"]})
    boards = [{"part": f"board {width}", "piece": "a", "shape": "board", "length": 1000, "width": width, "thickness": 10, "face": "s",
               "wood": "beech"} for width in (1000, 500)]
    two = job("lots", {"s": [coats("v", 2)]}, boards, shop=shop(rack="2 m2"), pieces=[{"piece": "a", "laid": "flat", "lots": 2}])
    return Problem("recoat window 10 h to 14 h, refused, in two lots on a rack", two, [v], {}, None, whole_model=True)


def window_scuffed():
    return two_coats(["10 h", "14 h"], "scuff", "recoat window 10 h to 14 h, scuffed",
                     {"a/s/1/apply": "Mon 08:00", "a/s/1/scuff-320": "Tue 08:00", "a/s/2/apply": "Tue 08:15"}, "Tue 15:15")


def polish_in_the_wait():
    wax = finish("w", {"handle": "1 h"}, polish=["10 min", "20 min"])
    starts = {"a/s/1/apply": "Mon 08:00", "a/s/1/polish": "Mon 09:10", "b/s/1/apply": "Mon 09:25", "b/s/1/polish": "Mon 10:35"}
    return Problem("polish windows of two pieces", job("polish", {"s": [coats("w")]}, [("a", "1 m2", "s"), ("b", "1 m2", "s")]),
                   [wax], starts, "Mon 11:25", same=True)


def both_faces():
    v = finish("v", {"handle": "4 h"})
    panels = job("panel", {"s": [coats("v")]}, [panel((1000, 500), "s")], pieces=[{"piece": "panel", "laid": "flat"}])
    return Problem("a flat panel, both faces", panels, [v],
                   {"panel/s/1b/apply": "Mon 08:00", "panel/s/1b/flip": "Mon 12:30", "panel/s/1f/apply": "Mon 12:31"},
                   "Mon 17:05", together=[["panel/s/1b/flip", "panel/s/1f/apply"]])


def back_sealed_once():
    """The face gets three coats, the back one: the back is sealed first, and the panel turned over once."""
    v = finish("v", {"handle": "4 h"})
    panels = job("panel", {"s": [coats("v", 3)], "t": [coats("v")]}, [panel((1000, 500), "s") | {"back": "t"}],
                 pieces=[{"piece": "panel", "laid": "flat"}], shop=shop(hours={day: ["00:00-24:00"] for day in DAILY}))
    return Problem("a back that is only sealed", panels, [v],
                   {"panel/t/1b/apply": "Mon 08:00", "panel/t/1b/flip": "Mon 12:30", "panel/s/1f/apply": "Mon 12:31",
                    "panel/s/2f/apply": "Mon 17:05", "panel/s/3f/apply": "Mon 21:35"},
                   "Tue 02:05", together=[["panel/t/1b/flip", "panel/s/1f/apply"]])


def sand_in_the_room():
    v = finish("v", {"dust-free": "2 h", "handle": "6 h"})
    both = job("room", {"s": [coats("v")], "bare": [{"sand": 120}]}, [("a", "0.5 m2", "s"), ("b", "1 m2", "bare")])
    return Problem("coat and sand in one room", both, [v], {"a/s/1/apply": "Mon 08:00", "b/bare/0/sand-120": "Mon 10:30"},
                   "Mon 14:30", whole_model=True)


def cold_night():
    air = [{"from": "08:00", "temperature": "23 C", "humidity": "50 %"}, {"from": "18:00", "temperature": "13 C", "humidity": "50 %"}]
    cold = job("night", {"s": [coats("v")]}, [("a", "2 m2", "s")], shop=shop(air=air))
    return Problem("drying into a cold night", cold, [finish("v", {"handle": "12 h"})], {"a/s/1/apply": "Mon 08:00"}, "Tue 02:00")


def too_cold_a_night():
    """Problem 7 with a finish for 15 C and more: 8 h by 18:00, nothing in the night, which is reported, the other 4 h by noon."""
    air = [{"from": "08:00", "temperature": "23 C", "humidity": "50 %"}, {"from": "18:00", "temperature": "13 C", "humidity": "50 %"}]
    oil = finish("v", {"handle": "12 h"}, air={"temperature": ["15 C", "35 C"], "humidity": ["0 %", "90 %"]},
                 **{"dries-by": "oxidation"})
    cold = job("night", {"s": [coats("v")]}, [("a", "2 m2", "s")], shop=shop(air=air))
    return Problem("no drying in too cold a night", cold, [oil], {"a/s/1/apply": "Mon 08:00"}, "Tue 12:00",
                   notes={"a/s/1/apply": "dries in air outside its limits from Mon 1 Mar 18:00 to Tue 2 Mar 08:00"})


def rack_of_one():
    rack = job("rack", {"s": [coats("v")]}, [("a", "1 m2", "s"), ("b", "1 m2", "s")], shop=shop(rack="1 m2"),
               pieces=[{"piece": "a", "rack": "0.6 m2"}, {"piece": "b", "rack": "0.6 m2"}])
    return Problem("rack of 1 m2, two pieces", rack, [finish("v", {"handle": "6 h"})],
                   {"a/s/1/apply": "Mon 08:00", "b/s/1/apply": "Mon 15:00"}, "Mon 22:00", whole_model=True, same=True)


def a_piece_lies_there_once():
    """Two coats within a window that closes before the first can be handled, on a rack that holds the piece once: coat 2 at
    13:00, 4 h after the end of coat 1. A second piece has to wait until both films bear handling, at 02:00."""
    twice = job("once", {"s": [coats("v", 2)], "t": [coats("v")]}, [("a", "1 m2", "s"), ("b", "1 m2", "t")],
                shop=shop(rack="1 m2"), pieces=[{"piece": "a", "rack": "0.6 m2"}, {"piece": "b", "rack": "0.6 m2", "after": ["a"]}])
    varnish = finish("v", {"dust-free": "1 h", "handle": "12 h", "recoat": ["4 h", "6 h"]})
    return Problem("a piece lies on the rack once", twice, [varnish],
                   {"a/s/1/apply": "Mon 08:00", "a/s/2/apply": "Mon 13:00", "b/t/1/apply": "Tue 08:00"}, "Tue 21:00",
                   whole_model=True)


def lunch_break():
    steps = {"s": [{"sand": 120}, coats("v")]}
    day = job("break", steps, [("a", "0.5 m2", "s")], start=f"{MONDAY} 11:30", **{"deliver-at": "cured"},
              shop=shop(hours=WORKDAYS, rates={"sand": "0.5 m2/h"}))
    return Problem("break", day, [finish("v", {"handle": "6 h", "cured": "24 h"})],
                   {"a/s/0/sand-120": "Mon 13:00", "a/s/1/apply": "Mon 14:00"}, "Tue 14:30")


def nights():
    v = finish("v", {"handle": "4 h", "recoat": ["4 h", FOREVER], "cured": "48 h"})
    three = job("nights", {"s": [coats("v", 3)]}, [("a", "0.5 m2", "s")], **{"deliver-at": "cured"}, shop=shop(hours=WORKDAYS))
    return Problem("nights", three, [v], {"a/s/1/apply": "Mon 08:00", "a/s/2/apply": "Mon 13:00", "a/s/3/apply": "Tue 08:00"},
                   "Thu 08:30")


# The weekend's problem begins on a Friday: days of the week after it are meant.
def weekend(name="weekend against the window", starts=None, ready="2027-03-09 02:00", missed="refuse", **more):
    v = finish("v", {"handle": "4 h", "recoat": ["4 h", "24 h"], "cured": "12 h"}, **{"late-recoat": missed})
    starts = starts or {"a/s/1/apply": "2027-03-08 08:00", "a/s/2/apply": "2027-03-08 13:00"}
    two = job("weekend", {"s": [coats("v", 2)]}, [("a", "1 m2", "s")], start="2027-03-05 13:00", **{"deliver-at": "cured"},
              shop=shop(hours=WORKDAYS), **{k: v for k, v in more.items() if k == "deliver"})
    return Problem(name, two, [v], starts, ready, **{k: v for k, v in more.items() if k != "deliver"})


LATE = {"starts": {"a/s/1/apply": "2027-03-08 11:00", "a/s/2/apply": "2027-03-08 16:00"}, "ready": "2027-03-09 05:00",
        "deliver": "2027-03-09 08:00", "whole_model": True, "options": ["--latest"]}


def weekend_late():
    return weekend("weekend, as late as possible", **LATE)


def weekend_scuffed():
    """Where a scuff opens the window, Friday can do: 15 minutes of it on Monday are quicker than both coats."""
    starts = {"a/s/1/apply": "2027-03-05 13:00", "a/s/1/scuff-320": "2027-03-08 08:00", "a/s/2/apply": "2027-03-08 08:15"}
    return weekend("weekend, scuffed", starts, "2027-03-08 21:15", missed="scuff", options=["--soonest"])


def weekend_late_unscuffed():
    """As late as possible both coats are on Monday, inside the window: there is nothing left to scuff for."""
    return weekend("weekend, as late as possible, no scuff left", missed="scuff", **LATE)


def three_on_two_places():
    parts = [(name, "0.5 m2", "s") for name in "abc"]
    rack = job("places", {"s": [coats("v")]}, parts, shop=shop(hours=WORKDAYS, rack="2 m2"),
               pieces=[{"piece": name, "rack": "1 m2"} for name in "abc"])
    return Problem("rack of two places", rack, [finish("v", {"handle": "2 h"})],
                   {"c/s/1/apply": "Mon 08:00", "a/s/1/apply": "Mon 10:00", "b/s/1/apply": "Mon 10:30"}, "Mon 13:00",
                   whole_model=True, same=True)


def dust(people, starts, ready):
    v = finish("v", {"dust-free": "1 h", "handle": "1 h"})
    both = job("dust", {"a": [coats("v")], "b": [{"sand": 120}, coats("v")]}, [("a", "0.5 m2", "a"), ("b", "0.5 m2", "b")],
               shop=shop(hours=WORKDAYS, people=people, rates={"sand": "0.5 m2/h"}))
    return Problem(f"dust, {people} at work", both, [v], starts, ready, whole_model=True, same=True)


def dust_alone():
    return dust(1, {"b/b/0/sand-120": "Mon 08:00", "a/a/1/apply": "Mon 09:00", "b/b/1/apply": "Mon 09:30"}, "Mon 11:00")


def dust_together():
    return dust(2, {"b/b/0/sand-120": "Mon 08:00", "a/a/1/apply": "Mon 09:00", "b/b/1/apply": "Mon 09:00"}, "Mon 10:30")


def late():
    v = finish("v", {"handle": "12 h", "recoat": ["24 h", FOREVER], "cured": "72 h"})
    three = job("late", {"s": [coats("v", 3)]}, [("a", "0.5 m2", "s")], deliver=f"{WEEK['Fri']} 17:00",
                **{"deliver-at": "cured"}, shop=shop(hours=WORKDAYS))
    starts = {"a/s/1/apply": "Mon 08:00", "a/s/2/apply": "Tue 08:30", "a/s/3/apply": "Wed 09:00"}
    return Problem("late, with its chain", three, [v], starts, "Sat 09:30", whole_model=True, late_min=990, chain=list(starts))


def air_turns(name, **spell):
    """The air turns at 08:40, in the middle of an hour's coat, and is good again at 10:00: on that day alone."""
    good = {"temperature": "23 C", "humidity": "50 %"}
    day = [{"on": MONDAY, "from": clock, **air} for clock, air in (("00:00", good), ("08:40", spell), ("10:00", good))]
    one = job("turn", {"s": [coats("v")]}, [("a", "1 m2", "s")], shop=shop(air=[{"from": "00:00", **good}, *day]))
    return Problem(name, one, [finish("v", {"handle": "6 h"})], {"a/s/1/apply": "Mon 10:00"}, "Mon 17:00")


def cold_in_the_middle():
    return air_turns("too cold in the middle of a coat", temperature="2 C", humidity="50 %")


def dew_in_the_middle():
    """23 C and 88 % have their dew point at 20.9 C, less than 3 C below, and are inside the finish's 90 %."""
    return air_turns("dew in the middle of a coat", temperature="23 C", humidity="88 %")


def clock_change(name, day, recoat, starts, ready):
    """Two coats of an hour, the first on Saturday from 16:00; London's clocks change in the night to Sunday."""
    v = finish("v", {"handle": "6 h", "recoat": [recoat, FOREVER]})
    two = job("clocks", {"s": [coats("v", 2)]}, [("a", "1 m2", "s")], zone="Europe/London", start=f"{day} 16:00",
              deliver="2027-12-17 17:00")
    return Problem(name, two, [v], starts, ready)


def spring_forward():
    """15 hours from 17:00 GMT are over at 08:00 GMT, which is 09:00: the shop has been open since 08:00."""
    return clock_change("clocks go forward", "2027-03-27", "15 h",
                        {"a/s/1/apply": "2027-03-27 16:00", "a/s/2/apply": "2027-03-28 09:00"}, "2027-03-28 16:00")


def fall_back():
    """16 hours from 17:00 BST are over at 08:00 GMT, when the shop opens."""
    return clock_change("clocks go back", "2027-10-30", "16 h",
                        {"a/s/1/apply": "2027-10-30 16:00", "a/s/2/apply": "2027-10-31 08:00"}, "2027-10-31 15:00")


PROBLEMS = [one_coat(), recoat_overnight(), window_makes_late_start(), window_never_opens(),
            window_never_opens_on_a_rack(), window_scuffed(), polish_in_the_wait(), both_faces(), back_sealed_once(), sand_in_the_room(), cold_night(), too_cold_a_night(), rack_of_one(),
            a_piece_lies_there_once(), lunch_break(), nights(), weekend(), weekend_late(), weekend_scuffed(),
            weekend_late_unscuffed(), three_on_two_places(), dust_alone(), dust_together(), late(), cold_in_the_middle(),
            dew_in_the_middle(), spring_forward(), fall_back()]


def dated(text):
    """A moment of a problem, by weekday or in full."""
    return moment(text) if text[:3] in WEEK else text


def write(problem, folder):
    """Writes the job and its finishes below a folder and returns the job's path."""
    finishes = folder / "finishes"
    finishes.mkdir(parents=True, exist_ok=True)
    for record in problem.finishes:
        (finishes / f"{record['finish']}.json").write_text(json.dumps(record, indent=1))
    path = folder / "job.json"
    path.write_text(json.dumps(problem.job, indent=1))
    return path


def load(problem):
    """The job of a problem, written to a folder and read back."""
    with tempfile.TemporaryDirectory() as folder:
        return job_reader.read_job(write(problem, Path(folder)), checker.TABLE)

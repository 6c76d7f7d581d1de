#!/usr/bin/env python3
"""jobs.py --seed N --out FOLDER [--features basic|shop|all]: writes a job of random shop, parts and schedules.

`basic` keeps to one person and plain shapes; `shop` adds people, rack, spray places, rooms for dust, dated air and every
shape but meshes; `all` adds busy times from another calendar. The same seed gives the same job on every machine.
"""
import argparse
import csv
import datetime as dt
import json
import random
import sys
from pathlib import Path

import jobs_finishes

STARTS = [dt.date(2027, 3, 1), dt.date(2027, 3, 24), dt.date(2027, 10, 28)]  # two of them before a clock change
WOODS = ["oak", "beech", "walnut", "pine", "birch plywood", "mdf", "cherry", "oak veneer"]
ONE_TOOL = {"hardwax-oil-two-part": ["pad", "cloth"], "waterborne-polyurethane-two-part": ["hvlp", "roller"],
            "post-catalysed-varnish": ["hvlp"], "nitrocellulose-lacquer": ["hvlp"], "waterborne-polyurethane": ["brush", "hvlp"],
            "brushing-varnish": ["brush"], "wiping-varnish": ["cloth", "brush"], "danish-oil": ["cloth"], "tung-oil": ["cloth"],
            "boiled-linseed-oil": ["cloth"], "hardwax-oil": ["cloth", "pad"], "shellac-dewaxed": ["brush", "cloth"]}
OILS = ["danish-oil", "tung-oil", "boiled-linseed-oil", "hardwax-oil", "hardwax-oil-two-part"]
FILMS = ["wiping-varnish", "brushing-varnish", "shellac-dewaxed", "nitrocellulose-lacquer", "waterborne-polyurethane",
         "waterborne-polyurethane-two-part", "post-catalysed-varnish"]
STATES = ["handle", "wrap", "light-use", "cured"]
HOURS = [{"mon": ["08:00-12:00", "13:00-17:00"], "tue": ["08:00-12:00", "13:00-17:00"], "wed": ["08:00-12:00", "13:00-17:00"],
          "thu": ["08:00-12:00", "13:00-17:00"], "fri": ["08:00-12:00", "13:00-17:00"]},
         {"mon": ["07:30-12:00", "12:45-16:15"], "tue": ["07:30-12:00", "12:45-18:00"], "wed": ["07:30-12:00"],
          "thu": ["07:30-12:00", "12:45-16:15"], "fri": ["07:30-14:00"], "sat": ["09:00-13:00"]},
         {"mon": ["06:00-14:00"], "tue": ["06:00-14:00"], "wed": ["06:00-14:00"], "thu": ["06:00-14:00"],
          "fri": ["06:00-12:00"], "sun": ["16:00-20:00"]}]
ZONES = ["Europe/London", "Europe/Berlin", "America/New_York", "UTC"]


class Maker:
    """Draws one job."""

    def __init__(self, seed, features):
        self.chance, self.seed, self.rich = random.Random(seed), seed, features != "basic"
        self.start = self.chance.choice(STARTS)

    def maybe(self, share):
        return self.chance.random() < share

    def day(self, first, last):
        return self.start + dt.timedelta(days=self.chance.randint(first, last))

    def air(self):
        day, night = self.chance.randint(17, 25), self.chance.randint(13, 17)
        damp = self.chance.randint(40, 62)
        rounds = [{"from": self.chance.choice(["06:00", "07:30", "08:00"]), "temperature": f"{day} C", "humidity": f"{damp} %"},
                  {"from": self.chance.choice(["17:00", "18:00", "20:30"]), "temperature": f"{night} C", "humidity": f"{damp + 5} %"}]
        if self.rich and self.maybe(0.4):
            rounds.append({"on": str(self.day(2, 12)), "from": "00:00", "temperature": "11 C", "humidity": "70 %"})
        return rounds

    def shop(self):
        shop = {"hours": self.chance.choice(HOURS), "air": self.air(), "settle": self.chance.choice(["0 min", "15 min", "30 min"])}
        if self.maybe(0.5):
            shop["closed"] = [str(self.day(1, 6)), f"{self.day(8, 10)}..{self.day(10, 13)}"]
        if self.maybe(0.4):
            shop["rates"] = {"sand": f"{self.chance.randint(6, 12)} m2/h", "brush": f"{self.chance.randint(5, 9)} m2/h"}
        if self.maybe(0.3):
            shop["set-up"] = self.chance.choice(["5 min", {"sand": "3 min", "hvlp": "20 min"}])
        if self.rich:
            shop["people"] = self.chance.choice([1, 2, 2, 3])
            shop["dust-room"] = self.chance.choice(["shared", "shared", "separate"])
            shop["spray-places"] = self.chance.choice([1, 1, 2])
            if self.maybe(0.5):
                shop["rack"] = f"{self.chance.choice([3, 4, 6])} m2"
        return shop

    def coat(self, finish, most=3):
        step = {"coat": finish, "by": self.chance.choice(ONE_TOOL.get(finish, ["cloth"]))}
        if self.maybe(0.7):
            step["coats"] = self.chance.randint(1, 2 if finish == "hardwax-oil-two-part" else most)
        if self.maybe(0.1) and finish in ("shellac-dewaxed", "brushing-varnish"):
            step["thin"] = self.chance.choice(["10 %", "4:1"])
        if self.maybe(0.2):
            step["between"] = self.chance.choice([{"sand": 320}, {"scuff": 400}])
        return step

    def house_finish(self):
        return jobs_finishes.finish(self.chance)

    def schedule(self):
        """Sanding, sometimes raised grain, a finish or two, sometimes wax or rubbing out behind them."""
        steps = [{"sand": grit} for grit in self.chance.choice([[120, 180], [180], [150, 180, 220]])]
        if self.maybe(0.2):
            steps += [{"raise": True, **({"dry": "1 h"} if self.maybe(0.5) else {})}, {"sand": 220}]
        if self.maybe(0.15):
            steps.append({"mask": True, "takes": "10 min"})
        if self.maybe(0.35):
            return steps + [self.coat(self.chance.choice(OILS), 2)]
        if self.maybe(0.25):
            steps += [self.coat("shellac-dewaxed", 1), {"scuff": 320}]
        if self.maybe(0.4):
            return steps + [{"coat": "house-finish", "coats": self.chance.randint(1, 4)}] + self.ending()
        steps.append(self.coat(self.chance.choice(FILMS)))
        return steps + self.ending()

    def ending(self):
        if self.maybe(0.15):
            return [{"wait": "cured"}, {"coat": "paste-wax"}]
        if self.maybe(0.15):
            return [{"wait": "2 d"}, {"rub": "steel wool 0000"}]
        return [{"task": "look over", "takes": "10 min"}] if self.maybe(0.1) else []

    def size(self, least, most):
        return str(self.chance.randint(least, most))

    def board(self):
        return {"shape": "board", "length": self.size(300, 1200), "width": self.size(80, 500), "thickness": self.size(12, 30)}

    def shape(self):
        """A part's shape and size."""
        kinds = ["board", "board", "triangle", "round", "box", "area"]
        if self.rich:
            kinds += ["disc", "taper", "cone", "turning", "frame", "moulding", "polygon"]
        kind = self.chance.choice(kinds)
        return {"board": self.board,
                "triangle": lambda: {"shape": kind, "base": self.size(100, 400), "height": self.size(80, 300), "thickness": "18"},
                "round": lambda: {"shape": kind, "diameter": self.size(20, 60), "length": self.size(300, 800)},
                "box": lambda: {"shape": kind, "length": self.size(300, 700), "width": self.size(200, 400),
                                "height": self.size(200, 500), "thickness": "18", "open": "front"},
                "area": lambda: {"shape": kind, "area": f"0.{self.chance.randint(2, 8)} m2"},
                "disc": lambda: {"shape": kind, "diameter": self.size(200, 700), "thickness": "25"},
                "taper": lambda: {"shape": kind, "width": "50", "width2": "30", "length": self.size(400, 750)},
                "cone": lambda: {"shape": kind, "diameter": "50", "diameter2": "25", "length": self.size(400, 750)},
                "turning": lambda: {"shape": kind, "profile": "0 45; 100 30; 250 60; 700 35"},
                "frame": lambda: {"shape": kind, "length": self.size(500, 900), "width": self.size(300, 450), "member": "60",
                                  "thickness": "20"},
                "moulding": lambda: {"shape": kind, "girth": "95", "length": self.size(600, 2400)},
                "polygon": lambda: {"shape": kind, "corners": "6", "side": self.size(80, 250), "thickness": "18"}}[kind]()

    def part(self, piece, number, schedules, flat):
        row = {"part": f"{piece} part {number}", "piece": piece, "qty": str(self.chance.choice([1, 1, 1, 2, 4])),
               "wood": self.chance.choice(WOODS), **(self.board() if flat else self.shape())}
        first = self.chance.choice(schedules)
        if flat or row["shape"] == "board" and self.maybe(0.3):
            row.update({"face": first, "back": first, "edges": first, "ends": first})
        elif row["shape"] == "box" and self.maybe(0.6):
            row.update({"outside": first, "inside": self.chance.choice([*schedules, "-"]), "edges": first})
        else:
            row["all"] = first
        if self.maybe(0.15):
            row["work"] = "1.5"
        return row

    def flat_piece(self, rows, schedules):
        """Both sides of a panel; sometimes the back gets another schedule than the face, and the edges either of them."""
        face = rows[0]["face"]
        back = self.chance.choice(schedules) if self.maybe(0.3) else face
        rim = self.chance.choice([face, face, back, "-"])
        bare_face = self.maybe(0.1)
        for row in rows:
            row.update({"face": "-" if bare_face else face, "back": back, "edges": rim, "ends": rim})

    def piece(self, name, earlier, schedules):
        """The rows of a piece and its entry in the job."""
        flat = self.maybe(0.4)
        rows = [self.part(name, k + 1, schedules, flat) for k in range(self.chance.choice([1, 1, 2]))]
        entry = {"piece": name}
        if flat:
            entry["laid"] = "flat"
            self.flat_piece(rows, schedules)
        if earlier and self.maybe(0.2):
            state = self.chance.choice(["", " handle", " recoat", " light-use"])
            entry["after"] = [self.chance.choice(earlier) + state]
        if self.maybe(0.2):
            entry["ready"] = str(self.day(1, 8))
        if self.rich and self.maybe(0.2):
            entry["rack"] = "0.8 m2"
        return rows, entry

    def tasks(self, pieces):
        """Tasks in the order of the pieces, so that no circle arises."""
        if not self.maybe(0.4):
            return []
        place = self.chance.randrange(len(pieces))
        task = {"task": "fit hinges", "takes": self.chance.choice(["20 min", "45 min", "1 h 30 min"]),
                "after": [pieces[place] + self.chance.choice(["", " handle"])]}
        return [{**task, "before": [pieces[-1]]} if place < len(pieces) - 1 and self.maybe(0.4) else task]

    def job(self):
        """(job, shop, part rows)."""
        schedules = {f"s{k}": self.schedule() for k in range(1, 3)}
        names = [f"piece {c}" for c in "abcdef"[:self.chance.randint(2, 5)]]
        rows, entries = [], []
        for i, name in enumerate(names):
            mine, entry = self.piece(name, names[:i], list(schedules))
            rows, entries = rows + mine, entries + [entry]
        job = {"format": "coatwright-job/1", "job": f"generated {self.seed}", "units": "mm", "zone": self.chance.choice(ZONES),
               "currency": "EUR", "start": f"{self.start} 08:00", "deliver": str(self.day(45, 90)),
               "deliver-at": self.chance.choice(STATES), "shop": "shop.json", "finishes": "finishes", "stock": "stock.csv",
               "schedules": schedules, "pieces": entries,
               "parts": "parts.csv"}
        if self.maybe(0.2):
            schedules["blank"] = [{"sand": 120}, {"sand": 180}]
            rows.append({"part": "blanks", "piece": "blanks", "qty": "40", "wood": "oak", "shape": "board", "length": "1200",
                         "width": "500", "thickness": "22", "face": "blank", "back": "blank"})
        tasks = self.tasks(names)
        return {**job, **({"tasks": tasks} if tasks else {})}, self.shop(), rows


def busy_calendar(maker):
    """A calendar with a few afternoons away."""
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Shop//Diary//EN"]
    for k in range(3):
        day = maker.day(0, 20).strftime("%Y%m%d")
        lines += ["BEGIN:VEVENT", f"UID:away-{k}@shop.example", "DTSTAMP:20270101T000000Z", f"DTSTART:{day}T140000Z",
                  f"DTEND:{day}T153000Z", "SUMMARY:Away", "END:VEVENT"]
    return "\r\n".join(lines + ["END:VCALENDAR", ""])


def write_files(maker, folder, busy=False):
    """Writes what a maker draws below a folder and returns the path of the job."""
    folder = Path(folder)
    folder.mkdir(parents=True, exist_ok=True)
    job, shop, rows = maker.job()
    if busy and maker.maybe(0.3):
        shop["busy"] = ["away.ics"]
        (folder / "away.ics").write_text(busy_calendar(maker), newline="")
    (folder / "finishes").mkdir(exist_ok=True)
    (folder / "finishes" / "house-finish.json").write_text(json.dumps(maker.house_finish(), indent=1))
    (folder / "stock.csv").write_text("\n".join(jobs_finishes.stock(maker.chance, maker.start)) + "\n")
    names = list(dict.fromkeys(key for row in rows for key in row))
    with open(folder / "parts.csv", "w", newline="", encoding="utf-8") as file:
        writer = csv.DictWriter(file, names, restval="")
        writer.writeheader()
        writer.writerows(rows)
    (folder / "shop.json").write_text(json.dumps(shop, indent=1))
    (folder / "job.json").write_text(json.dumps(job, indent=1))
    return folder / "job.json"


def write(seed, features, folder):
    """Writes the job of a seed below a folder and returns its path."""
    return write_files(Maker(seed, features), folder, busy=features == "all")


def main(arguments):
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--seed", type=int, required=True)
    parser.add_argument("--out", required=True)
    parser.add_argument("--features", choices=["basic", "shop", "all"], default="basic")
    options = parser.parse_args(arguments)
    print(write(options.seed, options.features, options.out))
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))

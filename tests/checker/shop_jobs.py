#!/usr/bin/env python3
"""shop_jobs.py --seed N --steps N --out FOLDER: writes a job of about so many steps, such as a shop of one or two people has.

Pieces with several coats, sanding between them, doors that are turned over, weekday hours. In every fifth job (seeds that
5 divides) recoat windows meet the weekend, the rack is small and dust and wet surfaces share a room; the others sand in a
room of their own and have racks enough. The shop, its house finish and the pieces are invented. The same seed gives the same
job on every machine.
"""
import argparse
import sys
from pathlib import Path

import jobs
import jobs_finishes

NAMES = ["top", "carcass", "door", "drawer front", "shelf", "leg frame", "plinth", "panel", "rail", "box"]
WEEKS = [{day: spans for day in ("mon", "tue", "wed", "thu", "fri")}
         for spans in (["08:00-12:00", "13:00-17:00"], ["07:30-12:00", "12:30-16:30"], ["08:00-12:30", "13:15-17:30"])]
# Finish, tools, coats from and to; sanded between coats.
COATS = [("wiping-varnish", ["cloth", "brush"], 2, 4), ("brushing-varnish", ["brush"], 2, 3),
         ("waterborne-polyurethane", ["hvlp", "brush"], 2, 3), ("shellac-dewaxed", ["brush"], 2, 3),
         ("hardwax-oil-two-part", ["pad"], 1, 1), ("house-finish", ["brush"], 2, 4)]
ABOUT = 3  # steps more or fewer than asked for
FAR_DELIVERY = 200  # days: no job is late, so none is planned again for advice


def steps_of(schedule, flat):
    """How many steps a piece of this schedule asks for; a flat piece is turned over between its sides."""
    bare = sum(1 for step in schedule if "sand" in step)
    coats = schedule[-1]["coats"]
    each_side = coats + (coats - 1)
    return bare + (2 * each_side + 2 * coats - 1 if flat else each_side)


class ShopMaker(jobs.Maker):
    """Draws one job."""

    def __init__(self, seed, steps):
        super().__init__(seed * 1000 + steps, "shop")
        self.hard, self.steps, self.people = seed % 5 == 0, steps, self.chance.choice([1, 2])
        self.deliver = self.day(FAR_DELIVERY, FAR_DELIVERY)

    def shop(self):
        shop = {"people": self.people, "hours": self.chance.choice(WEEKS), "settle": "30 min", "spray-places": 1,
                "dust-room": "shared" if self.hard else "separate",
                "air": [{"from": "07:30", "temperature": f"{self.chance.randint(18, 22)} C", "humidity": "50 %"},
                        {"from": "18:00", "temperature": f"{self.chance.randint(14, 17)} C", "humidity": "58 %"}]}
        return {**shop, "rack": f"{self.chance.choice([4, 5, 6])} m2"} if self.hard else shop

    def house_finish(self):
        """One component; what is coated on a Friday misses a narrow window over the weekend."""
        record = jobs_finishes.finish(self.chance)
        recoat = self.chance.randint(6, 12)
        window = recoat + self.chance.choice([24, 30, 40]) if self.hard else 300
        times = {"dust-free": "1 h", "handle": f"{self.chance.randint(3, 6)} h", "recoat": [f"{recoat} h", f"{window} h"],
                 "light-use": "2 d", "cured": "7 d", "at": "20 C 50 %"}
        for key in ("pot-life", "induction", "mix-by", "ratio-tolerance", "later-times", "wipe-off", "between"):
            record.pop(key, None)
        return {**record, "components": [{"component": "lacquer", "parts": 1, "density": "0.95 kg/l"}], "times": times,
                "dries-by": "oxidation", "late-recoat": self.chance.choice(["scuff", "scuff", "refuse"]),
                "coats": {"usual": 2, "most": 6}}

    def layers(self, finish):
        """Sanding, then coats of one finish."""
        name, tools, least, most = finish
        coat = {"coat": name, "by": self.chance.choice(tools), "coats": self.chance.randint(least, most),
                "between": {"sand": 320}}
        return [{"sand": grit} for grit in self.chance.choice([[120, 180], [150, 220], [180]])] + [coat]

    def pieces(self, schedules):
        """Pieces and their rows until there are steps enough; the last is of a kind that still fits."""
        rows, entries, steps = [], [], 0
        kinds = [(name, flat) for name in schedules for flat in (False, False, True)]
        fitting = kinds
        while steps < self.steps - ABOUT and fitting:
            name = f"{self.chance.choice(NAMES)} {len(entries) + 1}"
            schedule, flat = self.chance.choice(fitting)
            row = {"part": name, "piece": name, "qty": str(self.chance.choice([1, 1, 2, 4])),
                   "wood": self.chance.choice(jobs.WOODS), **self.board()}
            row.update({"face": schedule, "back": schedule, "edges": schedule} if flat else {"all": schedule})
            rows.append(row)
            entries.append({"piece": name, "laid": "flat" if flat else "hung"})
            if len(entries) > 1 and self.maybe(0.1):
                entries[-1]["after"] = [entries[-2]["piece"]]
            steps += steps_of(schedules[schedule], flat)
            fitting = [kind for kind in kinds if steps + steps_of(schedules[kind[0]], kind[1]) <= self.steps + ABOUT]
        return rows, entries

    def job(self):
        finishes = self.chance.sample(COATS, 3)
        if self.hard and COATS[-1] not in finishes:
            finishes[0] = COATS[-1]
        schedules = {finish[0]: self.layers(finish) for finish in finishes}
        rows, entries = self.pieces(schedules)
        job = {"format": "coatwright-job/1", "job": f"Shop job {self.seed}", "units": "mm", "zone": "Europe/London",
               "currency": "EUR", "start": f"{self.start} 08:00", "deliver": f"{self.deliver} 16:00",
               "deliver-at": self.chance.choice(["handle", "wrap", "light-use"]), "shop": "shop.json", "finishes": "finishes",
               "schedules": schedules, "pieces": entries, "parts": "parts.csv"}
        return job, self.shop(), rows


def write(seed, steps, folder):
    """Writes the job's files below a folder and returns the path of the job."""
    return jobs.write_files(ShopMaker(seed, steps), folder)


def write_several(seed, count, steps, folder, due=(8, 20)):
    """Writes jobs of one shop, each with a copy of it, other pieces, another start and a delivery that may be missed."""
    first, paths = ShopMaker(seed, steps), []
    shop = first.shop()
    for k in range(count):
        maker = ShopMaker(seed, steps + 1000 * (k + 1))
        maker.steps, maker.start = steps, first.day(0, 3)
        maker.deliver, maker.shop = maker.day(*due), lambda: shop
        paths.append(jobs.write_files(maker, Path(folder) / str(k + 1)))
    return paths


def main(arguments):
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--seed", type=int, required=True)
    parser.add_argument("--steps", type=int, required=True)
    parser.add_argument("--out", required=True)
    options = parser.parse_args(arguments)
    print(write(options.seed, options.steps, options.out))
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))

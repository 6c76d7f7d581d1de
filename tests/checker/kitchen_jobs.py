#!/usr/bin/env python3
"""kitchen_jobs.py --seed N --out FOLDER [--pieces N]: writes a job of many like pieces, as a kitchen or a run of shelves is.

2 to 40 pieces of one to four parts, one or two finishes laid with a gun, a brush or a roller, one to three coats sanded between,
both faces or one of them, one or two people, sometimes a rack that does not hold everything. The same seed gives the same job on
every machine.
"""
import argparse
import sys

import jobs

TOOLS = [("hvlp", "25 min", "20 min"), ("brush", "10 min", "10 min"), ("roller", "10 min", "15 min")]
FINISHES = [("acrylic-paint", ["hvlp", "roller", "brush"]), ("waterborne-polyurethane", ["hvlp", "brush"]),
            ("brushing-varnish", ["brush"]), ("house-finish", ["brush"])]
SIZES = {"door": (600, 900, 300, 600), "drawer front": (300, 900, 140, 300), "shelf": (500, 1000, 200, 350),
         "end panel": (700, 900, 350, 620)}


class KitchenMaker(jobs.Maker):
    """Draws one job."""

    def __init__(self, seed, pieces=None):
        super().__init__(seed, "shop")
        self.count = pieces or self.chance.choice([2, 4, 8, 16, 24, 32, 40])

    def shop(self):
        shop = {"hours": jobs.HOURS[0] if self.maybe(0.7) else self.chance.choice(jobs.HOURS), "people": self.chance.choice([1, 1, 2]),
                "settle": self.chance.choice(["0 min", "15 min", "30 min"]), "dust-room": self.chance.choice(["separate", "shared"]),
                "spray-places": 1, "set-up": {"sand": "5 min", **{tool: up for tool, up, _ in TOOLS}},
                "clean-up": {tool: down for tool, _, down in TOOLS}, "handling": {"hvlp": "1 min", "sand": "1 min"},
                "rates": {"hvlp": "20 m2/h", "sand": "8 m2/h"},
                "air": [{"from": "00:00", "temperature": f"{self.chance.randint(18, 23)} C", "humidity": "50 %"}]}
        return {**shop, "rack": f"{self.chance.choice([4, 8])} m2"} if self.maybe(0.4) else shop

    def layers(self, finish):
        name, tools = finish
        coat = {"coat": name, "by": self.chance.choice(tools), "coats": self.chance.randint(1, 3)}
        return [{"sand": grit} for grit in self.chance.choice([[180], [120, 180]])] + [coat | (
            {"between": {"sand": 320}} if self.maybe(0.6) else {})]

    def rows(self, schedules):
        flat = self.maybe(0.5)
        rows, entries = [], []
        for number in range(1, self.count + 1):
            kind = self.chance.choice(list(SIZES))
            name, schedule = f"{kind} {number}", self.chance.choice(schedules)
            length, length_most, width, width_most = SIZES[kind]
            rows.append({"part": name, "piece": name, "qty": str(self.chance.choice([1, 1, 1, 2, 4])), "wood": "mdf", "shape": "board",
                         "length": self.size(length, length_most), "width": self.size(width, width_most), "thickness": "19",
                         **({"face": schedule, "back": schedule, "edges": schedule} if flat else {"all": schedule})})
            entries.append({"piece": name, "laid": "flat" if flat else "hung"})
            if self.maybe(0.1):
                entries[-1]["ready"] = str(self.day(1, 3))
        return rows, entries

    def job(self):
        finishes = self.chance.sample(FINISHES, self.chance.choice([1, 1, 2]))
        schedules = {name: self.layers((name, tools)) for name, tools in finishes}
        rows, entries = self.rows(list(schedules))
        deliver = self.day(8, 30) if self.maybe(0.3) else self.day(45, 60)
        job = {"format": "coatwright-job/1", "job": f"Kitchen {self.seed}", "units": "mm", "zone": "Europe/London", "currency": "EUR",
               "start": f"{self.start} 08:00", "deliver": f"{deliver} 16:00", "deliver-at": "handle", "shop": "shop.json",
               "finishes": "finishes", "schedules": schedules, "pieces": entries, "parts": "parts.csv"}
        return job, self.shop(), rows


def write(seed, folder, pieces=None):
    """Writes the job's files below a folder and returns the path of the job."""
    return jobs.write_files(KitchenMaker(seed, pieces), folder)


def main(arguments):
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--seed", type=int, required=True)
    parser.add_argument("--out", required=True)
    parser.add_argument("--pieces", type=int)
    options = parser.parse_args(arguments)
    print(write(options.seed, options.out, options.pieces))
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))

"""Jobs of a shop whose people are named: each with skills, hours and days off of their own; doors that one cannot turn alone,
pieces in lots, films that must be dry by an hour, a two-part finish with a short pot life. The shop and its people are
invented.
"""
import jobs

PEOPLE = [{"person": "Ann"},
          {"person": "Ben", "does": ["sand", "scuff", "polish", "rub", "brush", "cloth", "pad"],
           "hours": {day: ["07:00-12:00", "12:30-15:00"] for day in ("mon", "tue", "wed", "thu", "fri")}},
          {"person": "Cleo", "does": ["hvlp", "brush", "sand"], "hours": {day: ["10:00-18:00"] for day in ("mon", "wed", "fri")}}]
ROUND = [{"from": "07:00", "temperature": "20 C", "humidity": "50 %"}, {"from": "18:00", "temperature": "17 C", "humidity": "55 %"}]


class CrewMaker(jobs.Maker):
    """Draws one job."""

    def __init__(self, seed):
        super().__init__(seed, "shop")

    def shop(self):
        people = [dict(person) for person in PEOPLE[:self.chance.choice([2, 2, 3])]]
        people[1]["closed"] = [str(self.day(1, 6))]
        shop = {"people": people, "hours": jobs.HOURS[0], "air": ROUND, "settle": "15 min", "spray-places": 1,
                "dust-room": self.chance.choice(["shared", "separate"]), "rack": f"{self.chance.choice([6, 12])} m2",
                "rest": self.chance.choice(["1 h", {"brush": "70 min", "hvlp": "20 min"}])}
        return {**shop, "rates": {"hvlp": "9 m2/h"}} if self.maybe(0.5) else shop

    def house_finish(self):
        """Two parts, a pot that dies within the hour, dry to handle soon."""
        record = super().house_finish()
        lacquer = {"component": "lacquer", "parts": 4, "density": "1.02 kg/l", "packs": [{"size": "1 l", "price": "27.00"}]}
        hardener = {"component": "hardener", "parts": 1, "density": "1.11 kg/l", "packs": [{"size": "250 ml", "price": "9.50"}]}
        record.pop("later-times", None)
        record.pop("wipe-off", None)
        return {**record, "components": [lacquer, hardener], "mix-by": "volume", "ratio-tolerance": "5 %", "dries-by": "reaction",
                "pot-life": f"{self.chance.choice([60, 75, 90])} min", "induction": "0 min", "by": ["hvlp", "brush"],
                "coats": {"usual": 2, "most": 6}, "flip": "handle", "late-recoat": self.chance.choice(["scuff", "refuse"]),
                "times": {"dust-free": "20 min", "handle": "90 min", "recoat": ["2 h", "72 h"], "light-use": "24 h",
                          "cured": "4 d", "at": "20 C 50 %"}}

    def coats(self, finish, tool, count):
        step = {"coat": finish, "by": tool, "coats": count}
        return {**step, "between": {"sand": 320}} if self.maybe(0.5) else step

    def schedules(self):
        mask = {"mask": True, "takes": "10 min", "takes-each": "4 min"}
        doors = [{"sand": 150}, {"sand": 180}, *([mask] if self.maybe(0.5) else []),
                 self.coats("house-finish", self.chance.choice(["hvlp", "hvlp", "brush"]), 2)]
        frame = [{"sand": 180}, self.coats("shellac-dewaxed", "brush", self.chance.choice([2, 3])),
                 {"task": "fit glides", "takes-each": "3 min"}]
        return {"doors": doors, "frame": frame}

    def door(self, name):
        """Doors of an oak board of 40 mm, too heavy for one, or light ones."""
        heavy = self.maybe(0.6)
        size = {"length": "1900", "width": "800", "thickness": "40"} if heavy else {"length": "700", "width": "500", "thickness": "20"}
        row = {"part": name, "piece": name, "qty": str(self.chance.choice([2, 3] if heavy else [4, 9])),
               "wood": self.chance.choice(["oak", "beech", "birch plywood"]), "shape": "board", **size,
               "face": "doors", "back": "doors", "edges": "doors"}
        entry = {"piece": name, "laid": "flat"}
        choices = [{}, {"lots": 2}, {"lift": 1}, {"lift": 2}, {"flip": "now"}, {"dry-by": "17:30"}, {"coats-a-day": 1}]
        return row, {**entry, **self.chance.choice(choices), **self.chance.choice(choices)}

    def job(self):
        rows, entries = [], []
        for k in range(self.chance.choice([2, 3])):
            row, entry = self.door(f"door {'abc'[k]}")
            rows, entries = rows + [row], entries + [entry]
        rows.append({"part": "rail", "piece": "frame", "qty": str(self.chance.choice([3, 6])), "wood": "cherry", "shape": "board",
                     "length": "900", "width": "90", "thickness": "22", "all": "frame"})
        entries.append({"piece": "frame", **self.chance.choice([{}, {"lots": 2}, {"coats-a-day": 1}, {"dry-by": "16:00"}])})
        job = {"format": "coatwright-job/1", "job": f"crew {self.seed}", "units": "mm", "zone": self.chance.choice(jobs.ZONES),
               "currency": "EUR", "start": f"{self.start} 08:00", "deliver": str(self.day(25, 50)), "deliver-at": "handle",
               "to-spare": self.chance.choice(["1 d", "2 d", "4 h"]), "shop": "shop.json", "finishes": "finishes",
               "schedules": self.schedules(), "pieces": entries, "parts": "parts.csv"}
        return job, self.shop(), rows


def write(seed, folder):
    """Writes the job's files below a folder and returns the path of the job."""
    return jobs.write_files(CrewMaker(seed), folder)

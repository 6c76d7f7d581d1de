"""Tiny jobs drawn by a seed, both as the brute force sees them and as job files with finishes and a shop of their own.

The air is at reference, brush and roller cover 1 m2 an hour, so that a unit of m minutes is an area of m/60 m2. In one job
of three units take quarters of a minute. Rooms are apart or shared, a piece is one lot, and nobody lifts. Monday is
2027-03-01.
"""
import random

import batch_brute as brute
import worked

DAY = brute.DAY
LONG = 300 * DAY
TOOLS = {"v": "brush", "w": "roller", "t": "brush"}
WORKING_SHARE = 0.9


def span(minutes):
    return f"{minutes} min"


class Draw:
    """One tiny job: the kinds of work with their set-ups, then pieces, people and the shop."""

    def __init__(self, seed):
        self.chance = random.Random(seed)
        c = self.chance
        self.two_people = c.random() < 0.4
        self.quarters = random.Random(f"quarters {seed}")
        self.is_odd = self.quarters.random() < 1 / 3
        self.set_up = {"brush": 5 * c.randint(0, 4), "roller": 5 * c.randint(0, 4), "sand": 5 * c.randint(0, 2)}
        self.clean_up = {"brush": 5 * c.randint(0, 3), "roller": 5 * c.randint(0, 3)}
        self.rest = {"brush": c.choice([0, 30, 60, 120]), "roller": c.choice([0, 30, 120])}
        self.pot_life = c.choice([60, 80, 100])
        self.times = {name: self.draw_times() for name in TOOLS}
        self.kinds = {name: self.kind_of(name) for name in TOOLS}
        self.grits = {grit: brute.Kind(f"sand-{grit}", self.set_up["sand"]) for grit in (120, 180)}
        self.schedules, self.pieces = {}, []
        self.draw_pieces()
        self.finish_shop()

    def draw_times(self):
        c = self.chance
        recoat = 5 * c.choice([6, 12, 36, 60, 120, 240])
        window = c.choice([None, None, recoat + 5 * c.choice([12, 48, 120])])
        return {"dust-free": 5 * c.randint(1, 6), "handle": recoat, "recoat": recoat, "window": window}

    def kind_of(self, name):
        tool = TOOLS[name]
        mixed = name == "t"
        return brute.Kind(name, self.set_up[tool], self.clean_up[tool], self.rest[tool],
                          int(self.pot_life * WORKING_SHARE) if mixed else None, self.pot_life if mixed else None)

    def draw_pieces(self):
        c = self.chance
        units, items, most = c.randint(2, 5), 0, 4 if self.two_people else 5
        first, second = c.sample(["v", "w", "t"], 2)
        plans = [[("coat", first)], [("sand", 120), ("coat", first)], [("coat", first), ("coat", first)],
                 [("coat", first), ("coat", second)], [("sand", 120), ("sand", 180)], [("coat", second)]]
        while units and items < most:
            plan = c.choice([p for p in plans if items + len(p) <= most] or [[]])
            if not plan:
                break
            mine = c.randint(1, min(units, 3))
            units, items = units - mine, items + len(plan)
            self.add_piece("abcde"[len(self.pieces)], plan, [self.unit(5 * c.randint(1, 10)) for _ in range(mine)])

    def unit(self, whole):
        """Minutes of a unit, never longer than a mix can be applied."""
        return whole - self.quarters.randint(0, 19) / 4 if self.is_odd else whole  # exact in binary

    def add_piece(self, name, plan, units):
        c = self.chance
        ready = c.choice([0, 0, 0, DAY * c.randint(0, 2) + 60 * c.randint(8, 15)])
        steps = tuple(self.step(plan, i, units) for i in range(len(plan)))
        schedule = "s" + "-".join(str(what) for _, what in plan)
        self.schedules[schedule] = [{"sand": what} if kind == "sand" else worked.coats(what) for kind, what in plan]
        self.pieces.append((brute.Piece(name, steps, ready, c.choice([1, 1, 2])), schedule, units))

    def step(self, plan, i, units):
        kind, what = plan[i]
        if kind == "sand":
            return brute.Step(self.grits[what], tuple(units), dusty=True)
        times = self.times[what]
        follows = i + 1 < len(plan)
        return brute.Step(self.kinds[what], tuple(units), times["recoat"] if follows else 0,
                          times["window"] if follows else None, 0 if follows else times["handle"], times["dust-free"],
                          times["handle"])

    def finish_shop(self):
        c = self.chance
        self.people = (brute.Person("Ann"), brute.Person("Bob", c.choice([None, ("v", "t", "sand-120", "sand-180"), ("w",)]))
                       ) if self.two_people else (brute.Person("Ann"),)
        self.rack = c.choice([None, None, 2, 3])
        self.settle = c.choice([None, 0, 30])
        self.soonest = c.random() < 0.3
        self.deliver = c.choice([None, None, c.randint(0, 4) * DAY + 17 * 60])

    def brute_job(self):
        return brute.Job(tuple(p for p, _, _ in self.pieces), self.people, deliver=self.deliver, soonest=self.soonest,
                         rack=self.rack, settle=self.settle, may_share=False)

    def finish(self, name):
        t = self.times[name]
        more = {"by": [TOOLS[name]], "late-recoat": "refuse"}
        if name == "t":
            more |= {"components": [{"component": part, "parts": 1, "density": "1 kg/l"} for part in ("base", "hardener")],
                     "mix-by": "volume", "ratio-tolerance": "10 %", "pot-life": span(self.pot_life)}
        made = worked.finish(name, {"dust-free": span(t["dust-free"]), "handle": span(t["handle"]), "recoat":
                                    [span(t["recoat"]), span(t["window"] or LONG)]}, **more)
        made["sources"] |= {group: "worked by hand" for group in ("pot-life", "ratio-tolerance", "mix-by")}
        return made

    def people_key(self):
        does = {None: ["brush", "roller", "sand"], ("w",): ["roller"], ("v", "t", "sand-120", "sand-180"): ["brush", "sand"]}
        return [{"person": p.name, "does": does[p.does]} for p in self.people]

    def job(self, seed):
        """(job, finishes) as files hold them."""
        shop = worked.shop(hours=worked.WORKDAYS, people=self.people_key() if self.two_people else 1,
                           rates={"roller": "1 m2/h"}, losses={"brush": "0 ml", "roller": "0 ml"}, settle=span(self.settle or 0),
                           **{"set-up": {k: span(v) for k, v in self.set_up.items()},
                              "clean-up": {k: span(v) for k, v in self.clean_up.items()},
                              "rest": {k: span(v) for k, v in self.rest.items()},
                              "dust-room": "separate" if self.settle is None else "shared"})
        if self.rack:
            shop["rack"] = f"{self.rack} m2"
        parts = [{"part": f"{piece.name} {i}", "piece": piece.name, "shape": "area", "area": f"{float(minutes) / 60:.9f} m2",
                  "region": "face", "face": schedule, "wood": "beech"}
                 for piece, schedule, units in self.pieces for i, minutes in enumerate(units)]
        pieces = [{"piece": piece.name, "lots": 1, "rack": f"{piece.rack} m2"} |
                  ({"ready": moment(piece.ready)} if piece.ready else {}) for piece, _, _ in self.pieces]
        more = {"shop": shop, "pieces": pieces, "to-spare": "0 d"}
        more |= {} if self.deliver is None else {"deliver": moment(self.deliver)}
        return worked.job(f"tiny {seed}", self.schedules, parts, **more), [self.finish(n) for n in TOOLS]


def moment(minutes):
    return f"2027-03-{1 + minutes // DAY:02} {minutes % DAY // 60:02}:{minutes % 60:02}"

"""Which parts of a piece make up its lots, as far as a plan lets it be seen: contiguous runs of nearly equal work."""
import itertools
import math

import expected
import facts
import passes
import units

MOST_TRIED = 400


def runs(cuts, count):
    edges = [0, *cuts, count]
    return [list(range(a, b)) for a, b in zip(edges, edges[1:])]


def uneven(weights, lots):
    sums = [math.fsum(weights[i] for i in lot) for lot in lots]
    return round(max(sums) - min(sums), 9)


def candidates(instances, count):
    """Divisions into so many lots, the most even first."""
    weights = [instances.weight(i) for i in range(len(instances.list))]
    total, places = math.fsum(weights), []
    ends = list(itertools.accumulate(weights))
    for k in range(1, count):
        near = sorted(range(1, len(weights)), key=lambda i: abs(ends[i - 1] - total * k / count))[:4]
        places.append(near)
    found = {cuts for cuts in itertools.islice(itertools.product(*places), MOST_TRIED) if list(cuts) == sorted(set(cuts))}
    return sorted((runs(cuts, len(weights)) for cuts in found), key=lambda lots: uneven(weights, lots))


def told_minutes(timetable, piece):
    """Minutes of every dry item of a piece, by lot: nothing but its units stands in them unless somebody pauses."""
    return [(s.row["lot"], s) for s in timetable.list if s.piece == piece and s.do in ("sand", "scuff", "polish", "rub")]


def misfits(job, surfaces, piece, lots, told):
    """How many dry items are shorter than their lot's units; how many longer by more than what is rounded, as one with a pause is, too."""
    short, long, instances = 0, 0, units.Instances(surfaces, piece.name)
    for lot, step in told:
        pas = passes.pass_of(piece, step.schedule, step.side[0] if step.side else "", surfaces)
        asked = units.seconds(units.plain(job, pas, instances, lots[lot - 1], step.do))
        minutes = step.end - step.start
        short += not asked or minutes < asked[-1] // 60
        long += bool(asked) and minutes > asked[-1] / 60 + 1
    return short, long


def counts_of(timetable, piece):
    """How many lots a piece has, as steps that are planned say, and ids of those that were done."""
    done = [facts.split(row["id"]) for row in timetable.data.get("done") or []]
    return {s.row["lots"] for s in timetable.list if s.piece == piece} | {
        lot for base, lot in done if lot and base.startswith(expected.slug(piece) + "/")}


def with_cuts(instances, count, cuts):
    """Divisions into so many lots; where parts were done ahead, at those parts."""
    if not cuts:
        return candidates(instances, count)
    found = []
    for way in candidates(instances, max(1, count - len(cuts))) + candidates(instances, count):
        places = sorted(cuts | {lot[0] for lot in way if lot[0] > 0})
        if len(places) == count - 1:
            found.append(runs(places, len(instances.list)))
    return found


def of_plan(job, surfaces, timetable):
    """{piece: lots} of the pieces that a plan divides; a lot is a list of part numbers."""
    found = {}
    for name, piece in job.pieces.items():
        count = max(counts_of(timetable, name), default=1)
        instances = units.Instances(surfaces, name)
        if count < 2 or count > len(instances.list):
            continue
        ways = with_cuts(instances, count, {n for n in facts.cuts(job.log, expected.slug(name)) if 0 < n < len(instances.list)})
        told = told_minutes(timetable, name)
        found[name] = min(ways, key=lambda lots: misfits(job, surfaces, piece, lots, told))
    return found

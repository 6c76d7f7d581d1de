#!/usr/bin/env -S python3 -B
"""The printed sheet: a page that is whole and needs nothing else, on which every batch, mix and pack of the JSON reports stands once,
with their amounts. What comes from files is escaped; both papers; a day, a person, a log, several jobs."""
import csv
import json
import re
import shutil
import sys
import xml.etree.ElementTree as ElementTree
from collections import Counter
from html.parser import HTMLParser
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "tests/checker"))
import program  # noqa: E402  (tests/checker has to be on the path before)

NOW = ("--now", "2027-01-04T08:00Z")
BRIEF = ("--effort", "300000")  # the sheet does not depend on how long the plan was sought
VOID = {"meta"}
FOREIGN = {"script", "link", "img", "iframe", "object", "embed", "a", "use", "image", "form", "base", "video", "audio", "foreignobject"}
ADDRESS = {"src", "href", "xlink:href", "srcset", "action", "formaction", "data", "poster", "background"}
RIDER = "; the data sheet and local rules decide"
TO_METRIC = {"ml": 1, "L": 1000, "m²": 1, "cm²": 1e-4}
SHOWN = re.compile(r"(\d+(?:\.\d+)?) (ml|L|m²|cm²)")


class Element:
    def __init__(self, tag, attributes):
        self.tag, self.attributes, self.inside = tag, dict(attributes), []

    def all(self, tag=None, **attributes):
        """Elements in it, in order; _ in a name stands for a hyphen, True for any value, a class for one of several."""
        for child in self.inside:
            if isinstance(child, str):
                continue
            if tag in (None, child.tag) and all(child.has(k.rstrip("_").replace("_", "-"), v) for k, v in attributes.items()):
                yield child
            yield from child.all(tag, **attributes)

    def has(self, name, value):
        own = self.attributes.get(name)
        return own is not None and (value is True or value in own.split() or value == own)

    def text(self):
        return "".join(child if isinstance(child, str) else child.text() for child in self.inside)


class Page(HTMLParser):
    def __init__(self, text):
        super().__init__(convert_charrefs=True)
        self.root, self.wrong = Element("", {}), []
        self.open = [self.root]
        self.feed(text)
        self.close()
        self.wrong += [f"<{e.tag}> is not closed" for e in self.open[1:]]

    def handle_starttag(self, tag, attrs):
        if len(dict(attrs)) < len(attrs):
            self.wrong.append(f"<{tag}> has an attribute twice")
        element = Element(tag, attrs)
        self.open[-1].inside.append(element)
        if tag not in VOID:
            self.open.append(element)

    def handle_startendtag(self, tag, attrs):
        self.open[-1].inside.append(Element(tag, attrs))

    def handle_endtag(self, tag):
        if self.open[-1].tag != tag:
            self.wrong.append(f"</{tag}> closes <{self.open[-1].tag}>")
        else:
            self.open.pop()

    def handle_data(self, data):
        self.open[-1].inside.append(data)


def sheet(jobs, *options):
    """(page, its text, exit status, messages)."""
    code, out, errors = program.run("sheet", *jobs, *NOW, *BRIEF, *options)
    return Page(out), out, code, errors


def asked(command, jobs, *options):
    code, out, errors = program.run(command, *jobs, "--json", *(() if command == "area" else (*NOW, *BRIEF)), *options)
    assert code in (0, 1), errors
    return json.loads(out)


def form_wrong(page, text):
    """Balanced, XML as well, complete in itself, ids once, nothing beside what it paints with."""
    yield from page.wrong
    try:
        ElementTree.fromstring(text)
    except ElementTree.ParseError as error:
        yield f"no XML: {error}"
    if not text.startswith("<!DOCTYPE html>\n") or [e.tag for e in page.root.inside if not isinstance(e, str)] != ["html"]:
        yield "not one page"
    ids = Counter(e.attributes["id"] for e in page.root.all(id=True))
    yield from (f"id {name} is there {count} times" for name, count in ids.items() if count > 1)
    for element in page.root.all():
        if element.tag in FOREIGN:
            yield f"<{element.tag}>"
        for name, value in element.attributes.items():
            if name in ADDRESS or name.startswith("on") or name == "style":
                yield f"<{element.tag} {name}>"
            if "//" in (value or "") and (name, value) != ("xmlns", "http://www.w3.org/2000/svg") and not name.startswith("data-"):
                yield f"an address in {name}: {value}"
            for reference in re.findall(r"url\(([^)]*)\)", value or ""):
                if name.startswith("data-") or reference[1:] in ids and reference[0] == "#":
                    continue
                yield f"nothing to paint with: {reference}"
        if element.tag in ("h1", "h2", "h3", "h4") and not element.text().strip():
            yield "a heading without words"


def looks_wrong(page, paper):
    """What keeps rows, batches, cards and drawings whole and headings with their text; no letters below 9 points (12 units)."""
    style = next(page.root.all("style")).text()
    if f"size: {paper};" not in style or f"size: {paper} landscape;" not in style or "url(" in style or "@import" in style:
        yield f"not for {paper}"
    for rule in (r"tr,[^{]*section\.batch,[^{]*section\.mix,[^{]*svg \{ break-inside: avoid;", r"h1, h2, h3, h4 \{ break-after: avoid;"):
        if not re.search(rule, style):
            yield f"no rule {rule}"
    yield from (f"letters of {size} pt" for size in re.findall(r"([\d.]+)pt", style) if float(size) < 9)
    for element in page.root.all("text"):
        if float(element.attributes.get("font-size", 0)) < 12:
            yield f"letters of {element.attributes.get('font-size')} in a drawing"
    across = {e.attributes["width"] for s in page.root.all(class_="timetable") for e in s.all("svg")}
    wide = 263.4 if paper == "letter" else 281
    if across and any(12 * wide / 25.4 * 72 / float(width) < 9 for width in across):
        yield f"a timetable of {across}"


def measured(jobs, tables, *options):
    """What every batch works on, as the day cards have it: in ml where it applies, in m² where it does not."""
    amounts = Counter()
    for day in sorted({b["start"][:10] for table in tables for b in table["batches"]}):
        for batch in asked("today", jobs, "--day", day, *options)["batches"]:
            of = {share["job"]: share["id"] for share in batch["of"]}
            for step in batch["steps"]:
                amounts[step["job"], of[step["job"]]] += step["volume_ml" if batch["do"] == "apply" else "area_m2"] or 0
    return amounts


def equal_as_shown(text, value):
    """Whether a text shows the value, to its last digit."""
    match = SHOWN.fullmatch(text)
    if not match:
        return text == "" and not value
    unit = TO_METRIC[match[2]]
    digit = unit * 10.0 ** -len(match[1].partition(".")[2])
    return abs(float(match[1]) * unit - value) <= 0.51 * digit


def batches_wrong(page, tables, amounts, want=lambda batch: True):
    """want: whether a batch belongs on the sheet."""
    batches = {(table["job"], batch["id"]): batch for table in tables for batch in table["batches"] if want(batch)}
    told = [(e.attributes["data-job"], e.attributes["data-batch"]) for e in page.root.all("b", data_batch=True)]
    if Counter(told) != Counter(list(batches)):
        yield f"batches {sorted(Counter(told) - Counter(list(batches)))[:3]} too many, {sorted(Counter(list(batches)) - Counter(told))[:3]} too few"
        return
    for section in page.root.all("section", class_="batch"):
        title = next(section.all("h4")).text()
        if len(list(section.all("span", class_="box"))) != 1:
            yield f"{title}: not one box"
        for share in section.all("b", data_batch=True):
            batch = batches[share.attributes["data-job"], share.attributes["data-batch"]]
            if not title.startswith(f"{batch['start'][11:16]} to "):
                yield f"{title}: begins {batch['start']}"
            value = amounts[share.attributes["data-job"], batch["id"]]
            if batch["do"] not in ("flip", "mask", "task") and not equal_as_shown(share.text(), value):
                yield f"{title}: {share.text()}, not {value}"
            if batch["do"] not in ("task",) and not list(section.all("table")):
                yield f"{title}: of no piece"


def mixes_wrong(page, plans, want):
    mixes = [(plan["timetable"]["job"], m) for plan in plans for m in plan["mix"]["mixes"] if want(m)]
    cards = list(page.root.all("section", data_mix=True))
    told = Counter((c.attributes["data-job"], c.attributes["data-mix"]) for c in cards)
    if told != Counter((job, m["serves"][0]["step"]) for job, m in mixes):
        yield f"mixes {told}"
        return
    for job, mix in mixes:
        same = [c for c in cards if (c.attributes["data-job"], c.attributes["data-mix"]) == (job, mix["serves"][0]["step"])]
        by = mix["apply_by"]
        shown = [c for c in same if not by or any(p.text().strip().endswith(by[11:16]) for p in c.all("p", class_="by"))]
        weighed = [[td.text() for td in row.all("td")][0] for c in shown for row in next(c.all("table", class_="pours")).all("tr")]
        if not shown or any(f"{c['weigh_g']:g} g" not in weighed for c in mix["components"] if c["weigh_g"]):
            yield f"{job}: {mix['serves'][0]['step']}, apply by {by}: {weighed}"
        for card in shown:
            first = [e for e in card.inside if isinstance(e, Element)][0]
            if by and first.attributes.get("class") != "by":
                yield "apply by is not first"
            if not all(words in card.text() for words in ("weighed", "time mixed", "by whom")):
                yield "no lines to fill in"


def shopping_wrong(page, job, folder):
    """Against the rows of the shopping list: finish, count, pack."""
    path = Path(folder) / f"{job.stem}.csv"
    program.run("buy", job, *NOW, *BRIEF, "--csv", path)
    with path.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    want = Counter((row["finish"], f"{row['count']} x {row['pack']}".lower()) for row in rows if row["finish"])
    told, sundries = Counter(), 0
    for row in page.root.all("tr", data_buy=True):
        amount, name = [td.text() for td in row.all("td")][1:3]
        if len(list(row.all("span", class_="box"))) != 1:
            yield f"{name}: no box"
        if row.attributes["data-buy"] == "sundry":
            sundries += "estimated" in name
        else:
            told[row.attributes["data-buy"], amount.lower()] += 1
    if told != want or sundries != sum(row["component"] == "sundry" for row in rows):
        yield f"to buy: {told}, {sundries} sundries, not {want}"


def drawings_wrong(page, area):
    """The regions of all drawings come to the areas of the schedules."""
    told, lines = Counter(), Counter()
    for section in page.root.all("section", class_="parts"):
        for text in (t.text() for t in section.all("text")):
            match = re.fullmatch(r"[a-z]+ ([\d.]+) (m²|cm²): (.*)", text)
            if match:
                told[match[3]] += float(match[1]) * TO_METRIC[match[2]]
                lines[match[3]] += 1
    for schedule in area["by_schedule"]:
        name, value = schedule["schedule"], schedule["area_m2"]
        if abs(told[name] - value) > 0.0051 * lines[name]:
            yield f"drawn {name}: {told[name]}, not {value}"
    if not list(page.root.all("section", class_="timetable")):
        yield "no timetable drawn"


def care_wrong(page, table):
    states = {(s["piece"], s["state"]): s["at"] for s in table["states"]}
    cured = {at[:10] for (_, state), at in states.items() if state == "cured" and at}
    months = "Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec".split()
    rows = [[td.text() for td in row.all("td")] for t in page.root.all("table", class_="dates") for row in t.all("tr")][1:]
    told = set()
    for row in rows:
        _, day, month, year = row[-1].split()
        told.add(f"{year}-{months.index(month) + 1:02}-{int(day):02}")
    if told != cured:
        yield f"cured {told}, not {cured}"
    words = next(page.root.all("section", class_="care")).text()
    if "handle with care until" not in words or "no wet cloth until" not in words or "cloth" not in words:
        yield "no care"


def cautions_wrong(page, plan):
    words = "".join(s.text() for s in page.root.all("section", class_="cautions"))
    for caution in plan["cautions"]:
        if caution.removesuffix(RIDER) not in words:
            yield f"not told: {caution}"
    if plan["cautions"] and RIDER[2:] not in words:
        yield "no rider"


def examine(tally, job, folder):
    plan, area = asked("plan", [job]), asked("area", [job])
    for paper in ("a4", "letter"):
        page, text, code, errors = sheet([job], "--units", "metric", "--page", paper)
        tally.note(f"{job.name}, {paper}: form", list(form_wrong(page, text)) + ([] if code in (0, 1) else [errors]))
        tally.note(f"{job.name}, {paper}: looks", list(looks_wrong(page, {"a4": "A4"}.get(paper, paper))))
    tables = [plan["timetable"]]
    amounts = measured([job], tables)
    tally.note(f"{job.name}: batches", list(batches_wrong(page, tables, amounts)))
    tally.note(f"{job.name}: mixes", list(mixes_wrong(page, [plan], lambda m: True)))
    tally.note(f"{job.name}: shopping", list(shopping_wrong(page, job, folder)))
    tally.note(f"{job.name}: drawings", list(drawings_wrong(page, area)))
    tally.note(f"{job.name}: care", list(care_wrong(page, plan["timetable"])))
    tally.note(f"{job.name}: cautions", list(cautions_wrong(sheet([job])[0], plan)))
    day = plan["timetable"]["batches"][-1]["start"][:10]
    page, text, *_ = sheet([job], "--units", "metric", "--day", day)
    problems = list(form_wrong(page, text)) + list(batches_wrong(page, tables, amounts, lambda b: b["start"][:10] == day))
    problems += list(mixes_wrong(page, [plan], lambda m: m["mixed_at"][:10] == day))
    tally.note(f"{job.name}: {day}", problems + [f"{c} on it" for c in ("buy", "parts", "care") if list(page.root.all("section", class_=c))])
    people = {b["person"] for b in plan["timetable"]["batches"]}
    for person in people if len(people) > 1 else ():
        page, text, *_ = sheet([job], "--units", "metric", "--person", person)
        tally.note(f"{job.name}: {person}", list(form_wrong(page, text)) +
                   list(batches_wrong(page, tables, amounts, lambda b, p=person: p in (b["person"], b.get("helper")))))


def papers(tally):
    """Letter where the units are US, A4 elsewhere, unless it is said."""
    for name, options, paper in (("doors", (), "letter"), ("desk", (), "A4"), ("desk", ("--units", "us"), "letter"),
                                 ("doors", ("--page", "a4"), "A4")):
        page, *_ = sheet([ROOT / f"examples/{name}.json"], *options)
        tally.note(f"paper of {name} {options}", list(looks_wrong(page, paper)))


def copy_of(folder, name, change):
    """The desk in a folder of its own, its job changed."""
    there = Path(folder) / name
    there.mkdir()
    for path in (ROOT / "examples").glob("desk*"):
        (shutil.copytree if path.is_dir() else shutil.copy)(path, there / path.name)
    job = json.loads((there / "desk.json").read_text(encoding="utf-8"))
    change(job)
    (there / "desk.json").write_text(json.dumps(job), encoding="utf-8")
    return there / "desk.json"


HOSTILE = "</title><script>alert(1)</script> & \"R'D\" <!-- ]]> &lt; &#x202e; %s ${x} <b onclick=x> \u05d0\u05d1"


def hostile(tally, folder):
    """Tags, quotes and entities stay text. Characters that would turn a line are refused by the reader of the job."""
    def change(job):
        job["job"] = job["customer"] = HOSTILE

    path = copy_of(folder, "hostile", change)
    parts = path.parent / "desk-parts.csv"
    parts.write_text(parts.read_text(encoding="utf-8").replace("light tile", "\"<i>&amp;light</i> tile\""), encoding="utf-8")
    page, text, code, errors = sheet([path])
    problems = list(form_wrong(page, text)) + ([] if code in (0, 1) else [errors])
    if next(page.root.all("h1"), page.root).text().strip() != f"{HOSTILE}, for {HOSTILE}":
        problems.append("the name is another")
    if "<i>&amp;light</i> tile" not in page.root.text():
        problems.append("the part's name is another")
    problems += [f"<{e.tag}> from a name" for e in page.root.all() if e.tag in ("i", "script") or "onclick" in e.attributes]
    problems += [f"{c!r} stands in the page" for c in text if ord(c) < 32 and c not in "\n" or 0x202a <= ord(c) <= 0x202e or 0x2066 <= ord(c) <= 0x2069]
    tally.note("hostile names", problems)


def with_log(tally, folder):
    """What was done is ticked, and in no list of work to come; the rest is."""
    path = copy_of(folder, "log", lambda job: None)
    first = asked("timetable", [path])["batches"][0]
    code, _, errors = program.run("done", path, first["id"], "--at", first["end"], "--now", first["end"])
    tally.note("recorded", [] if code == 0 else [errors])
    after = ("--now", first["end"])
    page, text, *_ = sheet([path], *after, "--units", "metric")
    table = asked("timetable", [path], *after)
    done = [e for e in page.root.all("section", class_="done")]
    problems = list(form_wrong(page, text)) + list(batches_wrong(page, [table], measured([path], [table], *after)))
    if [e.attributes["data-done"] for e in done] != [first["id"]] or "\u2713" not in next(done[0].all("span")).text():
        problems.append(f"done: {[e.attributes for e in done]}")
    work = next(page.root.all("section", class_="work")).text()
    if work.count("\u2713") != 1 or "Done: 1 step" not in page.root.text():
        problems.append("what was done is not told")
    tally.note("with a log", problems)
    noon = (first["end"][:10] + "T18:00Z",)
    code, _, errors = program.run("done", path, "today", "--now", *noon)
    page, text, *_ = sheet([path], "--now", *noon)
    begun = [next(e.all("h4")).text()[:5] for e in page.root.all("section", class_="done")]
    facts = {d["id"].split("/")[0] for d in asked("timetable", [path], "--now", *noon)["done"]}
    told = " ".join(e.text() for e in page.root.all("section", class_="done"))
    problems = list(form_wrong(page, text)) + ([] if code == 0 and len(begun) > 2 and begun == sorted(begun) else [f"{begun} {errors}"])
    tally.note("a day that was done", problems + [f"{piece} is not told" for piece in facts if piece not in told])


def several(tally, folder):
    """The batches of both, each named; the ids of their drawings once."""
    jobs = [copy_of(folder, name, lambda job, n=name: job.update(job=n)) for name in ("one", "other")]
    tables = asked("timetable", jobs)["jobs"]
    amounts = measured(jobs, tables)
    page, text, code, errors = sheet(jobs, "--units", "metric")
    tally.note("several jobs", list(form_wrong(page, text)) + list(batches_wrong(page, tables, amounts)) +
               ([] if code in (0, 1) else [errors]))


def files(tally, folder):
    """`plan --out` writes the same; where there is no timetable nothing is written, and a file that was read is never."""
    path, there = copy_of(folder, "files", lambda job: None), Path(folder) / "files"
    program.run("plan", path, *NOW, *BRIEF, "--out", there / "out")
    code, out, errors = program.run("sheet", path, *NOW, *BRIEF, "--out", there / "own.html")
    same = (there / "out/sheet.html").read_text() == (there / "own.html").read_text() == sheet([path])[1]
    tally.note("the file of a plan", [] if same and code == 0 and not out else [f"{code}: {out[:100]}{errors}"])
    code, _, errors = program.run("sheet", path, *NOW, *BRIEF, "--out", path)
    tally.note("over the job", [] if code == 2 and "that was read" in errors else [f"{code}: {errors}"])
    shop = there / "desk-shop.json"
    shut = json.loads(shop.read_text(encoding="utf-8"))
    shut["closed"] = ["2027-01-01..2032-12-31"]
    shop.write_text(json.dumps(shut), encoding="utf-8")
    (there / "own.html").write_text("old")
    code, out, errors = program.run("sheet", path, *NOW, *BRIEF, "--out", there / "own.html")
    kept = (there / "own.html").read_text() == "old"
    tally.note("no timetable", [] if (code, out, kept) == (1, "", True) and "no timetable" in errors else [f"{code}: {errors}"])


def main():
    program.need()
    tally = program.Tally()
    papers(tally)
    with program.scratch() as folder:
        for job in program.examples():
            examine(tally, job, folder)
        hostile(tally, folder)
        with_log(tally, folder)
        several(tally, folder)
        files(tally, folder)
    return tally.close()


sys.exit(main())

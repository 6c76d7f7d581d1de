#!/usr/bin/env python3
"""From a cut list to a plan: `coatwright new` over the cut lists of tests/source/lists, with options, asked on a terminal, and
over files that are there. Questions and keystrokes are counted: at most 12 and 250 from the list to the plan."""
import json, os, pty, select, shutil, subprocess, sys, time, zipfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PROGRAM = Path(os.environ.get("COATWRIGHT", ROOT / "build/coatwright")).resolve()
SCRATCH = Path(os.environ.get("TEST_TMP") or subprocess.run(["mktemp", "-d"], capture_output=True, text=True).stdout.strip())
LISTS = ROOT / "tests/source/lists"
NOW = ["--now", "2027-03-01"]
passed = failed = 0


def check(what, good, told=""):
    global passed, failed
    passed, failed = passed + bool(good), failed + (not good)
    if not good:
        print(f"{what}: {told}")


def run(folder, *args):
    return subprocess.run([PROGRAM, *args], cwd=folder, capture_output=True, text=True, stdin=subprocess.DEVNULL, timeout=120,
                          env={"PATH": os.environ["PATH"], "TZ": "Europe/London"})


def fresh(name, *files):
    folder = SCRATCH / name
    folder.mkdir(parents=True)
    for file in files:
        shutil.copy(LISTS / file, folder)
    return folder


def read(path):
    return json.loads(path.read_text(encoding="utf-8"))


# Lists with a column of finishes name the schedules of another job.
for file in sorted(LISTS.iterdir()):
    folder = fresh(f"yes-{file.stem}", file.name)
    got = run(folder, "new", file.name, "--yes", *NOW)
    if file.name in ("desk-inches.csv", "meuble.csv"):
        check(f"{file.name}: its finishes are no schedules", got.returncode == 3 and "a schedule of this job" in got.stderr, got.stderr)
        check(f"{file.name}: nothing is written", sorted(os.listdir(folder)) == [file.name], os.listdir(folder))
        continue
    check(f"{file.name}: planned", got.returncode == 0, got.stderr)
    base = folder / file.stem
    check(f"{file.name}: three files", all((folder / f"{file.stem}{end}").exists() for end in (".json", "-shop.json", "-prices.csv")),
          os.listdir(folder))
    check(f"{file.name}: the list is untouched", (folder / file.name).read_bytes() == file.read_bytes())
    check(f"{file.name}: a job", read(folder / f"{file.stem}.json")["parts"] == file.name)
    again = run(folder, "plan", f"{file.stem}.json", "--json", *NOW)
    check(f"{file.name}: the files give the plan", again.returncode == 0, again.stderr)
    twice = run(folder, "new", file.name, "--yes", *NOW)
    check(f"{file.name}: nothing is written over", twice.returncode == 2 and "no such file yet" in twice.stderr, twice.stderr)

# What the files say is what was planned from memory, the shop's defaults and all.
folder = fresh("same", "bookcase.csv")
first = run(folder, "new", "bookcase.csv", "--yes", "--json", *NOW)
second = run(folder, "plan", "bookcase.json", "--json", *NOW)
check("the same plan from the files", first.stdout == second.stdout and first.stdout, first.stderr + second.stderr)
job = read(folder / "bookcase.json")
short = dict(job, shop={"people": 1})
(folder / "short.json").write_text(json.dumps(short), encoding="utf-8")
third = run(folder, "plan", "short.json", "--json", *NOW)
check("the shop that was written is the assumed one",
      json.loads(third.stdout)["timetable"]["steps"] == json.loads(second.stdout)["timetable"]["steps"], third.stderr)

# Options.
folder = fresh("options", "carcass.tsv")
got = run(folder, "new", "carcass.tsv", "--yes", "--deliver", "2027-04-09", "--outside", "wiping-varnish", "--inside",
          "shellac-dewaxed", "--flat", "Door, Shelf", "--people", "2", "--hours", "07:00-12:00 12:30-16:00", "--zone", "America/Chicago",
          "--start", "2027-03-08", "--name", "Carcass", "--currency", "USD", *NOW)
job, shop = read(folder / "carcass.json"), read(folder / "carcass-shop.json")
check("options: planned", got.returncode == 0, got.stderr)
check("options: the job", [job[k] for k in ("job", "zone", "start", "deliver", "currency", "all", "inside")] ==
      ["Carcass", "America/Chicago", "2027-03-08", "2027-04-09", "USD", "outside", "inside"], job)
check("options: the pieces", job["pieces"] == [{"piece": "Door", "laid": "flat"}, {"piece": "Shelf", "laid": "flat", "all": "inside"}], job["pieces"])
check("options: the finishes", [job["schedules"][k][2]["coat"] for k in ("outside", "inside")] == ["wiping-varnish", "shellac-dewaxed"])
check("options: the shop", shop["people"] == 2 and shop["hours"]["mon"] == ["07:00-12:00", "12:30-16:00"], shop["hours"])
check("options: prices to fill in", "# shellac-dewaxed" in (folder / "carcass-prices.csv").read_text())

# Wrong words.
folder = fresh("wrong", "bookcase.csv")
for args, told in ([["--outside", "danish-oyl"], 'did you mean "danish-oil"'], [["--hours", "8 to 5"], "working hours such as"],
                   [["--zone", "Chicago"], "America/Chicago"], [["--deliver", "3/19/2027"], "2027-03-19"]):
    got = run(folder, "new", "bookcase.csv", "--yes", *args, *NOW)
    check(f"{args}: refused", got.returncode in (2, 3) and told in got.stderr, f"{got.returncode} {got.stderr}")
    check(f"{args}: nothing is written", os.listdir(folder) == ["bookcase.csv"], os.listdir(folder))
got = run(folder, "new", ".", "--yes", *NOW)
check("a folder with one list", got.returncode == 0 and (folder / "bookcase.json").exists(), got.stderr)
got = run(folder, "new", ".", "--yes", *NOW)
check("a folder with a list and its prices", "no such file yet" in got.stderr, got.stderr)
got = run(folder, "new", "none.csv", "--yes", *NOW)
check("no list", got.returncode == 4 and got.stderr.startswith("none.csv: expected a readable file"), got.stderr)
check("a folder without a list", run(fresh("none"), "new", ".", "--yes").returncode == 2)
check("a folder with several", "bookcase.csv, meuble.csv" in run(fresh("two", "bookcase.csv", "meuble.csv"), "new", ".", "--yes").stderr)

# Sizes that are inches, though no unit says so: what the list looks like is taken.
folder = fresh("inches")
(folder / "box.csv").write_text("part,qty,wood,length,width,thickness\nside,2,walnut,12,5,0.5\nend,2,walnut,6,5,0.5\nlid,1,walnut,12,7,0.5\n")
got = run(folder, "new", "box.csv", "--yes", *NOW)
check("inches are seen", read(folder / "box.json")["units"] == "in", got.stderr)

# Without a list: a common piece by its outer sizes. The areas of table, doors and shelf were worked out by hand (both faces, edges
# and ends of each board); those of cabinet, chair and box are what the program gave, so that a change is seen.
for kind, sizes, m2 in (("table", "1200 x 500 x 900", 2.73), ("cabinet", "1200 x 500 x 900", 11.15), ("doors", "400 x 20 x 700", 1.21),
                        ("shelf", "900 x 250 x 20", 1.49), ("chair", "450 x 450 x 850", 1.27), ("box", "12 in x 8 in x 4 in", 0.54)):
    folder = fresh(f"kind-{kind}")
    got = run(folder, "new", "--kind", kind, "--size", sizes, "--wood", "ash", "--yes", *NOW)
    check(f"{kind}: planned", got.returncode == 0, got.stderr)
    check(f"{kind}: {m2} m2", f"parts, {m2} m" in got.stdout, got.stdout[:300])
    check(f"{kind}: its list is a file", ",ash," in (folder / f"{kind}.csv").read_text())
    check(f"{kind}: again from the files", run(folder, "plan", f"{kind}.json", *NOW).returncode == 0)
got = run(fresh("sofa"), "new", "--kind", "sofa", "--yes", *NOW)
check("no such kind", got.returncode == 2 and 'one of "table"' in got.stderr, got.stderr)
got = run(fresh("flat"), "new", "--kind", "table", "--size", "100 x 100 x 100", "--yes", *NOW)
check("sizes that leave nothing of a part", got.returncode == 2 and "larger sizes" in got.stderr, got.stderr)

# A spreadsheet: title rows, units in the heading, a number of eighths, a sum; and the date that was a fraction.
def sheet(path, rows):
    def cell(value, at):
        return (f'<c r="{at}"><v>{value}</v></c>' if isinstance(value, (int, float)) else
                f'<c r="{at}" t="inlineStr"><is><t>{value}</t></is></c>')
    data = "".join(f'<row r="{r}">' + "".join(cell(v, f"{chr(65 + c)}{r}") for c, v in enumerate(row) if v != "") + "</row>"
                   for r, row in enumerate(rows, 1))
    main, office = "http://schemas.openxmlformats.org", "http://schemas.openxmlformats.org/officeDocument/2006"
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as z:
        z.writestr("[Content_Types].xml", f'<Types xmlns="{main}/package/2006/content-types"/>')
        z.writestr("_rels/.rels", f'<Relationships xmlns="{main}/package/2006/relationships"><Relationship Id="r" '
                   f'Type="{office}/relationships/officeDocument" Target="xl/workbook.xml"/></Relationships>')
        z.writestr("xl/workbook.xml", f'<workbook xmlns="{main}/spreadsheetml/2006/main" xmlns:r="{office}/relationships">'
                   '<sheets><sheet name="Parts" sheetId="1" r:id="s"/></sheets></workbook>')
        z.writestr("xl/_rels/workbook.xml.rels", f'<Relationships xmlns="{main}/package/2006/relationships"><Relationship Id="s" '
                   f'Type="{office}/relationships/worksheet" Target="worksheets/sheet1.xml"/></Relationships>')
        z.writestr("xl/worksheets/sheet1.xml", f'<worksheet xmlns="{main}/spreadsheetml/2006/main"><sheetData>{data}</sheetData></worksheet>')


folder = fresh("sheet")
sheet(folder / "cuts.xlsx", [["Cut list"], [], ["No.", "Description", "Qty", "Material", "Length (mm)", "Width (mm)", "Thk (mm)"],
                             [1, "Side", 2, "birch ply", 1800, 280, 19.125], [2, "Shelf", 5, "birch ply", 764.5, 260, 19.125],
                             ["", "Total", 7, "", "", "", ""]])
got = run(folder, "new", ".", "--yes", *NOW)
check("a spreadsheet: planned", got.returncode == 0 and "2 rows, 7 parts" in got.stdout, got.stderr + got.stdout[:400])
check("a spreadsheet: told", all(t in got.stdout for t in ("above the heading left out", "line 6 left out: a total", "as thickness in mm")),
      got.stdout[:900])
sheet(folder / "dates.xlsx", [["Part", "Qty", "Length", "Width", "Thickness"], ["a", 1, 600, "7-Aug", 20]])
got = run(folder, "new", "dates.xlsx", "--yes", *NOW)
check("a spreadsheet: a date", got.returncode == 3 and "dates.xlsx:2:" in got.stderr and "a number, not a date" in got.stderr, got.stderr)


def typed(folder, answers, *args):
    """What a person at a terminal sees; answers are typed at each question. (text, questions, keystrokes, status)"""
    pid, terminal = pty.fork()
    if pid == 0:
        os.chdir(folder)
        os.execve(PROGRAM, [str(PROGRAM), *args], {"PATH": os.environ["PATH"], "TZ": "Europe/London", "TERM": "dumb"})
    text, seen, questions, keys, end = "", 0, 0, sum(len(a) + 1 for a in (" ".join(args),)), time.monotonic() + 60
    while time.monotonic() < end:
        ready = select.select([terminal], [], [], 0.2)[0]
        try:
            data = os.read(terminal, 65536).decode("utf-8", "replace") if ready else ""
        except OSError:
            break
        text += data
        if ready and not data:
            break
        if text.endswith(": ") and len(text) > seen and questions < len(answers):
            os.write(terminal, (answers[questions] + "\n").encode())
            keys += len(answers[questions]) + 1
            questions, seen = questions + 1, len(text)
    return text, questions, keys, os.waitstatus_to_exitcode(os.waitpid(pid, 0)[1])


try:
    for end in pty.openpty():
        os.close(end)
except OSError:
    print(f"{sys.argv[0]}: what a person types is not tried: this system lends no terminal")
    print(f"{passed} passed, {failed} failed")
    sys.exit(1 if failed else 0)
folder = fresh("typed", "kuechenschrank.csv")
text, questions, keys, status = typed(folder, ["2027-04-09", "wiping-varnish", "shellac-dewaxed", "", "Boden", "", ""],
                                      "new", "kuechenschrank.csv", *NOW)
job = read(folder / "kuechenschrank.json")
check("typed: planned", status == 0 and "Written" in text, text[-500:])
check("typed: at most 12 questions", 0 < questions <= 12, questions)
sheet = ["sheet", "kuechenschrank.json", "--out", "sheet.html"]
keys += len(" ".join(["coatwright", "coatwright", *sheet])) + 2
printed = run(folder, *sheet, *NOW)
check("typed: the sheet", printed.returncode == 0 and (folder / "sheet.html").stat().st_size > 10000, printed.stderr)
check("typed: at most 250 keystrokes until the sheet", keys <= 250, keys)
check("typed: the answers are taken", job["deliver"] == "2027-04-09" and {"piece": "Boden", "laid": "flat", "all": "inside"} in job["pieces"], job)
folder = fresh("mended", "bookcase.csv")
text, questions, keys, status = typed(folder, ["", "wiping-varnisch", "wiping-varnish", "", "", "", ""], "new", "bookcase.csv", *NOW)
check("typed: a slip is asked again", "did you mean" in text and status == 0 and
      read(folder / "bookcase.json")["schedules"]["outside"][2]["coat"] == "wiping-varnish", text[-800:])
print(f"{passed} passed, {failed} failed")
sys.exit(failed > 0)

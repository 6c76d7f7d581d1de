"""Folders with a small job in each form that the program reads, and the commands that are tried on them."""
import json
import os
import struct
import subprocess
import zipfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
BUNDLE = ROOT / "tests/fuzz/corpus/job/shelf"
FINISHES = ROOT / "tests/fuzz/finishes"
EARLIER, PLANNED, UNDER_WAY = "2027-01-01T08:00Z", "2027-01-04T08:00Z", "2027-03-02T12:30Z"
COAT = "case/varnish/1/apply"
HOME = "http://{host}/ann/"
CALENDAR = HOME + "calendar/"
MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
ODF = "urn:oasis:names:tc:opendocument:xmlns:"


def program():
    return os.path.abspath(os.environ.get("COATWRIGHT", ROOT / "build/coatwright"))


def environment(**more):
    return {**os.environ, "COATWRIGHT_FINISHES": str(FINISHES), "TZ": "Europe/London", **more}


def coatwright(folder, *arguments):
    subprocess.run([program(), *arguments], cwd=folder, env=environment(), stdin=subprocess.DEVNULL, capture_output=True, check=True)


def shelf(folder):
    """A job with its part list, shop, stock, busy calendar and a finish of its own, and an empty folder to write into."""
    for part in ("\n" + BUNDLE.read_text(encoding="utf-8")).split("\n@@ ")[1:]:
        name, _, text = part.partition("\n")
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8")
    (folder / "out").mkdir()
    (folder / ".coatwright-key").write_text("5a5a5a5a5a5a5a5a\n")


def nameless(folder):
    """Nothing was written yet that other calendars must know it by."""
    shelf(folder)
    (folder / ".coatwright-key").unlink()


def changed(folder, **keys):
    path = folder / "job.json"
    path.write_text(json.dumps({**json.loads(path.read_text(encoding="utf-8")), **keys}), encoding="utf-8")


def planned(folder):
    """An earlier plan stands in the folder that is written into."""
    shelf(folder)
    coatwright(folder, "plan", "job.json", "--out", "out", "--now", "2027-01-11T09:00Z")
    coatwright(folder, "area", "job.json", "--svg", "out/drawing.svg")
    coatwright(folder, "sheet", "job.json", "--out", "out/sheet.html")


def killed(folder):
    """A writer was stopped between the renames of a set."""
    planned(folder)
    out = folder / "out"
    for name in ("timetable.ics", "shopping.csv"):
        text = (out / name).read_text(encoding="utf-8")
        (out / f".{name}.new").write_text(text.replace("SUMMARY:", "SUMMARY:newer ").replace("finish,", "finish ,"), encoding="utf-8")
    (out / ".plan.json.old").write_text("{}")
    (out / ".coatwright-saving").write_text("plan.json\ntimetable.ics\nshopping.csv\n")


def under_way(folder):
    """Four steps are done, the air was measured."""
    shelf(folder)
    coatwright(folder, "done", "job.json", "until", "2027-03-02 12:00", "--now", UNDER_WAY)
    coatwright(folder, "air", "job.json", "2027-03-02 09:00", "16", "C", "60", "%", "--now", UNDER_WAY)


def late(folder):
    """A job that cannot be in time, its shop in a file of its own: there are changes that would help."""
    shelf(folder)
    changed(folder, deliver="2027-03-04 14:00")


def priced(folder):
    shelf(folder)
    (folder / "prices.csv").write_text("finish,component,size,price\nwiping-varnish,,500 ml,14.50\npaste-wax,,200 ml,8.40\n")
    changed(folder, prices="prices.csv")


def rows(folder):
    return [line.split(",") for line in (folder / "parts.csv").read_text(encoding="utf-8").splitlines()]


def xlsx(folder):
    shelf(folder)
    body = "".join("<row>" + "".join(f'<c t="inlineStr"><is><t>{cell}</t></is></c>' if cell else "<c/>" for cell in row) + "</row>"
                   for row in rows(folder))
    with zipfile.ZipFile(folder / "parts.xlsx", "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("xl/workbook.xml", f'<workbook xmlns="{MAIN}" xmlns:r="{OFFICE}"><sheets><sheet name="Parts" r:id="r1"/></sheets></workbook>')
        archive.writestr("xl/_rels/workbook.xml.rels", '<Relationships><Relationship Id="r1" Target="worksheets/1.xml"/></Relationships>')
        archive.writestr("xl/worksheets/1.xml", f'<worksheet xmlns="{MAIN}"><sheetData>{body}</sheetData></worksheet>')
    changed(folder, parts="parts.xlsx")


def ods(folder):
    shelf(folder)
    body = "".join("<table:table-row>" + "".join(f"<table:table-cell><text:p>{cell}</text:p></table:table-cell>" for cell in row)
                   + "</table:table-row>" for row in rows(folder))
    with zipfile.ZipFile(folder / "parts.ods", "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("content.xml", f'<office:document-content xmlns:office="{ODF}office:1.0" xmlns:table="{ODF}table:1.0" '
                         f'xmlns:text="{ODF}text:1.0"><office:body><office:spreadsheet><table:table table:name="Parts">{body}</table:table>'
                         '</office:spreadsheet></office:body></office:document-content>')
    changed(folder, parts="parts.ods")


CORNERS = ((0, 0, 0), (200, 0, 0), (0, 300, 0), (0, 0, 100))
SIDES = ((0, 2, 1), (0, 1, 3), (0, 3, 2), (1, 2, 3))


def carved(folder, name, data):
    shelf(folder)
    (folder / name).write_bytes(data)
    changed(folder, pieces=[], tasks=[], parts=[{"part": "carving", "shape": "mesh", "wood": "oak", "file": name, "file-units": "mm", "all": "oil"}])


def stl(folder):
    faces = b"".join(struct.pack("<12fH", 0, 0, 0, *(x for corner in side for x in CORNERS[corner]), 0) for side in SIDES)
    carved(folder, "carving.stl", b" " * 80 + struct.pack("<I", len(SIDES)) + faces)


def obj(folder):
    lines = ["v %d %d %d" % corner for corner in CORNERS] + ["f %d %d %d" % tuple(i + 1 for i in side) for side in SIDES]
    carved(folder, "carving.obj", ("\n".join(lines) + "\n").encode())


def listed(folder):
    """A cut list alone, to make a job of."""
    (folder / "list").mkdir()
    (folder / "list/cuts.csv").write_text("part,qty,wood,length,width,thickness\nshelf,2,oak,800,250,20\nside,2,oak,900,250,20\n")


def learning(folder):
    """Two jobs with what their coats took: the shop's own folder of finishes can be written."""
    under_way(folder)
    coatwright(folder, "done", "job.json", "case/varnish/3/apply", "--used", "40 ml", "--now", "2027-03-04T12:30Z")


def secret(folder):
    shelf(folder)
    (folder / "password").write_text("bench-oil-7\n")
    (folder / "password").chmod(0o600)


def called(folder):
    """The shop's busy calendar is on the server."""
    shelf(folder)
    shop = json.loads((folder / "shop.json").read_text(encoding="utf-8"))
    (folder / "shop.json").write_text(json.dumps({**shop, "busy": ["diary.ics", CALENDAR]}), encoding="utf-8")


# Title, folder, arguments, now. {host} is that of the calendar server.
COMMANDS = [
    ("plan --out", planned, "plan job.json --out out", PLANNED),
    ("plan --out, new", shelf, "plan job.json --out fresh", PLANNED),
    ("plan --out, after a kill", killed, "plan job.json --out out", PLANNED),
    ("timetable --ics", planned, "timetable job.json --ics out/timetable.ics", PLANNED),
    ("timetable --ics, the first", nameless, "timetable job.json --ics first.ics", PLANNED),
    ("timetable --svg", planned, "timetable job.json --svg out/drawing.svg", PLANNED),
    ("timetable --chance", shelf, "timetable job.json --chance", PLANNED),
    ("timetable --apply --out", late, "timetable job.json --apply 1 --out copy --effort 20000", PLANNED),
    ("timetable --apply --in-place", late, "timetable job.json --apply 1 --in-place --effort 20000", PLANNED),
    ("area --svg", planned, "area job.json --svg out/drawing.svg", PLANNED),
    ("buy --csv", planned, "buy job.json --csv out/shopping.csv", PLANNED),
    ("buy --cost, with prices", priced, "buy job.json --cost", PLANNED),
    ("sheet --out", planned, "sheet job.json --out out/sheet.html", PLANNED),
    ("today", under_way, "today job.json --day 2027-03-03", UNDER_WAY),
    ("done", shelf, "done job.json until 2027-03-02T12:00", UNDER_WAY),
    ("done, a second time", under_way, "done job.json case/varnish/3/apply --used 40ml", "2027-03-03T17:00Z"),
    ("again", under_way, f"again job.json {COAT} --because ran --sand 320", UNDER_WAY),
    ("skip", under_way, "skip job.json case/varnish/3/polish", UNDER_WAY),
    ("undo", under_way, "undo job.json", UNDER_WAY),
    ("air", under_way, "air job.json 2027-03-02T11:00 14 C 70 %", UNDER_WAY),
    ("log", under_way, "log job.json", UNDER_WAY),
    ("new", listed, "new list/cuts.csv --yes --deliver 2027-02-12 --outside danish-oil --zone Europe/London", PLANNED),
    ("new, of a folder", listed, "new list --yes --deliver 2027-02-12 --outside danish-oil --zone Europe/London", PLANNED),
    ("learned --write", learning, "learned . --write", UNDER_WAY),
    ("publish", secret, f"publish job.json --to {HOME} --user ann --password-file password", PLANNED),
    ("fetch-busy", called, f"fetch-busy job.json --from {CALENDAR}", PLANNED),
    ("fetch-busy, once more", called, "fetch-busy job.json", PLANNED),
    ("check", shelf, "check job.json", PLANNED),
    ("check, .xlsx", xlsx, "check job.json", PLANNED),
    ("check, .ods", ods, "check job.json", PLANNED),
    ("area, STL", stl, "area job.json", PLANNED),
    ("area, OBJ", obj, "area job.json", PLANNED),
    ("finishes --own", shelf, "finishes --own own", PLANNED),
    ("mix", shelf, "mix danish-oil 350ml", PLANNED),
]

# Title, folder, what is asked of the page's server, now. What is sent saves the job under another name.
PAGES = [
    ("serve, saving", shelf, [("POST", "/api/save/job.json")], PLANNED),
    ("serve, a job", shelf, [("GET", "/api/job/job.json?effort=quick"), ("GET", "/files/job.json/timetable.ics")], PLANNED),
    ("serve, the folder", shelf, [("GET", "/api/folder")], PLANNED),
]

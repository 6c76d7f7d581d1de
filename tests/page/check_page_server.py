#!/usr/bin/env -S python3 -B
"""The server of the page, route by route: what it answers, what it keeps, and who hears of it."""
import base64
import hashlib
import json
import re
import shutil
import subprocess
import sys
import threading
import time
from pathlib import Path

import icalendar

sys.path.insert(0, __file__.rpartition("/")[0])
from serving import DESK, NOW, PROGRAM, ROOT, Server  # noqa: E402
from spreadsheet import spreadsheet  # noqa: E402

passed = failed = 0


def check(name, holds, told=""):
    global passed, failed
    passed, failed = passed + bool(holds), failed + (not holds)
    if not holds:
        print(f"{name}: {str(told)[:400]}")


def printed(server, *words):
    """What the program itself prints of the folder's job, as JSON."""
    done = subprocess.run([PROGRAM, *words, "--now", NOW, "--json"], cwd=server.folder, capture_output=True, check=False)
    return json.loads(done.stdout)


def bytes_read(server, target):
    """How much the server reads from files (and the connection) until it has answered."""
    def so_far():
        return int(re.search(r"rchar: (\d+)", Path(f"/proc/{server.process.pid}/io").read_text())[1])
    before = so_far()
    server.get(target)
    return so_far() - before


def check_kept_plans():
    with Server(*DESK, "doors.json", "doors-parts.csv", "doors-shop.json", "doors-finishes") as server:
        first, again = bytes_read(server, "/api/folder"), bytes_read(server, "/api/folder")
        check("home plans no job twice: nothing but the jobs is read again", again < first / 4, (first, again))
        check("nor does a page of one of them", bytes_read(server, "/api/plan/doors.json") < first / 4)


def check_reading():
    with Server(*DESK, "doors.json", "doors-parts.csv", "doors-shop.json", "doors-finishes") as server:
        check("the first line is the address", re.fullmatch(r"http://127\.0\.0\.1:\d+/", server.address), server.address)
        status, folder = server.get("/api/folder")
        check("the jobs of the folder", status == 200 and [job["file"] for job in folder["jobs"]] == ["desk.json", "doors.json"], folder)
        check("each with its name", folder["jobs"][0]["name"] == "Writing desk in oak" and folder["now"] == NOW, folder["jobs"][0])
        check("and its units", [job["units"] for job in folder["jobs"]] == ["metric", "us"], folder["jobs"])
        check("and what is to be done today", folder["today"][0]["day"]["day"] == "2027-03-01" and folder["today"][0]["day"]["batches"], folder["today"])
        status, job = server.get("/api/job/desk.json")
        texts = job["texts"]
        check("the texts of a job", status == 200 and texts["desk.json"]["text"] == (ROOT / "examples/desk.json").read_text(), texts.keys())
        check("with their kinds", {name: text["kind"] for name, text in texts.items()} == {
            "desk.json": "job", "desk-parts.csv": "parts", "desk-shop.json": "shop", "desk-finishes/hardwax-oil-two-part.json": "finish",
            "desk-finishes/paste-wax.json": "finish", "desk-finishes/shellac-dewaxed.json": "finish", "desk-finishes/wiping-varnish.json": "finish"},
            {name: text["kind"] for name, text in texts.items()})
        sha = hashlib.sha256((ROOT / "examples/desk.json").read_bytes()).hexdigest()[:32]
        check("a version is a hash of the text", texts["desk.json"]["version"] == sha, texts["desk.json"]["version"])
        timetable = printed(server, "timetable", "desk.json")
        check("ready as the program prints it", job["state"]["plan"]["ready"] == timetable["ready"], job["state"]["plan"])
        check("areas as the program prints them", job["state"]["area"] == printed(server, "area", "desk.json"), job["state"]["area"])
        for target, words in (("/api/plan/desk.json", ["plan", "desk.json"]), ("/api/log/desk.json", ["log", "desk.json"]),
                              ("/api/today/desk.json?day=2027-03-02", ["today", "desk.json", "--day", "2027-03-02"]),
                              ("/api/finishes", ["finishes"]), ("/api/woods", ["woods"])):
            status, said = server.get(target)
            check(target, status == 200 and said == printed(server, *words), said)
        status, mix = server.post("/api/mix", {"finish": "hardwax-oil-two-part", "amount": "400 ml"})
        mix.pop("errors", None)
        check("a mix alone", status == 200 and mix == printed(server, "mix", "hardwax-oil-two-part", "400 ml"), mix)
        status, mix = server.post("/api/mix", {"finish": "hardwax-oil-two-part", "amount": "a lot"})
        check("a mix of nothing", status == 422 and "expected" in mix["error"], mix)
        check("no such job", server.get("/api/job/chair.json")[0] == 404)
        check("no such page", server.get("/api/nothing")[0] == 404)
        check("another way to ask", server.get("/api/try/desk.json")[0] == 405)
        check("it ends with 0 and says nothing", server.stop() == 0 and not server.said, server.said)


def check_files():
    types = {"plan.json": "application/json", "timetable.ics": "text/calendar; charset=utf-8", "shopping.csv": "text/csv; charset=utf-8",
             "sheet.html": "text/html; charset=utf-8", "areas.svg": "image/svg+xml", "timetable.svg": "image/svg+xml"}
    with Server(*DESK) as server:
        for name, type_ in types.items():
            status, heads, said = server.ask("GET", f"/files/desk.json/{name}")
            check(name, status == 200 and heads["Content-Type"] == type_ and said, (status, heads["Content-Type"]))
            check(f"{name}: nosniff, no-store", heads["X-Content-Type-Options"] == "nosniff" and heads["Cache-Control"] == "no-store", heads)
        subprocess.run([PROGRAM, "sheet", "desk.json", "--now", NOW, "--out", "printed.html"], cwd=server.folder, stdout=subprocess.DEVNULL, check=False)
        _, heads, said = server.ask("GET", "/files/desk.json/sheet.html")
        check("the sheet is that of the program", said == (server.folder / "printed.html").read_bytes())
        style = re.search(rb"<style[^>]*>(.*?)</style>", said, re.S).group(1)
        policy = heads["Content-Security-Policy"]
        check("its style is allowed by its hash", f"'sha256-{base64.b64encode(hashlib.sha256(style).digest()).decode()}'" in policy, policy)
        check("and nothing inline", "unsafe" not in policy and "default-src 'none'" in policy, policy)
        letter = server.ask("GET", "/files/desk.json/sheet.html?letter=1")[2]
        check("on Letter", b"letter" in letter.lower() and letter != said)
        status, heads, said = server.ask("GET", "/calendar/desk.json.ics")
        check("a calendar to subscribe to", status == 200 and said.startswith(b"BEGIN:VCALENDAR\r\n") and heads["Content-Type"].startswith("text/calendar"), said[:60])
        check("the calendar of all jobs is that of the one", server.ask("GET", "/calendar.ics")[2].count(b"BEGIN:VEVENT") == said.count(b"BEGIN:VEVENT"))
        check("no file of that name", server.ask("GET", "/files/desk.json/passwd")[0] == 404)
        status, heads, said = server.ask("GET", "/")
        check("the page", status == 200 and b"<script" in said and b"<style" not in said and not re.search(rb"\son\w+=", said), said)
        check("it is asked for again by its tag", server.ask("GET", "/", If_None_Match=heads["ETag"])[0] == 304)
        for asset in sorted(path.name for path in (ROOT / "src/page/assets").iterdir()):
            check(f"/assets/{asset}", server.ask("GET", f"/assets/{asset}")[2] == (ROOT / "src/page/assets" / asset).read_bytes())
        check("head alone", server.ask("HEAD", "/")[2] == b"")


def check_all_calendars():
    """Read by another program: python3-icalendar."""
    def moments(calendar):
        return sorted((str(event["UID"]), event["DTSTART"].dt) for event in icalendar.Calendar.from_ical(calendar).walk("VEVENT"))

    def events(calendar):
        return [uid for uid, _ in moments(calendar)]
    with Server(*DESK, "doors.json", "doors-parts.csv", "doors-shop.json", "doors-finishes") as server:
        desk, doors = (server.ask("GET", f"/calendar/{job}.json.ics")[2] for job in ("desk", "doors"))
        status, heads, both = server.ask("GET", "/calendar.ics")
        check("jobs of different shops stand in one calendar", status == 200 and heads["Content-Type"].startswith("text/calendar") and
              events(both) == sorted(events(desk) + events(doors)), both[:300])
        zones = [str(zone["TZID"]) for zone in icalendar.Calendar.from_ical(both).walk("VTIMEZONE")]
        check("each zone once", sorted(zones) == ["America/Chicago", "Europe/London"], zones)
        for name in ("desk.json", "desk-parts.csv"):
            shutil.copy(server.folder / name, server.folder / name.replace("desk", "second"))
        second = server.folder / "second.json"
        second.write_text(second.read_text().replace("Writing desk in oak", "Second desk").replace("desk-parts", "second-parts"))
        (server.folder / "doors.json").unlink()
        together = server.ask("GET", "/calendar.ics")[2]
        subprocess.run([PROGRAM, "timetable", "desk.json", "second.json", "--now", NOW, "--ics", "both.ics"], cwd=server.folder, capture_output=True, check=False)
        check("jobs of one shop are planned together", moments(together) == moments((server.folder / "both.ics").read_bytes()), together[:300])
        shutil.copy(ROOT / "examples/doors.json", server.folder / "doors.json")
        (server.folder / "doors.json").write_text("{")
        check("a job with mistakes stands in no one's way", events(server.ask("GET", "/calendar.ics")[2]) == events(together))


def check_trying():
    with Server(*DESK) as server:
        text = (server.folder / "desk.json").read_text()
        status, state = server.post("/api/try/desk.json", {"texts": {"desk.json": text.replace('"units": "mm"', '"units": "mmm"')}, "effort": "quick"})
        error = state["errors"][0]
        check("a mistake has its place", status == 200 and (error["file"], error["line"], error["pointer"]) == ("desk.json", 5, "/units"), error)
        check("and its sentence", error["text"].startswith("expected one of") and error["expected"] in error["text"], error)
        parts = (server.folder / "desk-parts.csv").read_text()
        status, state = server.post("/api/try/desk.json", {"texts": {"desk-parts.csv": parts + parts.splitlines()[-1] + "\n"}, "effort": "quick"})
        before = printed(server, "area", "desk.json")
        check("a part that is not saved counts", state["area"] and len(state["area"]["surfaces"]) > len(before["surfaces"]), state["errors"])
        finish = (server.folder / "desk-finishes/wiping-varnish.json").read_text()
        status, state = server.post("/api/try/desk.json", {"texts": {"desk-finishes/wiping-varnish.json": finish}, "effort": "quick"})
        check("one finish of several is tried, the others stay", status == 200 and not state["errors"] and state["plan"]["planned"], state["errors"])
        check("a quick plan says so", state["plan"]["quick"] is True, state["plan"])
        edited = {"texts": {"desk-parts.csv": parts.replace("1500,", "1640,")}}
        status, drawn = server.post("/api/drawing/desk.json", edited)
        check("the parts are drawn as they are edited", status == 200 and ">1640" in drawn["svg"] and ">1500" not in drawn["svg"], str(drawn)[:300])
        check("without changes as they are", ">1500" in server.post("/api/drawing/desk.json", {"texts": {}})[1]["svg"])
        status, drawn = server.post("/api/drawing/desk.json", {"texts": {"desk-parts.csv": parts.replace("1500,", "wide,")}})
        check("with a mistake there is no drawing", status == 422 and "desk-parts.csv" in drawn["error"], drawn)
        check("nor of a job that is not there", "chest.json" in server.post("/api/drawing/chest.json", {"texts": {}})[1]["error"])
        check("nothing was saved", (server.folder / "desk.json").read_text() == text)
        status, state = server.post("/api/try/desk.json", {"texts": {"desk.json": text.replace("2027-03-16 14:00", "2027-03-09")}, "advice": True})
        check("what would help", state["advice"] and state["advice"][0]["number"] == 1, state["advice"])
        for body in ({}, {"texts": []}, {"texts": {"desk.json": 7}}, {"texts": {"../desk.json": ""}}, []):
            check(f"{body} is refused", server.post("/api/try/desk.json", body)[0] == 400)


# Each escape of RFC 8259, section 7, and UTF-8 of two, three and four bytes.
ESCAPED = r'"\"\\\/\b\f\n\r\t\u0041\u00e9\u6f22\ud83d\ude00\uD83D\uDE00\u007F é漢😀"'


def check_escapes():
    """A text is kept byte by byte, however the JSON that brings it writes it."""
    text = json.loads(ESCAPED)
    for way, written in (("by hand", ESCAPED), ("in ASCII", json.dumps(text)), ("in UTF-8", json.dumps(text, ensure_ascii=False))):
        with Server(*DESK) as server:
            body = '{"texts": {"\\u006eew.json": {"text": %s, "version": null}}}' % written
            status, _, said = server.ask("POST", "/api/save/new.json", body.encode())
            check(f"escapes {way}", status == 200 and (server.folder / "new.json").read_bytes() == text.encode(), said)


def check_saving():
    with Server(*DESK) as server:
        texts = server.get("/api/job/desk.json")[1]["texts"]
        version = texts["desk.json"]["version"]
        first = texts["desk.json"]["text"]
        kept = [first]
        for i in range(25):
            changed = first.replace("Writing desk in oak", f"Desk {i}")
            status, saved = server.post("/api/save/desk.json", {"texts": {"desk.json": {"text": changed, "version": version}}})
            check(f"save {i}", status == 200, saved)
            version = saved["texts"]["desk.json"]["version"]
            kept.append(changed)
        check("the file holds the last", (server.folder / "desk.json").read_text() == kept[-1])
        versions = server.get("/api/versions/desk.json?of=desk.json")[1]
        check("twenty versions are kept", len(versions) == 20 and len(list((server.folder / ".versions").iterdir())) == 20, versions)
        got = [server.get(f"/api/version/desk.json?of=desk.json&version={v['version']}")[1]["text"] for v in versions]
        check("the newest first", got == kept[-2:-22:-1], [text[40:90] for text in got])
        status, answer = server.post("/api/save/desk.json", {"texts": {"desk.json": {"text": first, "version": "0" * 32}}})
        check("changed meanwhile: both are shown", status == 409 and answer["texts"]["desk.json"] == {"text": kept[-1], "version": version}, answer)
        stale = {"desk-parts.csv": {"text": "broken", "version": texts["desk-parts.csv"]["version"]}, "desk.json": {"text": first, "version": "1" * 32}}
        check("all or none", server.post("/api/save/desk.json", {"texts": stale})[0] == 409 and
              (server.folder / "desk-parts.csv").read_text() == texts["desk-parts.csv"]["text"])
        finish = "desk-finishes/paste-wax.json"
        both = {"desk.json": {"text": first, "version": version}, finish: {"text": texts[finish]["text"] + "\n", "version": texts[finish]["version"]}}
        status, saved = server.post("/api/save/desk.json", {"texts": both})
        check("a file in a folder below, and its version beside it", status == 200 and (server.folder / finish).read_text().endswith("\n\n") and
              len(list((server.folder / "desk-finishes/.versions").iterdir())) == 1, saved)
        check("a new file", server.post("/api/save/desk.json", {"texts": {"more.csv": {"text": "a\n", "version": None}}})[0] == 200)
        check("but not over one", server.post("/api/save/desk.json", {"texts": {"more.csv": {"text": "b\n", "version": None}}})[0] == 409)
        check("two savers at once: one of them", two_savers(server))


def two_savers(server):
    """However often they meet, one saves and the other is told; nothing is mixed."""
    for i in range(10):
        version = server.get("/api/job/desk.json?effort=quick")[1]["texts"]["desk-parts.csv"]["version"]
        said = []
        savers = [threading.Thread(target=lambda k=k: said.append(server.post(
            "/api/save/desk.json", {"texts": {"desk-parts.csv": {"text": f"part,qty\nsaver {k} of {i}\n", "version": version}}})[0])) for k in (1, 2)]
        for saver in savers:
            saver.start()
        for saver in savers:
            saver.join()
        if sorted(said) != [200, 409]:
            print(said)
            return False
    return True


def check_recording():
    with Server(*DESK) as server:
        status, said = server.post("/api/record/desk.json", {"kind": "done", "what": "until 10:00", "person": "Ann"})
        check("what was done", status == 200 and said["entries"] > 0, said)
        log = server.get("/api/log/desk.json")[1]["log"]
        check("is in the log", len(log) == said["entries"] and log[0]["what"] == "done", log)
        ids = [step["id"] for step in server.get("/api/plan/desk.json")[1]["timetable"]["steps"]]
        check("and the plan has moved on", log[0]["step"] not in ids, ids[:3])
        check("undone", server.post("/api/record/desk.json", {"kind": "undo", "what": log[-1]["entry"]})[0] == 200)
        check("the air", server.post("/api/record/desk.json", {"kind": "air", "what": "12 C 80 %", "at": "09:00"})[0] == 200)
        status, said = server.post("/api/record/desk.json", {"kind": "done", "what": "legs/varnish/9/apply"})
        check("no such step", status == 422 and "expected" in said["error"], said)
        check("no such kind", server.post("/api/record/desk.json", {"kind": "gone"})[0] == 400)


def check_applying():
    with Server(*DESK) as server:
        job = server.folder / "desk.json"
        job.write_text(job.read_text().replace("2027-03-16 14:00", "2027-03-09 14:00"))
        lines = server.get("/api/advice/desk.json")[1]["lines"]
        before = job.read_text(), (server.folder / "desk-shop.json").read_text()
        late = server.get("/api/job/desk.json")[1]["state"]["plan"]["ready"]
        number = next(line["number"] for line in lines if "`" in line["text"])
        status, said = server.post("/api/apply/desk.json", {"number": number})
        after = job.read_text(), (server.folder / "desk-shop.json").read_text()
        check("a line is applied", status == 200 and before != after, (status, said, lines))
        check("it is ready sooner", server.get("/api/job/desk.json")[1]["state"]["plan"]["ready"] < late)
        check("what it changed can be had back", {server.get(f"/api/version/desk.json?of={of}&version={v['version']}")[1]["text"]
              for of in ("desk.json", "desk-shop.json") for v in server.get(f"/api/versions/desk.json?of={of}")[1]} >= set(before))
        check("no such line", server.post("/api/apply/desk.json", {"number": 99})[0] == 422)
        check("no number", server.post("/api/apply/desk.json", {"number": 0})[0] == 400)


def check_new():
    asked = {"start": "2027-03-01", "deliver": "2027-03-30", "outside": "danish-oil", "zone": "Europe/London"}
    cuts = "part,qty,wood,length,width,thickness\nshelf,3,ash,850,240,20\n"
    with Server() as server:
        check("an empty folder", server.get("/api/folder")[1]["jobs"] == [])
        status, made = server.post("/api/new", {"list": {"name": "cuts.csv", "text": cuts}, **asked})
        check("a list becomes a job", status == 200 and made["plan"]["planned"] and made["made"]["job_file"] == "cuts.json", made)
        check("that is not saved yet", list(server.folder.iterdir()) == [])
        status, made = server.post("/api/new", {"list": {"name": "cuts.csv", "text": cuts}, **asked, "yes_save": True})
        check("then it is", status == 200 and {path.name for path in server.folder.iterdir()} >= {"cuts.csv", "cuts.json", "cuts-shop.json", "cuts-prices.csv"}, made)
        check("and stands among the jobs", [job["file"] for job in server.get("/api/folder")[1]["jobs"]] == ["cuts.json"])
        status, again = server.post("/api/new", {"list": {"name": "cuts.csv", "text": cuts}, **asked, "yes_save": True})
        check("never over a file", status == 422 and "takes the place of none" in again["error"], again)
        status, made = server.post("/api/new", {"list": {"name": "list.xlsx", "base64": base64.b64encode(spreadsheet([["part", "qty", "wood", "length", "width", "thickness"], ["shelf", 3, "ash", 850, 240, 20]])).decode()}, **asked})
        check("a spreadsheet", status == 200 and made["made"]["job_file"] == "list.json", made)
        common = {"list": {"name": "hall-table.csv"}, "kind": "table", "sizes": "1200 x 400 x 800", "wood": "ash", **asked}
        status, made = server.post("/api/new", {**common, "yes_save": True})
        check("a common piece becomes a job with a list of its own", status == 200 and made["saved"] and "leg,legs,4,board,ash,775" in (server.folder / "hall-table.csv").read_text(), made)
        status, made = server.post("/api/new", {**common, "sizes": "1200"})
        check("sizes that are none", status == 200 and made["errors"][0]["found"] == '"1200"', made)
        rows = base64.b64encode(spreadsheet([["part", "qty"], ["rail", 2], ["a\tb", 2.5]])).decode()
        status, sheet = server.post("/api/sheet", {"name": "more.xlsx", "base64": rows})
        check("rows of a spreadsheet for a list that is there", status == 200 and sheet["text"] == "part\tqty\nrail\t2\na b\t2.5\n", sheet)
        for wrong, refusal in (({"name": "more.csv", "base64": rows}, 422), ({"name": "more.ods", "base64": rows}, 422), ({"name": "more.xlsx", "base64": "%%"}, 400),
                               ({"name": "more.xlsx", "base64": "UEsDBA=="}, 422), ({"base64": rows}, 400), ({"name": "more.xlsx"}, 400)):
            status, said = server.post("/api/sheet", wrong)
            check(f"no spreadsheet: {wrong}", status == refusal and said["error"], (status, said))
        for wrong in ({"name": "../cuts.csv", "text": cuts}, {"name": "cuts.csv"}, {"name": "a.xlsx", "base64": "%%"}, {}, 7):
            check(f"list {wrong}", server.post("/api/new", {"list": wrong, **asked})[0] == 400)


def listen(server, heard):
    """Reads events until the connection ends."""
    connection = server.connect(timeout=20)
    connection.request("GET", "/events")
    answer = connection.getresponse()
    heard.append(answer.headers["Content-Type"])
    try:
        while line := answer.readline():
            heard.append(line.decode().strip())
    except OSError:
        pass


def until(holds, seconds=15):
    end = time.monotonic() + seconds
    while not holds() and time.monotonic() < end:
        time.sleep(0.05)
    return holds()


def check_events():
    with Server(*DESK) as server:
        heard = [[], []]
        listeners = [threading.Thread(target=listen, args=(server, lines), daemon=True) for lines in heard]
        for listener in listeners:
            listener.start()
        check("a stream of events", until(lambda: all(lines and lines[0] == "text/event-stream" for lines in heard)), heard)
        time.sleep(1.5)  # the first look at the folder is what later ones are compared with
        server.post("/api/record/desk.json", {"kind": "done", "what": "until 10:00"})
        told = 'data: {"file":"desk.json"}'
        check("both pages hear of a record", until(lambda: all(told in lines for lines in heard)), heard)
        for lines in heard:
            lines.clear()
        (server.folder / "desk-shop.json").write_text((server.folder / "desk-shop.json").read_text() + "\n")
        check("and of what another program writes, into another file of the job", until(lambda: all(told in lines for lines in heard)), heard)
        check("it ends all the same", server.stop() == 0 and not server.said, server.said)
        for listener in listeners:
            listener.join(10)
        check("and lets the pages go", not any(listener.is_alive() for listener in listeners))


for part in [globals()[name] for name in sys.argv[1:]] or (check_reading, check_kept_plans, check_files, check_all_calendars, check_trying, check_escapes, check_saving, check_recording, check_applying, check_new, check_events):
    part()
print(f"{passed} passed, {failed} failed")
sys.exit(failed > 0)

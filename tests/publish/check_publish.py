#!/usr/bin/env -S python3 -B
"""A plan's calendar on two CalDAV servers from Debian, radicale and xandikos, on loopback: published, planned again, changed
and deleted by somebody else, cut short, refused. Both servers are other people's programs: what they hold is read with
their own listings, not with ours."""
import json
import re
import socket
import sys
import threading
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "checker"))

import program
from servers import PASSWORD, USER, Server, certificate, hang_up, secret_in, serving, unfold

NOW = ["--now", "2027-02-26"]
JOB = {"format": "coatwright-job/1", "job": "Two shelves and a box", "zone": "Europe/London", "start": "2027-03-01 08:00",
       "deliver": "2027-04-16", "schedules": {"oiled": [{"sand": 180}, {"coat": "danish-oil", "coats": 2}]},
       "parts": [{"part": "shelf", "qty": 2, "wood": "ash", "length": 850, "width": 240, "thickness": 20, "all": "oiled"},
                 {"part": "box", "shape": "box", "wood": "oak", "length": 400, "width": 300, "height": 200, "thickness": 12,
                  "open": "top", "all": "oiled"}],
       "tasks": [{"task": "fit the hinges", "takes": "45 min", "after": ["box"]},
                 {"task": "fit the feet", "takes": "30 min", "after": ["box"]}]}


def sequence(text):
    return int(re.search(r"^SEQUENCE:(\d+)$", text, re.M).group(1))


def wanted(job):
    """UIDs of the calendar that the program writes to a file."""
    path = job.parent / "out.ics"
    path.unlink(missing_ok=True)
    program.run("timetable", job, "--ics", path, *NOW)
    return set(re.findall(r"^UID:(.*)$", unfold(path.read_text()), re.M))


class Case:
    """One job against one server; `problems` collects what went otherwise than it should."""

    def __init__(self, server, folder):
        self.server, self.problems = server, []
        self.folder = Path(folder) / f"jobs-{server.kind}"
        self.folder.mkdir()
        self.job = self.folder / "shelves.json"
        self.job.write_text(json.dumps(JOB))
        self.secret = self.folder / "secret"
        self.secret.write_text(PASSWORD + "\n")
        self.secret.chmod(0o600)
        self.collection = f"{server.root}{USER}/" + ("coatwright/" if server.kind == "radicale" else "calendars/calendar/")

    def publish(self, *more, to=None):
        """(exit status, {counts}, messages)."""
        code, out, errors = program.run("publish", self.job, "--to", to or self.server.root, "--user", USER, "--password-file",
                                        self.secret, "--json", *NOW, *more)
        return code, json.loads(out) if code == 0 else {}, out + errors

    def expect(self, what, got, want):
        if got != want:
            self.problems.append(f"{what}: {got!r}, not {want!r}")

    def change(self, edit):
        data = json.loads(self.job.read_text())
        edit(data)
        self.job.write_text(json.dumps(data))

    def first_time(self):
        code, done, said = self.publish("--make", "--dry-run", to=self.collection)
        code, done, said = self.publish("--make")
        uids = wanted(self.job)
        self.expect("first: status", (code, said if code else ""), (0, ""))
        self.expect("first: added", done.get("added"), len(uids))
        self.expect("first: collection", done.get("collection"), self.collection)
        self.expect("first: on the server", set(self.server.resources(self.collection)), uids)

    def nothing_new(self):
        _, done, _ = self.publish()
        self.expect("again: as they were", (done.get("same"), done.get("added"), done.get("changed"), done.get("removed")),
                    (len(wanted(self.job)), 0, 0, 0))

    def planned_again(self):
        before = self.server.resources(self.collection)
        self.change(lambda data: data.update(start="2027-03-02 08:00"))
        _, done, _ = self.publish()
        after = self.server.resources(self.collection)
        self.expect("moved: UIDs", set(after), set(before))
        moved = {uid for uid in before if before[uid][1] != after[uid][1]}
        self.expect("moved: some changed", 0 < len(moved) == done.get("changed"), True)
        self.expect("moved: SEQUENCE rose for those alone",
                    {uid for uid in before if sequence(after[uid][1]) > sequence(before[uid][1])}, moved)

    def somebody_else(self):
        """One event is changed and another deleted with another client; what is theirs beside ours stays."""
        there = self.server.resources(self.collection)
        edited, deleted = sorted(there)[:2]
        url, text = there[edited]
        theirs = re.sub(r"^SUMMARY:.*$", "SUMMARY:not today", self.server.ask("GET", url)[1], flags=re.M)
        self.server.ask("PUT", url, theirs, {"Content-Type": "text/calendar"})
        self.server.ask("DELETE", there[deleted][0])
        own = theirs.replace(f"UID:{edited}", "UID:a-private-event").replace("not today", "dentist")
        self.server.ask("PUT", self.collection + "private.ics", re.sub(r"(?m)^UID:.*\n( .*\n)*", "UID:a-private-event\r\n", own),
                        {"Content-Type": "text/calendar"})
        self.change(lambda data: data.update(start="2027-03-01 08:00"))
        code, done, said = self.publish()
        after = self.server.resources(self.collection)
        self.expect("other client: status", code, 0)
        self.expect("other client: left and put again", (done.get("left"), done.get("again")), (1, 1))
        self.expect("other client: told", "somebody else has changed it" in said and "had deleted it" in said, True)
        self.expect("other client: theirs stands", "SUMMARY:not today" in after[edited][1], True)
        self.expect("other client: the deleted one is back", deleted in after, True)
        self.expect("other client: a private event stands", "a-private-event" in after, True)

    def taken_out(self):
        """Steps that left the plan leave the calendar or are cancelled; nobody's event goes with them."""
        def fewer(data):
            data["tasks"] = data["tasks"][:1]
        self.change(fewer)
        code, _, said = self.publish()
        after = self.server.resources(self.collection)
        live = {uid for uid, (_, text) in after.items() if "STATUS:CANCELLED" not in text} - {"a-private-event"}
        calendar = {uid for uid in wanted(self.job)}
        self.expect("taken out: status", (code, said if code else ""), (0, ""))
        self.expect("taken out: live events", live - calendar, set())
        self.expect("taken out: the private event", "a-private-event" in after, True)

    def state_lost(self):
        """Without its marks the program finds its own events again and doubles none."""
        (self.folder / "shelves.published.json").unlink()
        before = set(self.server.resources(self.collection))
        code, done, said = self.publish()
        self.expect("marks lost: status", (code, said if code else ""), (0, ""))
        self.expect("marks lost: nothing doubled", set(self.server.resources(self.collection)), before)

    def cut_short(self):
        """The server goes away in the middle; the next run ends what was begun."""
        self.change(lambda data: data.update(start="2027-03-03 08:00"))
        gate = Gate(self.server.port, 6)
        (self.folder / "shelves.published.json").unlink()
        code, _, said = self.publish(to=f"http://127.0.0.1:{gate.port}/{self.collection[len(self.server.root):]}")
        gate.close()
        self.expect("cut short: status", code, 4)
        self.expect("cut short: says so", "expected" in said, True)
        code, _, said = self.publish()
        self.expect("after it: status", (code, said if code else ""), (0, ""))
        live = {uid for uid, (_, text) in self.server.resources(self.collection).items() if "STATUS:CANCELLED" not in text}
        self.expect("after it: all are there", wanted(self.job) - live, set())

    def wrong_password(self):
        self.secret.write_text("not this\n")
        code, _, said = self.publish()
        self.secret.write_text(PASSWORD + "\n")
        self.expect("wrong password", (code, "the user or the password is not accepted" in said), (4, True))

    def open_secret(self):
        self.secret.chmod(0o644)
        code, _, said = self.publish()
        self.secret.chmod(0o600)
        self.expect("a password that others may read", (code, "chmod 600" in said), (4, True))


class Gate:
    """Lets so many connections through to a server, then shuts the door in the face of all that come."""

    def __init__(self, port, most):
        self.to, self.most, self.door = port, most, socket.socket()
        self.door.bind(("127.0.0.1", 0))
        self.door.listen(20)
        self.port = self.door.getsockname()[1]
        threading.Thread(target=self.keep, daemon=True).start()

    def keep(self):
        for count in range(1000):
            try:
                guest, _ = self.door.accept()
            except OSError:
                return
            if count >= self.most:
                guest.close()
                continue
            host = socket.create_connection(("127.0.0.1", self.to))
            for a, b in ((guest, host), (host, guest)):
                threading.Thread(target=pump, args=(a, b), daemon=True).start()

    def close(self):
        self.door.close()


def pump(a, b):
    try:
        while data := a.recv(65536):
            b.sendall(data)
    except OSError:
        pass
    hang_up(a, b)


def refusals(folder):
    """(name, what is wrong) of servers that do not do what is asked."""
    work = Path(folder) / "refused"
    work.mkdir()
    (work / "shelves.json").write_text(json.dumps(JOB))
    cases = [
        ("a full server", serving(507, {}), "the server is full", []),
        ("a redirect to another server", serving(301, {"Location": "http://192.0.2.1/elsewhere/"}), "192.0.2.1", []),
        ("a redirect in a circle", serving(302, {"Location": "/again"}), "status 302", []),
        ("a failing server", serving(503, {}), "status 503", []),
        ("an expired certificate", serving(207, {}, certificate(folder)), "ertificate",
         ["--authorities", str(Path(folder) / "cert.pem")]),
    ]
    for name, server, words, more in cases:
        scheme = "https" if more else "http"
        code, out, errors = program.run("publish", work / "shelves.json", "--to",
                                        f"{scheme}://localhost:{server.server_address[1]}/x/", *NOW, *more)
        server.shutdown()
        said = out + errors
        yield name, [] if code == 4 and words in said else [f"exit status {code}, {said.strip()!r}"]
    code, out, errors = program.run("publish", work / "shelves.json", "--to", "http://192.0.2.1/x/", "--user", USER,
                                    "--password-file", secret_in(work), *NOW)
    yield "a password over plain http", [] if code == 4 and "https" in errors else [f"{code} {errors!r}"]


STEPS = ["first_time", "nothing_new", "planned_again", "somebody_else", "taken_out", "state_lost", "cut_short",
         "wrong_password", "open_secret"]


def main():
    tally = program.Tally()
    program.need()
    with program.scratch() as folder:
        for kind in ("radicale", "xandikos"):
            server = Server(kind, folder)
            try:
                case = Case(server, folder)
                for name in STEPS:
                    if kind == "xandikos" and name == "wrong_password":
                        continue  # it asks for none
                    case.problems = []
                    getattr(case, name)()
                    tally.note(f"{kind}: {name}", case.problems)
            finally:
                server.stop()
        for name, problems in refusals(folder):
            tally.note(name, problems)
    return tally.close()


if __name__ == "__main__":
    sys.exit(main())

#!/usr/bin/env -S python3 -B
"""What happens to a calendar between the moment at which it is listed and the one at which it is written: a server that is slow, is
full, is killed or loses an answer half way, and another client that changes, deletes or adds meanwhile. After each the next run ends
what was begun: nothing is lost, nothing doubled, and nothing of anyone else's written over."""
import itertools
import json
import os
import socket
import subprocess
import sys
import threading
import time
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path[:0] = [str(HERE.parent / "checker"), str(HERE.parent / "faults")]

import calendar_server
import program
from check_publish import JOB
from servers import PASSWORD, USER, Server, hang_up, secret_in, uid_of, unfold, wait_for

NOW, LATER = "2027-02-26", "2027-02-26T12:00Z"
COLLECTION = calendar_server.COLLECTION


class Handler(calendar_server.Handler):
    """The server of the fault tests; `before` and `after` of the server are asked about each request, and may answer it themselves."""

    def handle_one(self, method):
        if not self.server.before(self):
            method(self)
            self.server.after(self)

    def do_PROPFIND(self):
        self.handle_one(calendar_server.Handler.do_PROPFIND)

    def do_GET(self):
        self.handle_one(calendar_server.Handler.do_GET)

    def do_PUT(self):
        self.handle_one(calendar_server.Handler.do_PUT)

    def do_DELETE(self):
        self.handle_one(calendar_server.Handler.do_DELETE)

    def drop(self):
        """Ends the connection without a word."""
        self.close_connection = True
        self.connection.shutdown(socket.SHUT_RDWR)


def started():
    server = calendar_server.Server(("127.0.0.1", 0), Handler)
    server.held, server.puts = {}, 0
    server.before, server.after = lambda _: False, lambda _: None
    threading.Thread(target=server.serve_forever, daemon=True).start()
    return server


class Life:
    """A job that is published to one server; `problems` collects what went otherwise than it should."""

    def __init__(self, folder, to=None):
        self.folder, self.problems, self.server = Path(folder), [], None if to else started()
        self.folder.mkdir()
        self.job = self.folder / "shelves.json"
        self.job.write_text(json.dumps(JOB))
        self.to = to or f"http://127.0.0.1:{self.server.server_address[1]}{COLLECTION}"
        self.more = []

    def publish(self, now=NOW):
        code, out, said = program.run("publish", self.job, "--to", self.to, "--json", "--now", now, *self.more)
        told = [line for line in said.splitlines() if f"{self.job}:" not in line]
        return code, json.loads(out) if code == 0 else {}, "\n".join([*told, *([out] if code else [])])

    def later(self, days=1, **more):
        """Every step so many days later: what stands is to be changed."""
        self.job.write_text(json.dumps({**JOB, "start": f"2027-03-{days + 1:02} 08:00", **more}))

    def expect(self, what, got, want):
        if got != want:
            self.problems.append(f"{what}: {got!r}, not {want!r}")

    def counts(self, done):
        return {key: done.get(key) for key in ("added", "changed", "removed", "again", "left") if done.get(key)}

    def ends_whole(self, what, count, held, now=NOW):
        """The next run leaves exactly what a calendar of its own would hold, and the one after it finds nothing to do."""
        code, done, said = self.publish(now)
        self.expect(f"{what}: the next run", (code, done.get("left"), said), (0, 0, ""))
        fresh = Life(self.folder / "fresh")
        fresh.job.write_text(self.job.read_text())
        fresh.publish()
        want = {uid_of(text.decode()): summary(text.decode()) for text in fresh.server.held.values()}
        fresh.server.shutdown()
        got = [(uid_of(text), summary(text)) for text in held()]
        self.expect(f"{what}: no event twice", len(got), count)
        self.expect(f"{what}: what they say", sorted(s for _, s in got), sorted(want.values()))
        code, done, _ = self.publish(now)
        self.expect(f"{what}: then nothing to do", (code, done.get("same"), self.counts(done)), (0, count, {}))

    def held(self):
        return [text.decode() for text in self.server.held.values()]


def summary(text):
    """What an event says and when, the moment of writing and the key of the job left out."""
    lines = unfold(text).split("\nBEGIN:VTIMEZONE")[-1].splitlines()
    return tuple(sorted(line for line in lines if line.startswith(("SUMMARY", "DTSTART", "DTEND", "DUE", "STATUS"))))


def half_way(life, method, number, act):
    """`act` answers the number-th request of a method."""
    seen = itertools.count(1)
    life.server.before = lambda handler: handler.command == method and next(seen) == number and act(handler)


def slow(life):
    """Every answer comes late: nothing else is noticed of it."""
    def before(_):
        time.sleep(0.05)
        return False
    life.server.before = before
    code, done, said = life.publish()
    life.expect("slow", (code, done.get("added"), said), (0, len(life.server.held), ""))
    life.ends_whole("slow", len(life.server.held), life.held)


def full(life):
    """The server is full after three events, and still is when it is asked again; then there is room."""
    def before(handler):
        if handler.command != "PUT" or len(life.server.held) < 3:
            return False
        handler.rfile.read(int(handler.headers.get("Content-Length") or 0))
        handler.answer(507)
        return True
    life.server.before = before
    for _ in range(2):
        code, _, said = life.publish()
        life.expect("full: told", (code, "status 507: the server is full" in said, len(life.server.held)), (4, True, 3))
    life.server.before = lambda _: False
    code, done, _ = life.publish()
    life.expect("full: then the rest", (code, done.get("same"), done.get("added")), (0, 3, len(life.server.held) - 3))
    life.ends_whole("full", len(life.server.held), life.held)


def full_of_changes(life):
    """Of events that are to be changed some are when it is full: those are not changed twice."""
    life.publish()
    count = len(life.server.held)
    life.later()
    changed = itertools.count(1)

    def before(handler):
        if handler.command != "PUT" or next(changed) <= 2:
            return False
        handler.rfile.read(int(handler.headers.get("Content-Length") or 0))
        handler.answer(507)
        return True
    life.server.before = before
    code, _, said = life.publish()
    life.expect("full of changes: told", (code, "the server is full" in said), (4, True))
    life.server.before = lambda _: False
    life.ends_whole("full of changes", count, life.held)


def store_and_drop(handler):
    """An event is stored, and the connection ends before its answer."""
    answer = handler.answer
    handler.answer = lambda *_, **__: None
    calendar_server.Handler.do_PUT(handler)
    handler.answer = answer
    handler.drop()
    return True


def answer_lost(life, changes):
    """What is there then is known as ours."""
    if changes:
        life.publish()
        life.later()
    half_way(life, "PUT", 3, store_and_drop)
    code, done, said = life.publish()
    life.expect("answer lost", (code, done.get("left"), done.get("again"), said), (0, 0, 0, ""))
    life.ends_whole("answer lost", len(life.server.held), life.held)


def cut_short(life):
    """The third change is stored, its answer lost, and from then on the server is gone."""
    seen = itertools.count(1)

    def before(handler):
        number = next(seen) if handler.command == "PUT" else 0
        if handler.command == "PROPFIND" or 0 < number < 3:
            return False
        if number == 3:
            return store_and_drop(handler)
        handler.drop()
        return True
    life.server.before = before
    code, _, said = life.publish()
    life.expect("gone: told", (code, "an answer of the calendar server" in said), (4, True))
    life.server.before = lambda _: False


def answers_lost_for_good(life):
    """The run fails, and the next, hours later, takes up what came through."""
    life.publish()
    life.later()
    cut_short(life)
    life.ends_whole("gone", len(life.server.held), life.held, now=LATER)


def moved_after_answers_lost(life):
    """The same twice, and each time the plan moves before the next run: what came through is known as ours though nobody wants it so
    any more."""
    life.publish()
    for days in (1, 2):
        life.later(days)
        cut_short(life)
    life.later(3)
    life.ends_whole("moved", len(life.server.held), life.held, now=LATER)


def moved_back_after_answers_lost(life):
    """The plan is again what it was at first."""
    life.publish()
    life.later()
    cut_short(life)
    life.later(0)
    life.ends_whole("moved back", len(life.server.held), life.held, now=LATER)


def restored(life):
    """The server was set up anew from a copy, in its own way of writing: other ETags, and all of it still ours, to be changed and to be
    taken away."""
    life.publish()
    before = len(life.server.held)
    life.server.held = {path: text.replace(b"DTSTAMP:2027", b"DTSTAMP:2028") for path, text in life.server.held.items()}
    life.later(1, tasks=JOB["tasks"][:1])
    code, done, said = life.publish()
    life.expect("restored", (code, done.get("left"), said), (0, 0, ""))
    life.expect("restored: what was changed", done.get("changed") > 1, True)
    life.expect("restored: what stands", done.get("removed") + len(life.server.held), before)


def raced(life, what, other, want, stays):
    """Another client is between our list and our PUT: `other` changes what is held, given the path of the event at hand."""
    life.publish()
    life.later()
    left = {}

    def act(handler):
        left["path"] = handler.path
        other(life.server.held, handler.path)
        return False
    half_way(life, "PUT", 2, act)
    code, done, said = life.publish()
    life.expect(f"{what}: counts", (code, done.get("left"), done.get("again")), (0, *want))
    life.expect(f"{what}: told", bool(said), any(want))
    life.expect(f"{what}: stays", stays(life.server.held.get(left["path"], b"")), True)
    before = dict(life.server.held)
    code, done, _ = life.publish()
    life.expect(f"{what}: the next run", (code, life.server.held == before), (0, True))


def changed_meanwhile(life):
    raced(life, "changed meanwhile", lambda held, path: held.update({path: held[path].replace(b"SUMMARY:", b"SUMMARY:not before noon: ")}), (1, 0),
          lambda text: b"SUMMARY:not before noon: " in text)


def alarm_meanwhile(life):
    """What they added to it is theirs, though all that is ours still stands."""
    raced(life, "an alarm meanwhile", lambda held, path: held.update({path: held[path].replace(b"END:VEVENT", b"X-ROOM:upstairs\r\nEND:VEVENT")}), (1, 0),
          lambda text: b"X-ROOM:upstairs" in text)


def deleted_meanwhile(life):
    raced(life, "deleted meanwhile", lambda held, path: held.pop(path), (0, 1), lambda text: b"SUMMARY:" in text)


def deleted_before_a_look(life):
    """Another client changed an event before our list, and deletes it before we look at it."""
    life.publish()
    path = next(path for path, text in life.server.held.items() if b"SUMMARY:fit the feet" in text)
    life.server.held[path] = life.server.held[path].replace(b"SUMMARY:", b"SUMMARY:not before noon: ")
    life.later()

    def act(handler):
        del life.server.held[handler.path]
        return False
    half_way(life, "GET", 1, act)
    code, done, said = life.publish()
    life.expect("deleted before a look", (code, done.get("left"), done.get("again"), "had deleted it" in said), (0, 0, 1, True))
    life.ends_whole("deleted before a look", len(life.server.held), life.held)


def taken_meanwhile(life):
    """Where a new event is to go, somebody has put one of their own."""
    theirs = b"BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//x//EN\r\nBEGIN:VEVENT\r\nUID:dentist\r\nDTSTAMP:20270101T000000Z\r\nDTSTART:20270301T080000Z\r\nSUMMARY:dentist\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n"
    taken = []

    def act(handler):
        taken.append(handler.path)
        life.server.held[handler.path] = theirs
        return False
    half_way(life, "PUT", 2, act)
    code, done, said = life.publish()
    life.expect("taken meanwhile", (code, done.get("left"), "somebody else has changed it" in said), (0, 1, True))
    life.expect("taken meanwhile: theirs stays", life.server.held[taken[0]], theirs)


class Trap:
    """A way to a server that kills it with SIGKILL when the number-th PUT comes by, before or after that has reached it."""

    def __init__(self, server, number, reached):
        self.server, self.left, self.reached, self.door = server, number, reached, socket.create_server(("127.0.0.1", 0))
        self.doomed = server.process  # not the one that is started behind it
        self.port = self.door.getsockname()[1]
        threading.Thread(target=self.keep, daemon=True).start()

    def keep(self):
        while True:
            try:
                guest, _ = self.door.accept()
            except OSError:
                return
            try:
                host = socket.create_connection(("127.0.0.1", self.server.port))
            except OSError:
                guest.close()
                continue
            threading.Thread(target=self.carry, args=(guest, host, True), daemon=True).start()
            threading.Thread(target=self.carry, args=(host, guest, False), daemon=True).start()

    def passes(self, asked, deadly):
        """What is deadly reaches the server or not; no answer to it comes back."""
        return (self.reached or not deadly) if asked else self.doomed is not None

    def carry(self, a, b, asked):
        try:
            while data := a.recv(65536):
                self.left -= asked and data.startswith(b"PUT ")
                deadly = asked and self.left <= 0
                if deadly and self.doomed:
                    threading.Timer(0.3 if self.reached else 0, self.doomed.kill).start()
                    self.doomed = None
                if self.passes(asked, deadly):
                    b.sendall(data)
        except OSError:
            pass
        hang_up(a, b)


def killed(folder, kind, reached):
    """A real server killed while a plan that has moved is published, and started again on what it had stored."""
    server = Server(kind, folder)
    life = Life(Path(folder) / f"jobs-{kind}", to=server.root)
    life.more = ["--user", USER, "--password-file", str(secret_in(life.folder)), "--make"]
    try:
        code, done, said = life.publish()
        collection, count = done.get("collection", ""), done.get("added")
        life.expect("killed: at first", (code, said), (0, ""))
        life.later()
        trap = Trap(server, 3, reached)
        life.to = f"http://127.0.0.1:{trap.port}/{collection[len(server.root):]}"
        marks = life.folder / "shelves.published.json"
        kept = marks.read_text()
        marks.write_text(kept.replace(server.root, f"http://127.0.0.1:{trap.port}/"))
        code, _, said = life.publish()
        trap.door.close()
        life.expect("killed: told", (code, "an answer of the calendar server" in said), (4, True))
        marks.write_text(marks.read_text().replace(f"http://127.0.0.1:{trap.port}/", server.root))
        server.process.wait(10)
        server.process = subprocess.Popen(server.command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, cwd=server.folder)
        wait_for(server.port)
        life.to = collection
        life.ends_whole(f"killed, {kind}", count, lambda: [text for _, text in server.resources(collection).values()], now=LATER)
    finally:
        server.stop()
    return life.problems


LIVES = [slow, full, full_of_changes, lambda life: answer_lost(life, False), lambda life: answer_lost(life, True), answers_lost_for_good,
         moved_after_answers_lost, moved_back_after_answers_lost, restored, changed_meanwhile, alarm_meanwhile, deleted_meanwhile,
         deleted_before_a_look, taken_meanwhile]
NAMES = ["slow", "full", "full of changes", "an answer lost, new", "an answer lost, changed", "answers lost for good",
         "moved after answers were lost", "moved back after that", "restored", "changed meanwhile", "an alarm meanwhile", "deleted meanwhile",
         "deleted before a look", "taken meanwhile"]


def main():
    program.need()
    tally = program.Tally()
    with program.scratch() as folder:
        for name, live in zip(NAMES, LIVES):
            life = Life(Path(folder) / name.replace(" ", "-"))
            live(life)
            life.server.shutdown()
            tally.note(name, life.problems)
        for kind, reached in (("radicale", True), ("xandikos", False)):
            tally.note(f"{kind} killed", killed(folder, kind, reached))
    return tally.close()


if __name__ == "__main__":
    sys.exit(main())

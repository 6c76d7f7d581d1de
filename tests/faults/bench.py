"""One command on a folder, run with one call to the system failing, and what it may answer.

Whatever fails: no crash and no hang; with the status of the run without a fault everything is printed and written as without
it; otherwise a message says what was expected, and names the file where one failed; no file is left that neither the old
folder nor the new one holds, and the folder is the old one or the new one.

Memory that ends within the search for a plan leaves the best one so far, which is said, on a sheet within the file: here that is the
same plan, without its proof. Only a new job is planned where the search has a better one to find: it may print another, with all its parts.

A calendar server keeps what it was sent before the fault, and a set whose writer was killed is finished first: there the
command is run once more, without a fault, and must leave what it leaves without any."""
import os
import re
import shutil
import subprocess
from pathlib import Path

import calendar_server
import folders

PATIENCE = 60  # seconds
KEY = ".coatwright-key"  # drawn once for a folder, ahead of all that is written
SERVED = "on the server: "
SAVING = "coatwright-saving"  # the mark of a set that is being written: the message names what was to be written
SYSTEM = ("/usr/", "/etc/", "/proc/", "/sys/", "/dev/", "/lib", "socket:", "pipe:", "anon_inode:")
MEMORY = ("malloc", "calloc", "realloc", "strdup", "mmap")
ENDED_EARLY = rb"the search was ended early: this is the best plan so far"
PROOF = re.compile(ENDED_EARLY + rb'|no earlier finish is possible in these lots|"ended_early": ?true, ?')


def build_fault(place):
    """The library of faults, built in a folder, and the program for it: a sanitizer brings an allocator of its own, so that the
    faults are those of the program without one. Two tests may ask for it at once, and only one may make it."""
    fault = os.path.join(place, "fault.so")
    if os.environ.get("SAN") or os.environ.get("COV") or os.environ.get("TSAN"):
        alone = {name: value for name, value in os.environ.items() if name not in ("MAKEFLAGS", "MAKELEVEL", "MFLAGS")}
        os.makedirs("build", exist_ok=True)
        subprocess.run(["flock", "build/faults.lock", "make", "-s", "BUILD=build", "build/coatwright"], env={**alone, "SAN": "", "COV": "", "TSAN": ""},
                       check=True)
        os.environ["COATWRIGHT"] = os.path.abspath("build/coatwright")
    subprocess.run([os.environ.get("CC", "gcc"), "-std=gnu11", "-O1", "-fPIC", "-shared", "-o", fault, "tests/faults/fault.c",
                    "tests/faults/fault_net.c", "-ldl"], check=True)
    return fault


def contents(folder):
    found = {}
    for at, _, names in os.walk(folder):
        for name in names:
            path = os.path.join(at, name)
            with open(path, "rb") as file:
                found[os.path.relpath(path, folder)] = file.read()
    return found


def in_one_line(text):
    return re.sub(rb"\s+", b" ", text)


def without_proof(text):
    """What is written, but for its lines and for what is proven."""
    return PROOF.sub(b"", in_one_line(text))


def headings(text):
    """The first line of every part of what is printed."""
    return [part.splitlines()[0] for part in text.split(b"\n\n") if part]


def nameable(aim, folder):
    """The name by which a message must know a file that failed; "" where none is known, or where it is the system's own."""
    if not aim or aim.startswith(SYSTEM) and "/zoneinfo/" not in aim:
        return ""
    name = os.path.basename(os.path.normpath(aim))
    if name in ("", ".", "..") or os.path.realpath(os.path.join(folder, aim)) == os.path.realpath(folder):
        return ""
    for ending in (".new", ".old"):
        name = name.removesuffix(ending)
    name = name.lstrip(".")
    return "" if name == SAVING else name


class Bench:
    def __init__(self, place, fault, title, prepare, arguments, now):
        self.title, self.fault, self.mark = title, fault, Path(place) / "mark"
        self.pristine, self.folder = Path(place) / "pristine", Path(place) / "work"
        self.pristine.mkdir(parents=True)
        prepare(self.pristine)
        asks = "{host}" in arguments or "fetch-busy" in arguments
        self.server = calendar_server.started() if asks else None
        self.resumed = self.server or "kill" in title
        host = f"127.0.0.1:{self.server.server_address[1]}" if self.server else ""
        for path in self.pristine.glob("*.json") if host else ():
            path.write_text(path.read_text(encoding="utf-8").replace("{host}", host), encoding="utf-8")
        self.arguments = [*arguments.format(host=host).split(), "--now", now]
        if "once more" in title:
            folders.coatwright(self.pristine, *self.arguments[:-1], folders.EARLIER)
        self.restore()
        self.old = self.all_contents()
        self.status, self.printed, self.said = self.run()
        self.new = self.all_contents()
        self.calls = self.count()

    def count(self):
        """How often each kind is called where nothing fails."""
        told = self.pristine.parent / "counts"
        self.restore()
        self.run(FAULT_COUNTS=str(told))
        lines = told.read_text(encoding="ascii").splitlines()
        return {kind: int(number) for kind, number in (line.split() for line in lines)}

    def close(self):
        if self.server:
            self.server.shutdown()
            self.server.server_close()

    def all_contents(self):
        held = {SERVED + path: text for path, text in self.server.held.items()} if self.server else {}
        return {**contents(self.folder), **held}

    def restore(self):
        shutil.rmtree(self.folder, ignore_errors=True)
        shutil.copytree(self.pristine, self.folder)
        self.mark.unlink(missing_ok=True)
        if self.server:
            self.server.held.clear()

    def run(self, **fault):
        fault["LD_PRELOAD"] = self.fault
        done = subprocess.run([folders.program(), *self.arguments], cwd=self.folder, env=folders.environment(**fault),
                              stdin=subprocess.DEVNULL, capture_output=True, timeout=PATIENCE, check=False)
        return done.returncode, done.stdout, done.stderr.decode(errors="replace")

    def fail(self, kind, number):
        """None: there is no such call. Otherwise (how it ended: "told" or "survived", or what is wrong)."""
        self.restore()
        try:
            status, printed, said = self.run(FAULT_CALL=kind, FAULT_AT=str(number), FAULT_MARK=str(self.mark))
        except subprocess.TimeoutExpired:
            return "it hangs"
        if not self.mark.exists():
            return None
        if kind in MEMORY and status == self.status and self.is_ended_early(printed):
            return self.ended_early(printed)
        caller, aim = (self.mark.read_text(encoding="utf-8", errors="replace") + "\n").split("\n")[:2]
        wrong = self.answered(status, printed, said, os.path.basename(caller), nameable(aim, self.folder))
        if not wrong:
            wrong = self.mended() if self.resumed and status != self.status else self.left(status)
        return wrong or ("survived" if status == self.status else "told")

    def is_ended_early(self, printed):
        return any(ENDED_EARLY in in_one_line(text) for text in (printed, *contents(self.folder).values()))

    def ended_early(self, printed):
        now = self.all_contents()
        same = {name: without_proof(text) for name, text in now.items()} == {name: without_proof(text) for name, text in self.new.items()}
        told = headings if self.title.startswith("new") else without_proof
        return "told" if same and told(printed) == told(self.printed) else "another plan, or less than all of it"

    def left_behind(self, now):
        """What is in the folder that is neither in the old one nor in the new one."""
        more = sorted(set(now) - set(self.new) - set(self.old))
        return f"left behind: {more}" if more else ""

    def left(self, status):
        """What is wrong with the files."""
        now = self.all_contents()
        more = self.left_behind(now)
        if more:
            return more
        if status == self.status:
            return "" if now == self.new else "less than all is written, and no word of it"
        whole = (self.old, self.new, {**self.old, KEY: self.new.get(KEY)})
        return "" if now in whole else "a folder that is neither the old nor the new one: " + ", ".join(
            name for name in {**self.old, **self.new} if now.get(name) not in (self.old.get(name), self.new.get(name))) or "a part of the files"

    def answered(self, status, printed, said, caller, name):
        """What is wrong with the answer."""
        if status < 0:
            return f"it crashes with signal {-status} after a call of {caller}"
        if status == self.status:
            # A request that is sent again finds what the first one put there, and is counted as a change.
            return "" if printed == self.printed or (self.server and printed) else "less than all is printed, and no word of it"
        if status not in (3, 4):
            return f"status {status}: {said[:200]}"
        if "expected" not in said:
            return f"no message: {said[:200]!r}"
        return "" if name in said else f"the message does not name {name}: {said[:200]!r}"

    def mended(self):
        """Another run, with nothing failing, makes all of it what it is to be. The marks of a calendar may be in another order."""
        status, _, said = self.run()
        if status != self.status:
            return f"the next run fails with status {status}: {said[:200]!r}"
        now = self.all_contents()
        wrong = [name for name in {**now, **self.new} if now.get(name) != self.new.get(name) and not (name in now and "published.json" in name)]
        return f"after the next run: {wrong[:3]}" if wrong else ""

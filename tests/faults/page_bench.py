"""The page's server on a folder, run with one call to the system failing while it starts or while it answers.

Whatever fails: no crash and no hang. A server that does not start says what was expected. One that does answers each request as
without the fault, or with a sentence that says what failed and names the file where one did, or the connection is lost; it is
asked the same once more and then answers as without the fault, unless the fault is one that stays. Where the library of JSON finds
no memory the server ends, and says so. What is said to be
saved is saved, what is said to have failed is not, no file is left over, and a signal ends it with status 0."""
import hashlib
import http.client
import json
import os
import select
import shutil
import signal
import subprocess
from pathlib import Path

import bench
import folders

PATIENCE = 25  # seconds
SAVED = "job.json"
STAYS = ("full",)  # a disk that is full is full for the next request, too
NOT_TRIED = ("short-recv",)  # no system gives one byte of more to who waits for edges: to epoll(7) that means that none are left
LOST = (None, b"")


def started(process):
    """The port at which it listens; 0: it does not."""
    if not select.select([process.stdout], [], [], PATIENCE)[0]:
        raise subprocess.TimeoutExpired(process.args, PATIENCE)
    line = process.stdout.readline().decode()
    return int(line.rstrip("/\n").rpartition(":")[2]) if line else 0


def ask(port, method, target, body=None):
    """(status, bytes); LOST: no answer came."""
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=PATIENCE)
    try:
        connection.request(method, target, body, {"Content-Type": "application/json"} if body else {})
        answer = connection.getresponse()
        return answer.status, answer.read()
    except TimeoutError:
        raise subprocess.TimeoutExpired(target, PATIENCE) from None
    except (http.client.HTTPException, ConnectionError):
        return LOST
    finally:
        connection.close()


class PageBench(bench.Bench):
    """(method, target) of each request; POST saves the job under another name."""

    def __init__(self, place, fault, title, prepare, requests, now):
        self.requests, self.again = requests, []
        super().__init__(place, fault, title, prepare, "serve .", now)
        self.calls = {kind: number for kind, number in self.calls.items() if kind not in NOT_TRIED}

    def body(self):
        text = (self.pristine / SAVED).read_text(encoding="utf-8")
        version = hashlib.sha256(text.encode()).hexdigest()[:32]
        return json.dumps({"texts": {SAVED: {"text": text.replace('"Shelf"', '"Wide shelf"'), "version": version}}})

    def answers(self, port):
        return [ask(port, method, target, self.body() if method == "POST" else None) for method, target in self.requests]

    def run(self, **fault):
        """(status, what was answered, what was said); self.between is the folder after that, self.again what was answered to the same asked once more."""
        fault["LD_PRELOAD"] = self.fault
        self.again, self.between, answers = [], self.all_contents(), []
        process = subprocess.Popen([folders.program(), *self.arguments], cwd=self.folder, env=folders.environment(**fault),
                                   stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.PIPE)
        try:
            port = started(process)
            if port:
                answers = self.answers(port)
                self.between = self.all_contents()
                self.again = self.answers(port) if "FAULT_AT" in fault else []
                process.send_signal(signal.SIGTERM)
            _, said = process.communicate(timeout=PATIENCE)
        finally:
            process.kill()
            process.communicate()
        self.stays, self.last = fault.get("FAULT_CALL") in STAYS, answers
        return process.returncode, answers, said.decode(errors="replace")

    def is_ended_early(self, _):
        """That one answer is of a search that ended is seen where it is compared: others may be wrong in other ways."""
        return False

    def answered(self, status, printed, said, caller, name):
        if status < 0:
            return f"it crashes with signal {-status} after a call of {caller}"
        if not printed:
            if status not in (3, 4):
                return f"it does not start, with status {status}: {said[:200]!r}"
            return "" if "expected" in said and name in said else f"it does not start, and says {said[:200]!r}"
        if status == 4 and "memory enough" in said:
            return ""
        if status != 0:
            return f"a signal ends it with status {status}: {said[:200]!r}"
        wrong = [self.one_answer(*rest, name) for rest in zip(self.requests, printed, self.printed)]
        if printed == self.printed:  # it may have failed only when it was asked the second time
            wrong += ["" if got[0] == 409 and self.is_own(got) else self.one_answer(request, got, wanted, name)
                      for request, got, wanted in zip(self.requests, self.again, self.printed)]
        elif not self.stays:
            wrong += [self.once_more(*rest) for rest in zip(self.requests, printed, self.again, self.printed)]
        return "; ".join(filter(None, wrong))

    def one_answer(self, request, got, wanted, name):
        """What is wrong with what was answered where something may have failed."""
        if got in (LOST, wanted):
            return ""
        if bench.ENDED_EARLY in got[1] and bench.without_proof(got[1]) == bench.without_proof(wanted[1]):
            return ""
        try:
            told = json.loads(got[1])
        except ValueError:
            return f"{request[1]}: {got[0]} and no JSON: {got[1][:200]}"
        if got[0] >= 400:
            text = told.get("error", "")
            return "" if len(text.split()) > 2 and name in text else f"{request[1]}: {got[0]}, and the sentence does not name {name!r}: {text!r}"
        errors = told.get("state", told).get("errors") or [job["errors"] for job in told.get("jobs", []) if job["errors"]]
        return "" if errors and name in str(errors) else f"{request[1]}: less than all is answered, and no word of {name!r}: {got[1][:300]}"

    def once_more(self, request, first, got, wanted):
        """What is wrong with the answer to the same asked again: a text that was saved before its answer was lost is changed
        by somebody, who is the one who asks."""
        if got == wanted:
            return ""
        if request[0] == "POST" and got[0] == 409 and first[0] in (None, 200):
            return "" if self.is_own(got) else "another text was saved"
        return f"{request[1]} asked once more, after {first[0]}: {got[0]} {got[1][:300]}"

    def is_own(self, conflict):
        """Whether the text that is told to be somebody else's is the one that was sent."""
        return json.loads(conflict[1])["texts"][SAVED]["text"] == self.new[SAVED].decode()

    def left(self, status):
        return self.left_behind(self.all_contents())

    def fail(self, kind, number):
        ended = super().fail(kind, number)
        if ended not in ("told", "survived"):
            return ended
        saves = [i for i, (method, _) in enumerate(self.requests) if method == "POST"]
        return self.saved(saves[0]) or ended if saves and self.last else ended

    def saved(self, at):
        """What is wrong with the file after the first answer."""
        status, text = self.last[at][0], self.between[SAVED]
        unsure = b"did not confirm it: the file is there" in (self.last[at][1] or b"")  # it is told of a disk that failed at the very end
        if status == 200 and text != self.new[SAVED]:
            return "it was told to be saved, and is not"
        if status and status >= 400 and text != self.old[SAVED] and not unsure:
            return f"it was told not to be saved ({status}), and is"
        return "" if text in (self.old[SAVED], self.new[SAVED]) else "the file is neither the old nor the new one"

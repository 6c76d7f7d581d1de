"""Running the program under test, and telling results in the one closing line that the runner of tests counts."""
import json
import os
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


def path():
    """The program: $COATWRIGHT, else the one in $BUILD."""
    return Path(os.environ.get("COATWRIGHT", ROOT / os.environ.get("BUILD", "build") / "coatwright"))


def draws(name, usual):
    """How many to draw: $name, else as usual; a quarter of that under the sanitizers, which take ten times as long."""
    return int(os.environ.get(name) or (max(1, usual // 4) if os.environ.get("SAN") else usual))


def need():
    """Ends the test where there is no program to try."""
    if not path().exists():
        print(f"{path()} has not been built\n0 passed, 1 failed")
        sys.exit(1)


def run(*arguments, seconds=400):
    """(exit status, standard output, standard error)."""
    done = subprocess.run([str(path()), *map(str, arguments)], stdin=subprocess.DEVNULL, capture_output=True, timeout=seconds,
                          check=False)
    return done.returncode, done.stdout.decode("utf-8", "replace"), done.stderr.decode("utf-8", "replace")


def plan(job, *options):
    """(plan, None) of a job, or (None, what went wrong); an exit status that the plan does not bear out is wrong too."""
    code, out, errors = run("plan", job, "--json", *options)
    if code not in (0, 1):
        return None, f"exit status {code}: {(out + errors).strip()[:600]}"
    try:
        found = json.loads(out)
    except json.JSONDecodeError as error:
        return None, f"no JSON: {error}: {out[:200]!r}"
    return (found, None) if code in statuses(found) else (None, f"exit status {code} of a plan that asks for {statuses(found)}")


def statuses(found):
    """The exit statuses that a plan may have: 1 where it is late or none, or where a mix was warned of."""
    table = found["timetable"]
    if table["status"] != "planned" or table["late_min"] > 0:
        return {1}
    return {0, 1} if found["mix"]["warnings"] else {0}


def examples():
    """The jobs among the examples: other files there are shops and finishes."""
    return [path for path in sorted((ROOT / "examples").glob("**/*.json"))
            if '"coatwright-job/1"' in path.read_text(encoding="utf-8")]


class Tally:
    """Counts what held and prints what did not."""

    def __init__(self):
        self.passed = self.failed = 0

    def note(self, name, problems):
        """One test: passed without problems, else failed with each of them printed."""
        if problems:
            self.failed += 1
            for problem in problems:
                print(f"{name}: {problem}")
        else:
            self.passed += 1

    def close(self):
        print(f"{self.passed} passed, {self.failed} failed")
        return 1 if self.failed or not self.passed else 0


def scratch():
    """A folder of this test's own, removed at the end of the run."""
    return tempfile.TemporaryDirectory(dir=os.environ.get("TEST_TMP"))

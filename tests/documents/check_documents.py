#!/usr/bin/env -S python3 -B
"""README.md and the pages that it leads to, the manual pages of src/man among them: every command in them is run and prints what is
written there, every link and path leads to a file, no cell of a table is longer than 40 words, and no option of the program and no
key of its formats is left out.

A block ```console holds "$ " commands, each followed by what it prints (messages too); any other block whose first line names a
file ("```csv shelf.csv") is that file. A picture is drawn anew by the command in the comment above it. Each page has a scratch folder with a copy of examples/. With --accept the output
in the pages is written anew: read the diff before you commit it.
"""
import json
import os
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PROGRAM = Path(os.environ.get("COATWRIGHT", ROOT / os.environ.get("BUILD", "build") / "coatwright"))
PAGES = [*sorted((ROOT / "src/man").glob("*.md")), *(ROOT / name for name in ("README.md", "DEVELOPERS.md", "finishes/README.md"))]
# The pages that must name every key of these schemas.
SCHEMAS = {"coatwright-job.5.md": ["finishes/schema/job", "finishes/schema/shop", "finishes/schema/parts"],
           "coatwright-finish.5.md": ["finishes/schema/finish", "finishes/schema/rules", "finishes/schema/sundries"],
           "coatwright-json.5.md": [f"tests/schema/{name}" for name in "area buy check cost errors finishes learned mix plan timetable today".split()]}
BLOCK = re.compile(r"^```(\w+)(?: (\S+))?\n(.*?)^```$", re.M | re.S)
PICTURE = re.compile(r"^<!-- drawn by: (.+) -->\n!\[[^\]]+\]\((\S+)\)$", re.M)
LINK = re.compile(r"\[[^\]]*\]\(([^)#:]+)\)")
WORDS = 40
passed = failed = 0


def check(name, told):
    """One test: it holds where nothing is told against it."""
    global passed, failed
    passed, failed = passed + (not told), failed + bool(told)
    if told:
        print(f"{name}: {told}")


def commands(body):
    """(command, what the page says that it prints) in order."""
    for part in re.split(r"^\$ ", body, flags=re.M)[1:]:
        command, _, said = part.partition("\n")
        yield command, said


def run(command, folder):
    env = {**os.environ, "PATH": f"{PROGRAM.parent}:{os.environ['PATH']}", "LC_ALL": "C.UTF-8"}
    for name in ("COATWRIGHT_FINISHES", "NO_COLOR", "COLUMNS", "TZ"):
        env.pop(name, None)
    done = subprocess.run(["sh", "-c", command], cwd=folder, env=env, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
                          stderr=subprocess.STDOUT, timeout=120, check=False)
    return done.stdout.decode("utf-8", "replace")


def check_picture(page, command, name, folder):
    """A picture is what its command draws."""
    run(command, folder)
    drawn = (Path(folder) / name).read_bytes()
    check(f"{page.name}: {name}", drawn != (ROOT / name).read_bytes() and "is not what the program draws")
    if "--accept" in sys.argv:
        (ROOT / name).write_bytes(drawn)


def run_page(page, text):
    """The page with its blocks as they are printed now."""
    with tempfile.TemporaryDirectory(dir=os.environ.get("TEST_TMP")) as folder:
        shutil.copytree(ROOT / "examples", Path(folder) / "examples")
        for kind, name, body in BLOCK.findall(text):
            if kind == "console":
                fresh = ""
                for command, said in commands(body):
                    got = run(command, folder)
                    fresh += f"$ {command}\n{got}"
                    check(page.name, got != said and f"$ {command}\n--- stands there\n{said}--- is printed\n{got}")
                text = text.replace(f"```console\n{body}```", f"```console\n{fresh}```", 1)
            elif name:
                (Path(folder) / name).write_text(body, encoding="utf-8")
        for command, name in PICTURE.findall(text):
            check_picture(page, command, name, folder)
    return text


def check_form(page, text):
    """Links and tables."""
    gone = [link for link in LINK.findall(BLOCK.sub("", text)) if not (page.parent / link).exists()]
    check(f"{page.name}: links", gone and f"no file is at {gone}")
    cells = [cell for line in text.splitlines() if line.startswith("| ") for cell in re.split(r"(?<!\\)\|", line)]
    long = [cell.strip() for cell in cells if len(cell.split()) > WORDS]
    check(f"{page.name}: cells", long and f"over {WORDS} words: {long}")


def check_paths(page, text):
    """Files and folders that a page names in backquotes."""
    named = re.findall(r"`((?:src|include|tests|finishes|examples)/[^`\s]*)`", text)
    gone = [path for path in named if not list(ROOT.glob(path.rstrip("/")))]
    check(f"{page.name}: paths", gone and f"nothing is at {gone}")


def keys(schema):
    """Every key that a schema lets stand."""
    if isinstance(schema, dict):
        for name, inner in schema.items():
            if name == "properties":
                yield from inner
            yield from keys(inner)
    elif isinstance(schema, list):
        for inner in schema:
            yield from keys(inner)


def named(word, text):
    return re.search(rf"(?<![\w-]){re.escape(word)}(?![\w-])", text)


def check_complete():
    """Options and keys."""
    manual = (ROOT / "src/man/coatwright.1.md").read_text(encoding="utf-8")
    helps = run("coatwright --help", ROOT)
    told = re.findall(r"^  ([\w-]+)", helps.partition("\nOptions")[0], re.M)
    options = {o for command in told for o in re.findall(r"^  (--[\w-]+)", run(f"coatwright {command} --help", ROOT), re.M)}
    check("commands", len(told) < 7 and f"only {told} were found in the help")
    check("coatwright.1.md", [word for word in [*told, *sorted(options)] if not named(word, manual)])
    for page, schemas in SCHEMAS.items():
        text = (ROOT / "src/man" / page).read_text(encoding="utf-8")
        for schema in schemas:
            names = set(keys(json.loads((ROOT / f"{schema}.schema.json").read_text(encoding="utf-8"))))
            check(f"{page}: {schema}", sorted(name for name in names if not named(name, text)) or (not names and "has no key"))


def main():
    for page in PAGES:
        text = page.read_text(encoding="utf-8")
        check_form(page, text)
        check_paths(page, text)
        fresh = run_page(page, text)
        if "--accept" in sys.argv:
            page.write_text(fresh, encoding="utf-8")
    check_complete()
    print(f"{passed} passed, {failed} failed")
    return 1 if failed or not passed else 0


if __name__ == "__main__":
    sys.exit(main())

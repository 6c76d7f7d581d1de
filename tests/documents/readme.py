"""Runs the blocks of README.md: ```console holds "$ " commands, each followed by what it prints (messages too); any other
block whose first line names a file ("```csv shelf.csv") is that file. All happens in a scratch folder that sees examples/."""
import os
import re
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PROGRAM = Path(os.environ.get("COATWRIGHT", ROOT / os.environ.get("BUILD", "build") / "coatwright"))
BLOCK = re.compile(r"^```(\w+)(?: (\S+))?\n(.*?)^```$", re.M | re.S)


def commands(body):
    """(command, what the README says it prints) in order."""
    command, said = None, []
    for line in body.splitlines(keepends=True):
        if line.startswith("$ "):
            if command is not None:
                yield command, "".join(said)
            command, said = line[2:].rstrip("\n"), []
        else:
            said.append(line)
    if command is not None:
        yield command, "".join(said)


def run(command, folder):
    env = {**os.environ, "PATH": f"{PROGRAM.parent}:{os.environ['PATH']}", "LC_ALL": "C.UTF-8"}
    for name in ("COATWRIGHT_FINISHES", "NO_COLOR", "COLUMNS", "TZ"):
        env.pop(name, None)
    done = subprocess.run(["sh", "-c", command], cwd=folder, env=env, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
                          stderr=subprocess.STDOUT, timeout=120, check=False)
    return done.stdout.decode("utf-8", "replace")


def main():
    readme = ROOT / "README.md"
    text, passed, failed, made = readme.read_text(encoding="utf-8"), 0, 0, []
    with tempfile.TemporaryDirectory(dir=os.environ.get("TEST_TMP")) as folder:
        (Path(folder) / "examples").symlink_to(ROOT / "examples")
        for kind, name, body in BLOCK.findall(text):
            if kind != "console":
                if name:
                    (Path(folder) / name).write_text(body, encoding="utf-8")
                continue
            fresh = ""
            for command, said in commands(body):
                got = run(command, folder)
                fresh += f"$ {command}\n{got}"
                if got == said:
                    passed += 1
                else:
                    failed += 1
                    print(f"README.md: $ {command}\n--- stands there\n{said}--- is printed\n{got}")
            made.append((f"```console\n{body}```", f"```console\n{fresh}```"))
    if "--accept" in sys.argv:
        for old, new in made:
            text = text.replace(old, new, 1)
        readme.write_text(text, encoding="utf-8")
    print(f"{passed} passed, {failed} failed")
    return 1 if failed or not passed else 0


if __name__ == "__main__":
    sys.exit(main())

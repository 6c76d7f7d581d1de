"""A server of the page on a free port with a folder of its own, and requests to it."""
import http.client
import json
import os
import shutil
import subprocess
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PROGRAM = Path(os.environ.get("COATWRIGHT", ROOT / os.environ.get("BUILD", "build") / "coatwright"))
NOW = "2027-03-01T12:00Z"


class Server:
    """with Server(files) as server: ..."""

    def __init__(self, *files, options=(), now=NOW):
        self.temporary = tempfile.TemporaryDirectory(dir=os.environ.get("TEST_TMP"))
        self.folder = Path(self.temporary.name) / "jobs"
        self.folder.mkdir()
        for file in files:
            source = ROOT / "examples" / file
            if source.is_dir():
                shutil.copytree(source, self.folder / file)
            else:
                shutil.copy(source, self.folder / file)
        env = {key: value for key, value in os.environ.items() if key != "COATWRIGHT_FINISHES"}
        self.process = subprocess.Popen([PROGRAM, "serve", self.folder, "--now", now, *options], stdout=subprocess.PIPE,
                                        stderr=subprocess.PIPE, text=True, env=env)
        self.address = self.process.stdout.readline().strip()
        self.port = int(self.address.rstrip("/").rpartition(":")[2]) if self.address else 0

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.stop()
        self.temporary.cleanup()

    def stop(self):
        """The exit status; what it said on standard error is in self.said."""
        self.process.terminate()
        _, self.said = self.process.communicate(timeout=60)
        return self.process.returncode

    def connect(self, timeout=120):
        return http.client.HTTPConnection("127.0.0.1", self.port, timeout=timeout)

    def ask(self, method, target, body=None, **heads):
        """(status, heads, bytes); a body that is no bytes goes as JSON."""
        connection = self.connect()
        given = {"Host": f"127.0.0.1:{self.port}"}
        if body is not None and not isinstance(body, bytes):
            body = json.dumps(body).encode()
        if body is not None:
            given["Content-Type"] = "application/json"
        given.update({name.replace("_", "-"): value for name, value in heads.items()})
        connection.putrequest(method, target, skip_host=True, skip_accept_encoding=True)
        if body is not None:
            given.setdefault("Content-Length", str(len(body)))
        for name, value in given.items():
            if value is not None:
                connection.putheader(name, value)
        connection.endheaders(body)
        answer = connection.getresponse()
        said = answer.read()
        connection.close()
        return answer.status, answer.headers, said

    def get(self, target):
        status, _, said = self.ask("GET", target)
        return status, json.loads(said)

    def post(self, target, body):
        status, _, said = self.ask("POST", target, body)
        return status, json.loads(said)


DESK = ("desk.json", "desk-parts.csv", "desk-shop.json", "desk-finishes")

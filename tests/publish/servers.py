"""Calendar servers on loopback for the tests: radicale and xandikos from Debian, and small ones that say what no good server
does. Each takes a free port, and ends with the test that began it."""
import base64
import http.server
import re
import socket
import ssl
import subprocess
import threading
import time
import urllib.error
import urllib.request
from pathlib import Path

USER, PASSWORD = "ann", "bench-oil-7"


def free_port():
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


def wait_for(port):
    for _ in range(100):
        try:
            socket.create_connection(("127.0.0.1", port), 0.2).close()
            return
        except OSError:
            time.sleep(0.1)
    raise RuntimeError(f"nothing listens on {port}")


def hang_up(*ends):
    """Ends the connections of these sockets, where they have not ended."""
    for end in ends:
        try:
            end.shutdown(socket.SHUT_RDWR)
        except OSError:
            pass


class Server:
    """One of the two servers in a folder of its own."""

    def __init__(self, kind, folder):
        self.kind, self.folder, self.port = kind, Path(folder) / kind, free_port()
        self.folder.mkdir()
        start = self.radicale if kind == "radicale" else self.xandikos
        self.command = start()
        self.process = subprocess.Popen(self.command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, cwd=self.folder)
        wait_for(self.port)
        self.root = f"http://127.0.0.1:{self.port}/"

    def radicale(self):
        (self.folder / "users").write_text(f"{USER}:{PASSWORD}\n")
        (self.folder / "config").write_text(
            f"[server]\nhosts = 127.0.0.1:{self.port}\n[auth]\ntype = htpasswd\nhtpasswd_filename = {self.folder}/users\n"
            f"htpasswd_encryption = plain\n[rights]\ntype = owner_only\n[storage]\nfilesystem_folder = {self.folder}/store\n"
            "[logging]\nlevel = error\n")
        return ["radicale", "--config", str(self.folder / "config")]

    def xandikos(self):
        return ["xandikos", "-d", str(self.folder / "store"), "-l", "127.0.0.1", "-p", str(self.port), "--defaults",
                "--current-user-principal", f"/{USER}/"]

    def ask(self, method, url, body=None, headers=None):
        """(status, text, ETag) of a request by somebody else's client."""
        request = urllib.request.Request(url, data=body.encode() if body else None, method=method, headers=headers or {})
        request.add_header("Authorization", "Basic " + base64.b64encode(f"{USER}:{PASSWORD}".encode()).decode())
        try:
            with urllib.request.urlopen(request, timeout=20) as answer:
                return answer.status, answer.read().decode(), answer.headers.get("ETag")
        except urllib.error.HTTPError as refused:
            return refused.code, refused.read().decode("utf-8", "replace"), None

    def resources(self, collection):
        """{UID: (URL, text)} of all that a collection holds."""
        question = '<propfind xmlns="DAV:"><prop><getetag/></prop></propfind>'
        _, text, _ = self.ask("PROPFIND", collection, question, {"Depth": "1", "Content-Type": "application/xml"})
        found = {}
        for href in re.findall(r"<(?:\w+:)?href>([^<]*\.ics)</", text):
            url = self.root.rstrip("/") + href
            _, calendar, _ = self.ask("GET", url)
            found[uid_of(calendar)] = (url, unfold(calendar))
        return found

    def stop(self):
        self.process.terminate()
        self.process.wait(10)


def unfold(text):
    return text.replace("\r\n", "\n").replace("\n ", "")


def uid_of(text):
    return re.search(r"^UID:(.*)$", unfold(text), re.M).group(1)


class Answer(http.server.BaseHTTPRequestHandler):
    """A server that always says the same: `status` and `headers` of the class."""
    status, headers_said = 507, {}

    def answer(self):
        length = int(self.headers.get("Content-Length") or 0)
        self.rfile.read(length)
        self.send_response(self.status)
        for name, value in self.headers_said.items():
            self.send_header(name, value)
        self.send_header("Content-Length", "0")
        self.end_headers()

    do_PROPFIND = do_REPORT = do_PUT = do_GET = do_DELETE = do_MKCALENDAR = answer

    def log_message(self, *_):
        pass


def serving(status, headers, context=None):
    handler = type("Said", (Answer,), {"status": status, "headers_said": headers})
    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler)
    if context:
        server.socket = context.wrap_socket(server.socket, server_side=True)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    return server


def certificate(folder):
    """A certificate that ended years ago, and its key."""
    folder = Path(folder)
    (folder / "ca.cnf").write_text("[ca]\ndefault_ca=d\n[d]\ndatabase=index\nserial=serial\nnew_certs_dir=.\ndefault_md=sha256\n"
                                   "policy=p\n[p]\ncommonName=supplied\n")
    (folder / "index").write_text("")
    (folder / "serial").write_text("01\n")
    quiet = {"cwd": folder, "check": True, "stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
    subprocess.run(["openssl", "req", "-newkey", "rsa:2048", "-nodes", "-keyout", "key.pem", "-out", "csr.pem", "-subj",
                    "/CN=localhost"], **quiet)
    subprocess.run(["openssl", "ca", "-batch", "-config", "ca.cnf", "-selfsign", "-keyfile", "key.pem", "-in", "csr.pem", "-out",
                    "cert.pem", "-startdate", "200101000000Z", "-enddate", "200201000000Z"], **quiet)
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    context.load_cert_chain(folder / "cert.pem", folder / "key.pem")
    return context


def secret_in(folder):
    path = folder / "secret"
    path.write_text(PASSWORD)
    path.chmod(0o600)
    return path


def serving_with(answer, context=None):
    """A server whose answer to each request is made by answer(handler, body): (status, headers, text), or None once it has written by itself."""
    def handle(self):
        body = self.rfile.read(int(self.headers.get("Content-Length") or 0)).decode()
        made = answer(self, body)
        if made:
            status, headers, text = made
            data = text.encode()
            self.send_response(status)
            for name, value in headers.items():
                self.send_header(name, value)
            self.send_header("Content-Length", str(len(data)))
            self.end_headers()
            self.wfile.write(data)
    methods = {f"do_{name}": handle for name in ("PROPFIND", "REPORT", "GET", "PUT", "DELETE", "MKCALENDAR")}
    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), type("Made", (Answer,), methods))
    server.daemon_threads = True
    if context:
        server.socket = context.wrap_socket(server.socket, server_side=True)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    return server


def address(server, path="", scheme="http"):
    return f"{scheme}://localhost:{server.server_address[1]}/{path}"

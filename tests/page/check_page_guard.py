#!/usr/bin/env -S python3 -B
"""Who may ask the page, for what, and how much: other hosts, other pages, links and dots, slow and broken clients, a full disk."""
import json
import resource
import socket
import subprocess
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, __file__.rpartition("/")[0])
from serving import DESK, PROGRAM, Server  # noqa: E402

passed = failed = 0
BODY_MOST = 8 << 20


def check(name, holds, told=""):
    global passed, failed
    passed, failed = passed + bool(holds), failed + (not holds)
    if not holds:
        print(f"{name}: {str(told)[:400]}")


def check_hosts(server):
    """DNS rebinding: a name of somebody else's that leads to this machine."""
    for host in (f"127.0.0.1:{server.port}", f"localhost:{server.port}", f"LOCALHOST:{server.port}", f"[::1]:{server.port}"):
        check(f"Host: {host}", server.ask("GET", "/", Host=host)[0] == 200)
    for host in ("evil.example", f"evil.example:{server.port}", "127.0.0.1", "127.0.0.1:1", f"127.0.0.1.evil.example:{server.port}", "",
                 f"127.0.0.1:{server.port}@evil.example", f"0.0.0.0:{server.port}", f"127.0.0.1:{server.port}0"):
        for target in ("/", "/api/folder", "/files/desk.json/sheet.html", "/events", "/assets/page.css"):
            check(f"Host: {host} {target}", server.ask("GET", target, Host=host)[0] in (400, 421))
    check("without a Host", server.ask("GET", "/", Host=None)[0] in (400, 421))


def check_origins(server):
    own = f"http://127.0.0.1:{server.port}"
    body = {"finish": "danish-oil", "amount": "400 ml"}
    check("the page itself", server.ask("POST", "/api/mix", body, Origin=own)[0] == 200)
    for origin in ("http://evil.example", "null", "https" + own[4:], own + ".evil.example", f"http://localhost:{server.port}", own + "0", ""):
        check(f"Origin: {origin}", server.ask("POST", "/api/mix", body, Origin=origin)[0] == 403)
    for kind in ("text/plain", "application/x-www-form-urlencoded", "multipart/form-data; boundary=a", "", "application/jsonx"):
        check(f"Content-Type: {kind}", server.ask("POST", "/api/mix", body, Content_Type=kind)[0] == 415)
    check("with a charset", server.ask("POST", "/api/mix", body, Content_Type="application/json; charset=utf-8")[0] == 200)
    for method in ("PUT", "DELETE", "OPTIONS", "TRACE", "PATCH", "FOO"):
        status, heads, _ = server.ask(method, "/api/save/desk.json")
        check(f"{method}", status in (405, 501) and not heads["Access-Control-Allow-Origin"], status)
    heads = server.ask("GET", "/api/folder", Origin="http://evil.example")[1]
    check("no other page may read", not heads["Access-Control-Allow-Origin"] and heads["Cross-Origin-Resource-Policy"] == "same-origin")


def check_heads(server):
    for target in ("/", "/api/folder", "/nothing", "/files/desk.json/sheet.html", "/assets/page.css", "/api/%", "/events/"):
        heads = server.ask("GET", target)[1]
        policy = heads["Content-Security-Policy"] or ""
        check(f"{target}: policy", all(part in policy for part in ("default-src 'none'", "script-src 'self'", "base-uri 'none'", "form-action 'none'",
              "frame-ancestors 'none'")) and "unsafe" not in policy, policy)
        check(f"{target}: nosniff", heads["X-Content-Type-Options"] == "nosniff")


SECRET = "not for the page"


def check_paths(server):
    """Whatever a name is written like, nothing outside of the folder is read or written."""
    outside = server.folder.parent / "secret.json"
    outside.write_text('{"format": "coatwright-job/1", "job": "%s"}' % SECRET)
    (server.folder / "link.json").symlink_to(outside)
    (server.folder / "out").symlink_to(server.folder.parent)
    (server.folder / ".hidden.json").write_text(outside.read_text())
    names = ["../secret.json", "..%2fsecret.json", "%2e%2e/secret.json", "%2e%2e%2fsecret.json", "..%5csecret.json", "%252e%252e%252fsecret.json",
             "link.json", "out/secret.json", "out%2fsecret.json", ".hidden.json", "%2ehidden.json", str(outside), str(outside).replace("/", "%2f"),
             "desk.json%00.csv", "desk.json%00", "%c0%ae%c0%ae/secret.json", "..;/secret.json", "./desk.json", "desk.json/", "//desk.json", "%", "%2", "%zz",
             "%ff", "desk.json%0a", "out%2f..%2fsecret.json", ".versions%2fdesk.json", "a" * 5000, "%2e", "%2e%2e", "", ".."]
    for name in names:
        for before, behind in (("/api/job/", ""), ("/files/", "/plan.json"), ("/api/plan/", ""), ("/assets/", ""), ("/calendar/", ".ics"),
                               ("/api/versions/desk.json?of=", ""), ("/api/version/desk.json?version=1&of=", "")):
            status, _, said = server.ask("GET", before + name + behind)
            harmless = said == b"[]" and "versions" in before  # a name that no file has
            check(f"{before}{name}{behind}", (status in (400, 404, 422) or harmless) and SECRET.encode() not in said, (status, said))
    for name in ("../new.json", "/tmp/new.json", "out/new.json", "out/secret.json", "link.json", ".hidden.json", ".versions/a", "a//b", "", "a\x00b", "a\nb", "desk-finishes/../../x"):
        for version in (None, "0" * 32):
            status, said = server.post("/api/save/desk.json", {"texts": {name: {"text": "x", "version": version}}})
            check(f"save {name!r}", status in (400, 409, 422, 500) and "error" in said and SECRET not in json.dumps(said), (status, said))
        status, said = server.post("/api/try/desk.json", {"texts": {name: "x"}, "effort": "quick"})
        check(f"try {name!r}", status == 400 or name in ("out/new.json", "out/secret.json", "link.json"), (status, said))
    check("nothing was written outside", sorted(path.name for path in server.folder.parent.iterdir()) == ["jobs", "secret.json"] and SECRET in outside.read_text())
    check("nor over the link", (server.folder / "link.json").is_symlink())
    (server.folder / "out").unlink()
    (server.folder / "link.json").unlink()


def raw(server, *pieces, wait=0.0, read=True):
    """Bytes as they are, and what comes back."""
    connection = socket.create_connection(("127.0.0.1", server.port), timeout=60)
    said = b""
    try:
        for piece in pieces:
            connection.sendall(piece)
            time.sleep(wait)
        while read and (more := connection.recv(65536)):
            said += more
    except OSError:
        pass
    connection.close()
    return said


def check_bodies(server):
    host = f"Host: 127.0.0.1:{server.port}\r\n".encode()
    head = b"POST /api/mix HTTP/1.1\r\n" + host + b"Content-Type: application/json\r\nConnection: close\r\n"
    check("too large, as it says", b" 413 " in raw(server, head + b"Content-Length: %d\r\n\r\n" % (BODY_MOST + 1)).split(b"\r\n")[0])
    check("larger than any number", b" 413 " in (said := raw(server, head + b"Content-Length: 99999999999999999999999\r\n\r\n")).split(b"\r\n")[0] or b" 400 " in said
          or not said, said[:100])
    chunk = b"%x\r\n" % 65536 + b"x" * 65536 + b"\r\n"
    said = raw(server, head + b"Transfer-Encoding: chunked\r\n\r\n", *[chunk] * (BODY_MOST // 65536 + 2), b"0\r\n\r\n")
    check("too large, in pieces", b" 413 " in said.split(b"\r\n")[0], said[:100])
    check("in pieces for ever", not raw(server, head + b"Transfer-Encoding: chunked\r\n\r\n", *[chunk] * (3 * BODY_MOST // 65536)).startswith(b"HTTP/1.1 200"))
    for body in (b"", b"{", b"[]", b'{"a": 1, "a": 2}', b"\xff", b'{"finish": "\\u0000"}', b"{} {}", b"[" * 100000, b"null", b'"x"'):
        check(f"{body[:20]}", server.ask("POST", "/api/mix", body)[0] == 400, server.ask("POST", "/api/mix", body))
    deep = b'{"a":' * 3000 + b"1" + b"}" * 3000
    check("too deep", server.ask("POST", "/api/mix", deep)[0] in (400, 422))
    for broken in (b"GET", b"GET /", b"GET / HTTP/1.1\r\n", b"\0\0\0\0", b"\x16\x03\x01\x02\x00", head + b"Content-Length: 100\r\n\r\n{", b"POST / HTTP/9.9\r\n\r\n",
                   b"GET / HTTP/1.1\r\n" + b"A: b\r\n" * 5000 + b"\r\n", b"GET /" + b"a" * 100000 + b" HTTP/1.1\r\n\r\n",
                   b"GET / HTTP/1.1\r\nHost: a\r\nHost: b\r\nContent-Length: 1\r\nContent-Length: 2\r\n\r\n"):
        raw(server, broken, read=False)
    check("broken requests leave it well", server.get("/api/folder")[0] == 200)


def check_crowd(server):
    """A thousand who say half a sentence, and one who is served all the same."""
    soft, hard = resource.getrlimit(resource.RLIMIT_NOFILE)
    resource.setrlimit(resource.RLIMIT_NOFILE, (min(hard, 4096), hard))
    crowd = []
    for _ in range(1000):
        connection = socket.create_connection(("127.0.0.1", server.port), timeout=10)
        connection.sendall(b"POST /api/try/desk.json HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Le")
        crowd.append(connection)
    began = time.monotonic()
    status, _ = server.get("/api/job/desk.json?effort=quick")
    check("served among a thousand", status == 200 and time.monotonic() - began < 30, (status, time.monotonic() - began))
    slow = server.connect()
    slow.request("GET", "/files/desk.json/sheet.html", headers={"Host": f"127.0.0.1:{server.port}"})
    check("one who does not read holds nobody up", server.get("/api/folder")[0] == 200)
    check("and gets the whole of it later", slow.getresponse().read().endswith(b"</html>\n"))
    for connection in crowd:
        connection.close()
    resource.setrlimit(resource.RLIMIT_NOFILE, (soft, hard))
    check("they go, and it answers", server.get("/api/folder")[0] == 200)


def check_slow(server):
    """A request that is never finished is given up; how long that takes is not this test's matter beyond a minute."""
    began = time.monotonic()
    said = raw(server, b"GET /api/folder HTTP/1.1\r\nHost: 127.0.0.1")
    check("a client that stops in the middle is let go", time.monotonic() - began < 60 and b" 200 " not in said, said[:100])


def check_token():
    with tempfile.TemporaryDirectory() as folder:
        token = Path(folder) / "token"
        token.write_text("0123456789abcdef0123456789abcdef\n")
        token.chmod(0o644)
        wide = subprocess.run([PROGRAM, "serve", folder, "--listen", "127.0.0.1", "--token-file", token], capture_output=True, text=True, check=False)
        check("a token that others may read", wide.returncode == 4 and "only its owner" in wide.stderr, wide)
        bare = subprocess.run([PROGRAM, "serve", folder, "--listen", "127.0.0.1"], capture_output=True, text=True, check=False)
        check("others only with a token", bare.returncode == 2 and "--token-file" in bare.stderr, bare)
        token.chmod(0o600)
        with Server(*DESK, options=("--listen", "0.0.0.0", "--token-file", token)) as server:
            secret = token.read_text().strip()
            for target in ("/", "/api/folder", "/events", "/files/desk.json/plan.json", "/calendar.ics", "/assets/page.css", "/favicon.ico"):
                status, _, said = server.ask("GET", target)
                check(f"{target} without the token", status == 401 and b"desk" not in said, (status, said))
            check("a wrong one", server.ask("GET", "/api/folder", Authorization="Bearer " + secret[:-1])[0] == 401)
            check("the right one", server.ask("GET", "/api/folder", Authorization="Bearer " + secret)[0] == 200)
            status, heads, _ = server.ask("GET", f"/?token={secret}")
            cookie = heads["Set-Cookie"] or ""
            check("the browser keeps it", status == 303 and heads["Location"] == "/" and "HttpOnly" in cookie and "SameSite=Strict" in cookie, heads)
            check("and is let in by it", server.ask("GET", "/", Cookie="a=b; " + cookie.partition(";")[0])[0] == 200)
            check("a calendar has it in its address", server.ask("GET", f"/calendar/desk.json.ics?token={secret}")[0] == 200)
            check("by the machine's address", server.ask("GET", "/", Host=f"192.168.7.7:{server.port}", Authorization="Bearer " + secret)[0] == 200)
            check("not by a stranger's name", server.ask("GET", "/", Host=f"evil.example:{server.port}", Authorization="Bearer " + secret)[0] == 421)


def check_loopback():
    """Without --listen nobody but this machine: the socket is bound to 127.0.0.1 alone (RFC 5735)."""
    with Server(*DESK) as server:
        rows = [row.split() for row in Path("/proc/net/tcp").read_text().splitlines()[1:]]
        bound = [row[1] for row in rows if row[3] == "0A" and row[1].endswith(f":{server.port:04X}")]
        check("bound to loopback", bound == [f"0100007F:{server.port:04X}"], bound)
        six = Path("/proc/net/tcp6")
        check("and to nothing else", not six.exists() or f":{server.port:04X} 00000000000000000000000000000000:0000 0A" not in six.read_text())
        twice = subprocess.run([PROGRAM, "serve", server.folder, "--port", str(server.port)], capture_output=True, text=True, check=False)
        check("a port that is taken", twice.returncode == 4 and "another program has" in twice.stderr and not twice.stdout, twice)
    gone = subprocess.run([PROGRAM, "serve", "no-such-folder"], capture_output=True, text=True, check=False)
    check("no such folder", gone.returncode == 4 and "no such folder" in gone.stderr, gone)


def check_disk():
    """What cannot be written is said, and the file stays what it was. A limit on the size of files stands for a full disk."""
    with Server(*DESK) as server:
        text = server.get("/api/job/desk.json?effort=quick")[1]["texts"]["desk.json"]
        resource.prlimit(server.process.pid, resource.RLIMIT_FSIZE, (1000, 1000))
        status, said = server.post("/api/save/desk.json", {"texts": {"desk.json": {"text": text["text"] + " " * 3000, "version": text["version"]}}})
        check("a full disk", status == 500 and "expected" in said["error"], (status, said))
        check("nothing is lost", (server.folder / "desk.json").read_text() == text["text"] and
              not [path for path in server.folder.iterdir() if path.name.endswith(".new")], list(server.folder.iterdir()))
        check("and it answers", server.get("/api/folder")[0] == 200)


def check_all(*parts):
    with Server(*DESK) as server:
        for part in parts:
            part(server)
        check("it lives to the end, without a word", server.stop() == 0 and not server.said, server.said)


check_all(check_hosts, check_origins, check_heads, check_paths, check_bodies, check_crowd, check_slow)
check_token()
check_loopback()
check_disk()
print(f"{passed} passed, {failed} failed")
sys.exit(failed > 0)

"""A calendar on loopback with what `publish` and `fetch-busy` ask of a CalDAV server (RFC 4791, RFC 5545), forgetful where a test
wants it so. tests/publish tries real servers; this one answers at once and the same each time."""
import hashlib
import http.server
import threading
from xml.sax.saxutils import escape

COLLECTION = "/ann/calendar/"
FOUND = ('<multistatus xmlns="DAV:" xmlns:c="urn:ietf:params:xml:ns:caldav"><response><href>/ann/</href><propstat><prop>'
         "<resourcetype><collection/></resourcetype><current-user-principal><href>/ann/</href></current-user-principal>"
         "<c:calendar-home-set><href>/ann/</href></c:calendar-home-set></prop><status>HTTP/1.1 200 OK</status></propstat>"
         "</response>")
CALENDAR = (f"<response><href>{COLLECTION}</href><propstat><prop><resourcetype><collection/><c:calendar/></resourcetype>"
            "<displayname>Coatwright</displayname>"
            '<c:supported-calendar-component-set><c:comp name="VEVENT"/><c:comp name="VTODO"/></c:supported-calendar-component-set>'
            "</prop><status>HTTP/1.1 200 OK</status></propstat></response>")
EVENTS = ('<multistatus xmlns="DAV:" xmlns:c="urn:ietf:params:xml:ns:caldav">' + "".join(
    f"<response><href>{COLLECTION}{uid}.ics</href><propstat><prop><c:calendar-data>BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Shop//EN\r\n"
    f"BEGIN:VEVENT\r\nUID:{uid}\r\nDTSTAMP:20270101T000000Z\r\n{lines}END:VEVENT\r\nEND:VCALENDAR\r\n</c:calendar-data></prop>"
    "<status>HTTP/1.1 200 OK</status></propstat></response>"
    for uid, lines in (("once", "DTSTART:20270304T080000Z\r\nDURATION:PT3H\r\n"),
                       ("weekly", "DTSTART:20270202T090000Z\r\nDTEND:20270202T113000Z\r\nRRULE:FREQ=WEEKLY\r\n"))) + "</multistatus>")


def etag(text):
    return '"' + hashlib.sha256(text).hexdigest()[:16] + '"'


class Handler(http.server.BaseHTTPRequestHandler):
    protocol_version = "HTTP/1.1"

    def log_message(self, *_):
        pass

    def answer(self, status, body=b"", **headers):
        self.send_response(status)
        for name, value in headers.items():
            self.send_header(name.replace("_", "-"), value)
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        self.wfile.write(body)

    def do_PROPFIND(self):
        self.rfile.read(int(self.headers.get("Content-Length") or 0))
        rows = "".join(f"<response><href>{escape(path)}</href><propstat><prop><getetag>{escape(etag(text))}</getetag></prop>"
                       "<status>HTTP/1.1 200 OK</status></propstat></response>" for path, text in sorted(self.server.held.items()))
        self.answer(207, (FOUND + CALENDAR + rows + "</multistatus>").encode(), Content_Type="application/xml; charset=utf-8")

    def do_REPORT(self):
        self.rfile.read(int(self.headers.get("Content-Length") or 0))
        self.answer(207, EVENTS.encode(), Content_Type="application/xml; charset=utf-8")

    def do_GET(self):
        held = self.server.held.get(self.path)
        self.answer(200 if held else 404, held or b"", ETag=etag(held or b""))

    def do_PUT(self):
        text = self.rfile.read(int(self.headers.get("Content-Length") or 0))
        old, match = self.server.held.get(self.path), self.headers.get("If-Match")
        if (self.headers.get("If-None-Match") and old) or (match and match != etag(old or b"")):
            self.answer(412)
            return
        self.server.held[self.path] = text
        self.answer(204 if old else 201, ETag=etag(text))

    def do_DELETE(self):
        self.answer(204 if self.server.held.pop(self.path, None) else 404)


class Server(http.server.ThreadingHTTPServer):
    daemon_threads = True

    def handle_error(self, *_):
        """A client that went away is what is tried."""


def started():
    """A server at a free port; its resources are server.held."""
    server = Server(("127.0.0.1", 0), Handler)
    server.held = {}
    threading.Thread(target=server.serve_forever, daemon=True).start()
    return server

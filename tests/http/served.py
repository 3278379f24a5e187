"""The built program as a server, and what a browser and an attacker do to it."""

import atexit
import http.client
import json
import os
import resource
import shutil
import signal
import socket
import subprocess
import sys
import tempfile
import threading
import time

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "cli"))
from program import check  # noqa: E402


def new_folder():
    """Gone when the test ends."""
    folder = tempfile.mkdtemp(prefix="fettle-http-")
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    return folder


def raise_file_limit():
    hard = resource.getrlimit(resource.RLIMIT_NOFILE)[1]
    resource.setrlimit(resource.RLIMIT_NOFILE, (hard, hard))


class Served:
    """`fettle serve` on a free port with a record of its own, ended when the block is left."""

    def __init__(self, program, *options, record=None):
        self.folder = new_folder() if record is None else os.path.dirname(record)
        self.record = record or os.path.join(self.folder, "shop.fettle")
        self.process = subprocess.Popen(
            [program, "serve", "--record", self.record, "--port", "0", *options],
            stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
        self.said = []
        for line in self.process.stdout:
            self.said.append(line.rstrip("\n"))
            if line.startswith("http://"):
                break
        check(bool(self.said), f"serve said nothing: {'' if self.said else self.process.stderr.read()}")
        self.port = int(self.said[-1].rstrip("/").rsplit(":", 1)[1]) if self.said else 0
        self.token = self.get("/api/hello")[1]["token"]

    def __enter__(self):
        return self

    def __exit__(self, *_):
        if self.process.poll() is None:
            self.end()

    def end(self, how=signal.SIGTERM, within=15):
        """Seconds that it took."""
        begun = time.monotonic()
        self.process.send_signal(how)
        code = self.process.wait(timeout=within)
        if how != signal.SIGKILL:
            check(code == 0, f"ended with {code}: {self.process.stderr.read()}")
        return time.monotonic() - begun

    def ask(self, method, path, body=None, fields=None):
        """Status, body as JSON (or bytes), fields."""
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=20)
        try:
            connection.request(method, path, body=body, headers=fields or {})
            answer = connection.getresponse()
            content = answer.read()
            if answer.getheader("Content-Type", "").startswith("application/json") and method != "HEAD":
                content = json.loads(content)
            return answer.status, content, answer.headers
        finally:
            connection.close()

    def get(self, path, fields=None):
        return self.ask("GET", path, None, fields)

    def post(self, path, value, fields=None):
        return self.ask("POST", path, json.dumps(value), {"Fettle-Token": self.token, **(fields or {})})

    def open(self, timeout=20):
        return socket.create_connection(("127.0.0.1", self.port), timeout=timeout)

    def raw(self, data):
        """What comes back to these bytes, up to the end of the connection or of the first answer; b'' if nothing."""
        with self.open() as client:
            try:
                client.sendall(data)
            except OSError:
                pass  # refused while it was still being sent; the answer counts
            return read_answer(client)


def read_answer(client):
    """Head and body of one answer."""
    got = b""
    try:
        while b"\r\n\r\n" not in got:
            more = client.recv(65536)
            if not more:
                return got
            got += more
        head, _, body = got.partition(b"\r\n\r\n")
        for line in head.split(b"\r\n"):
            if line.lower().startswith(b"content-length:"):
                wanted = int(line.split(b":")[1])
                while len(body) < wanted:
                    more = client.recv(65536)
                    if not more:
                        break
                    body += more
        return head + b"\r\n\r\n" + body
    except OSError:
        return got


def status_of(answer):
    """Of a raw answer; 0 if there was none."""
    return int(answer.split(b" ")[1]) if answer.startswith(b"HTTP/1.1 ") else 0


def code_of(answer):
    """The first problem of a raw refusal."""
    try:
        return json.loads(answer.partition(b"\r\n\r\n")[2])["problems"][0]["code"]
    except (ValueError, KeyError, IndexError):
        return ""


class Ordinary:
    """Somebody who works all the time, one request after the other; says how long the longest took."""

    def __init__(self, server):
        self.server = server
        self.longest = 0.0
        self.count = 0
        self.wrong = 0
        self.stopped = threading.Event()
        self.thread = threading.Thread(target=self.work)

    def __enter__(self):
        self.thread.start()
        return self

    def __exit__(self, *_):
        self.stopped.set()
        self.thread.join()

    def work(self):
        connection = http.client.HTTPConnection("127.0.0.1", self.server.port, timeout=10)
        while not self.stopped.wait(0.02):
            begun = time.monotonic()
            try:
                connection.request("GET", "/api/hello")
                answer = connection.getresponse()
                answer.read()
                if answer.status != 200:
                    self.wrong += 1
            except (OSError, http.client.HTTPException):
                self.wrong += 1
                connection.close()
            self.longest = max(self.longest, time.monotonic() - begun)
            self.count += 1
        connection.close()

    def expect_served(self, within):
        check(self.wrong == 0, f"an ordinary client got {self.wrong} wrong answers of {self.count}")
        check(self.count >= 20, f"an ordinary client got only {self.count} answers")
        check(self.longest < within, f"an ordinary client waited {self.longest:.2f} s")


class Listening:
    """One stream of live events; `events` grows as they come."""

    def __init__(self, client, query, fields=""):
        self.events = []
        self.pings = 0
        self.ended = threading.Event()
        self.client = client
        client.sendall(f"GET /api/live?{query} HTTP/1.1\r\nHost: localhost\r\n{fields}\r\n".encode())
        self.thread = threading.Thread(target=self.read, daemon=True)
        self.head = b""
        self.begun = threading.Event()
        self.thread.start()

    def read(self):
        got = b""
        try:
            while True:
                more = self.client.recv(65536)
                if not more:
                    break
                got += more
                if not self.head and b"\r\n\r\n" in got:
                    self.head, _, got = got.partition(b"\r\n\r\n")
                    self.begun.set()
                while self.head and b"\n\n" in got:
                    one, _, got = got.partition(b"\n\n")
                    lines = one.decode().split("\n")
                    if lines[0].startswith(":"):
                        self.pings += 1
                    else:
                        self.events.append((lines[0][len("event: "):], json.loads(lines[1][len("data: "):])))
        except OSError:
            pass
        self.begun.set()
        self.ended.set()

    def wait_for(self, name, within=5, where=lambda data: True):
        """The data of the first event of this name that fits; None if none comes."""
        until = time.monotonic() + within
        while time.monotonic() < until:
            for found, data in list(self.events):
                if found == name and where(data):
                    return data
            time.sleep(0.01)
        return None

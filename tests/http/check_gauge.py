#!/usr/bin/env python3
"""A gauge on a serial port, through a real pseudo-terminal: taken by one device, kept in the tray, unplugged, killed in between."""
import os
import pty
import signal
import sys
import time
import tty

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from served import Listening, Served, new_folder  # noqa: E402
from program import check, report  # noqa: E402


class Gauge:
    """The far end of the port; `path` leads to whatever pseudo-terminal is plugged in."""

    def __init__(self):
        self.path = os.path.join(new_folder(), "port")
        self.plug_in()

    def plug_in(self):
        self.far, self.near = pty.openpty()
        tty.setraw(self.near)
        os.symlink(os.ttyname(self.near), self.path)

    def pull_out(self):
        os.unlink(self.path)
        os.close(self.near)
        os.close(self.far)

    def send(self, data):
        os.write(self.far, data)


def waiting(server, count, within=5):
    """The tray, once it holds so many."""
    until = time.monotonic() + within
    while True:
        tray = server.get("/api/ports")[1]["waiting"]
        if len(tray) == count or time.monotonic() > until:
            check(len(tray) == count, f"{len(tray)} lines wait, wanted {count}: {tray}")
            return tray
        time.sleep(0.05)


def port_state(server, there, within=6):
    until = time.monotonic() + within
    while time.monotonic() < until:
        port = server.get("/api/ports")[1]["ports"][0]
        if port["there"] is there:
            return port
        time.sleep(0.05)
    check(False, f"the port is not {'there' if there else 'gone'}")
    return {}


def at_work(server, gauge):
    port = port_state(server, True)
    check(port == {"id": "g2", "name": "G2", "there": True, "taken_by": None}, f"{port}")
    here = Listening(server.open(timeout=60), "job=tern&device=d-1")
    there = Listening(server.open(timeout=60), "job=tern&device=d-2")
    check(here.begun.wait(5) and there.begun.wait(5), "streams begin")

    # Nobody took the port: the line waits, and everybody is told that one does.
    gauge.send(b"+0.071 mm\r\n")
    check(there.wait_for("tray", 5) == {"waiting": 1}, f"told {there.events}")
    tray = waiting(server, 1)
    check(tray[0]["text"] == "+0.071 mm" and tray[0]["port"] == "g2" and tray[0]["reading"] == {"text": "+0.071", "unit": "mm"}, f"{tray}")

    # Taken: the next line goes to that device and to no other.
    status, body, _ = server.post("/api/ports/take", {"port": "g2", "device": "d-1"})
    check(status == 200 and body["ports"][0]["taken_by"] == {"device": "d-1", "name": "this machine"}, f"taken: {body}")
    gauge.send(b"+0.0")
    time.sleep(0.2)
    gauge.send(b"72 mm\nE: battery\r\n")
    data = here.wait_for("gauge-line", 5)
    check(data is not None and data["text"] == "+0.072 mm" and data["reading"] == {"text": "+0.072", "unit": "mm"}, f"told {data}")
    other = here.wait_for("gauge-line", 5, lambda each: each["text"] == "E: battery")
    check(other is not None and other["reading"] is None, f"an impossible line comes raw: {other}")
    check(not [each for each in there.events if each[0] == "gauge-line"], f"another device is told {there.events}")
    waiting(server, 3)
    status, body, _ = server.post("/api/gauge-lines/done", {"number": data["number"], "device": "d-1", "job": "tern", "act": "a" * 32})
    check(status == 200 and len(body["waiting"]) == 2, f"done: {body}")
    check(server.post("/api/gauge-lines/done", {"number": data["number"], "device": "d-1"})[0] == 200, "done twice")
    waiting(server, 2)

    # What is no text, and what is too long to be a reading, is kept and not guessed.
    gauge.send(b"\xff\x00+0.073 mm\r\n" + b"7" * 2000 + b"\r\n")
    tray = waiting(server, 4)
    check([each["reading"] for each in tray[2:]] == [None, None] and len(tray[3]["text"]) == 257, f"{tray[2:]}")

    # Its stream gone, what the taker would have had waits in the tray.
    here.client.close()
    server.post("/api/ports/leave", {"port": "g2", "device": "d-2"})
    check(server.get("/api/ports")[1]["ports"][0]["taken_by"] is not None, "somebody else gives the port away")
    server.post("/api/ports/leave", {"port": "g2", "device": "d-1"})
    check(server.get("/api/ports")[1]["ports"][0]["taken_by"] is None, "the port is free again")
    status, body, _ = server.post("/api/ports/take", {"port": "g9", "device": "d-1"})
    check(status == 404 and body["problems"][0]["code"] == "server.no_such_port", f"{body}")
    return there


def unplugged(server, gauge, there):
    """Half a line before the plug is pulled is no line; the port comes back by itself."""
    gauge.send(b"+0.0")
    time.sleep(0.3)
    gauge.pull_out()
    port_state(server, False)
    check(there.wait_for("port", 5, lambda data: data == {"port": "g2", "there": False}) is not None, f"nobody is told that the port is gone: {there.events}")
    gauge.plug_in()
    port_state(server, True)
    gauge.send(b"74 mm\r\n")
    tray = waiting(server, 5)
    check(tray[4]["text"] == "74 mm", f"half a line lived on: {tray[4]}")


def main():
    gauge = Gauge()
    option = f"G2={gauge.path},4800/7E1,{{number}} {{unit}}"
    with Served(sys.argv[1], "--gauge", option) as server:
        there = at_work(server, gauge)
        unplugged(server, gauge, there)
        before = server.get("/api/ports")[1]["waiting"]
        server.end(signal.SIGKILL)
        record = server.record
    with Served(sys.argv[1], "--gauge", option, record=record) as server:
        after = server.get("/api/ports")[1]["waiting"]
        check(after == before, f"after a kill the tray holds {after}, held {before}")
        port_state(server, True)
        gauge.send(b"+0.075 mm\r\n")
        check(waiting(server, 6)[5]["number"] > before[-1]["number"], "a number is given twice")
    return report()


sys.exit(main())

#!/usr/bin/env python3
"""How long an acknowledgement takes while many shops work: 40 jobs x 5 devices, each posting a reading a second and listening to its job.

serve_load.py <fettle> [--jobs 40] [--devices 5] [--seconds 30] [--warm-up 5] [--runs 1] [--crowd] [--looks] [--together] [--folder F]

  --crowd     300 slow and 1000 idle connections beside
  --looks     each device asks for its round again after every reading that was accepted, as a page would that never waits
  --together  all devices post at the same moment of each second, instead of each at its own
  --folder    where the record lies: the disk that is meant; else where temporary files go

Void, with what is wrong and exit code 1, unless every acknowledged reading is in the record once, as it was acknowledged, every other device of
the job was told of it once, and the record verifies.
"""

import argparse
import os
import pathlib
import socket
import sys
import tempfile
import threading

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent / "tests" / "http"))
from posting import Load, at  # noqa: E402
from served import Served, raise_file_limit  # noqa: E402

SLOW, IDLE = 300, 1000


class Crowd:
    """Connections that asked once and sit there, and others that send a byte of their head now and then and are put away for it, and come again."""

    def __init__(self, server):
        self.server, self.stopped = server, threading.Event()
        self.idle = [self.client(b"\r\n\r\n") for _ in range(IDLE)]
        self.slow = [self.client(b"\r\nX: ") for _ in range(SLOW)]
        self.thread = threading.Thread(target=self.drip)
        self.thread.start()

    def client(self, end):
        client = self.server.open()
        client.sendall(b"GET /api/hello HTTP/1.1\r\nHost: localhost" + end)
        return client

    def drip(self):
        while not self.stopped.wait(0.5):
            for number, client in enumerate(self.slow):
                try:
                    client.send(b"a", socket.MSG_DONTWAIT)
                except OSError:
                    client.close()
                    self.slow[number] = self.client(b"\r\nX: ")

    def end(self):
        self.stopped.set()
        self.thread.join()
        for client in (*self.idle, *self.slow):
            client.close()


def row(name, seconds):
    return f"  {name:<13}{len(seconds):>7} " + " ".join(f"{word} {at(seconds, share):7.1f}" for word, share in
                                                       (("p50", 0.5), ("p90", 0.9), ("p99", 0.99), ("max", 1.0))) + " ms"


def run(asked, folder):
    server = Served(asked.fettle, record=os.path.join(folder, "shop.fettle"))
    with server:
        load = Load(server, asked.jobs, asked.devices, looks=asked.looks, together=asked.together)
        crowd = Crowd(server) if asked.crowd else None
        before = os.getloadavg()[0]
        load.run(asked.seconds, asked.warm_up)
        if crowd:
            crowd.end()
    print(f"{asked.jobs} jobs x {asked.devices} devices, {asked.seconds} s after {asked.warm_up} s; load of the machine {before:.1f} before, "
          f"{os.getloadavg()[0]:.1f} after; of one core: server {100 * load.server_share:.0f} %, this generator {100 * load.own_share:.0f} %")
    print(row("acknowledged", load.acknowledged()))
    print(row("others told", load.told()))
    if asked.looks:
        print(row("round shown", load.looked()))
    wrong = load.wrong(asked.warm_up + asked.seconds)
    if verified := load.verified():
        wrong.append(verified)
    print(f"  {load.acknowledgements()} acknowledged readings in the record once, told once to each other device; it verifies" if not wrong
          else "  VOID: " + "\n    ".join(wrong[:20]))
    return not wrong


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("fettle")
    parser.add_argument("--jobs", type=int, default=40)
    parser.add_argument("--devices", type=int, default=5)
    parser.add_argument("--seconds", type=int, default=30)
    parser.add_argument("--warm-up", type=int, default=5)
    parser.add_argument("--runs", type=int, default=1)
    parser.add_argument("--crowd", action="store_true")
    parser.add_argument("--looks", action="store_true")
    parser.add_argument("--together", action="store_true")
    parser.add_argument("--folder")
    asked = parser.parse_args()
    raise_file_limit()
    good = True
    for _ in range(asked.runs):
        with tempfile.TemporaryDirectory(prefix="fettle-load-", dir=asked.folder) as folder:
            good = run(asked, folder) and good
    return 0 if good else 1


sys.exit(main())

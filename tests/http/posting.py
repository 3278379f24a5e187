"""Shops at work: devices that each post a reading a second to their job and listen to it, and whether all of it is in the record afterwards."""

import asyncio
import json
import os
import random
import subprocess
import time

SEED = 1
STATIONS = ("top", "mid", "bottom", "foot")
DIRECTIONS = ("thrust", "pin")
BORES = 4
PLACES = [(bore, station, direction) for bore in range(1, BORES + 1) for direction in DIRECTIONS for station in STATIONS]
MADE_AT = "2031-05-04T10:12:05+02:00"


class Heads:
    """Ids and sequence numbers of acts; ids from a seed, so that two runs send the same."""

    def __init__(self):
        self.draw = random.Random(SEED)
        self.sequences = {}

    def next(self, device):
        self.sequences[device] = self.sequences.get(device, 0) + 1
        return {"id": f"{self.draw.getrandbits(128):032x}", "device": device, "sequence": self.sequences[device], "made_at": MADE_AT, "who": "JB"}


class Answers(asyncio.Protocol):
    """One connection that asks one thing after the other. The time of an answer is taken where its last byte is read."""

    def __init__(self):
        self.got = b""
        self.waiting = None
        self.transport = None

    def connection_made(self, transport):
        self.transport = transport

    def data_received(self, data):
        self.got += data
        head, end, body = self.got.partition(b"\r\n\r\n")
        if not end:
            return
        at = head.lower().find(b"content-length:")
        length = int(head[at + 15:].split(b"\r\n", 1)[0])
        if len(body) >= length and self.waiting is not None:
            self.got = body[length:]
            waiting, self.waiting = self.waiting, None
            if not waiting.done():
                waiting.set_result((time.perf_counter(), int(head[9:12]), body[:length]))

    def connection_lost(self, exception):
        if self.waiting is not None and not self.waiting.done():
            self.waiting.set_exception(ConnectionError(f"the server closed a connection: {exception}"))

    async def ask(self, request):
        """When it was sent, when it was answered, status, body."""
        self.waiting = asyncio.get_running_loop().create_future()
        sent = time.perf_counter()
        self.transport.write(request)
        answered, status, body = await asyncio.wait_for(self.waiting, 60)
        return sent, answered, status, body


class Listens(asyncio.Protocol):
    """A stream of live events: when which position was told of, and by whom it was made."""

    def __init__(self, told):
        self.told = told  # called for each accepted event
        self.got = b""
        self.begun = asyncio.get_running_loop().create_future()
        self.seen = []  # (time, position, device)
        self.lost = False

    def data_received(self, data):
        now = time.perf_counter()
        self.got += data
        if not self.begun.done():
            head, end, rest = self.got.partition(b"\r\n\r\n")
            if not end:
                return
            self.got = rest
            self.begun.set_result(head)
        while True:
            one, end, rest = self.got.partition(b"\n\n")
            if not end:
                return
            self.got = rest
            if one.startswith(b"event: accepted"):
                event = json.loads(one[one.index(b"data: ") + 6:])
                self.seen.append((now, event["position"], event["device"]))
                self.told()

    def connection_lost(self, _):
        self.lost = True


class Device:
    """One pair of hands. Its own gauge and its own setting, so that no two read one place under one setting."""

    def __init__(self, load, job, number, begins):
        self.load, self.job, self.number, self.begins = load, job, number, begins
        self.name = f"d-{job}-{number}"
        self.acts = []       # (sent, answered, id, text, position) of each acknowledged one
        self.looks = []      # seconds that a page took
        self.wrong = []      # what was not as it must be
        self.to_look = asyncio.Event()

    async def open(self):
        loop = asyncio.get_running_loop()
        port = self.load.server.port
        _, self.posts = await loop.create_connection(Answers, "127.0.0.1", port)
        listen, self.listens = await loop.create_connection(lambda: Listens(self.to_look.set), "127.0.0.1", port)
        listen.write(f"GET /api/live?job={self.job}&device={self.name} HTTP/1.1\r\nHost: localhost\r\n\r\n".encode())
        head = await asyncio.wait_for(self.listens.begun, 20)
        if not head.startswith(b"HTTP/1.1 200 "):
            self.wrong.append(f"{self.name}: a stream begins {head[:80]}")
        if self.load.looks:
            _, self.pages = await loop.create_connection(Answers, "127.0.0.1", port)

    def reading(self, count):
        bore, station, direction = PLACES[count % len(PLACES)]
        text = f"{20 + (7 * count + 11 * self.number) % 60} acw"
        return {**self.load.heads.next(self.name), "act": "reading", "part": f"bore-{bore}", "station": station, "direction": direction, "text": text,
                "unit": "div", "setting": f"bg-{self.number}-1", "round": str(1 + count // len(PLACES)), "order": 1 + count % len(PLACES)}

    async def post_all(self, begin, count):
        """A reading a second; one that is late does not shift the next."""
        for number in range(count):
            await asyncio.sleep(max(0.0, begin + self.begins + number - time.perf_counter()))
            act = self.reading(number)
            body = json.dumps({"acts": [act]})
            sent, answered, status, reply = await self.posts.ask(self.load.post_of(f"/api/jobs/{self.job}/acts", body))
            kept = json.loads(reply)["acts"][0] if status == 200 else {"kept": False}
            if kept["kept"]:
                self.acts.append((sent, answered, act["id"], act["text"], kept["position"]))
            else:
                self.wrong.append(f"{self.name}: reading {number} is refused, {status}: {reply[:300]}")

    async def look_all(self):
        """As the page does: what is shown is asked for again when something was accepted, one question at a time."""
        number = 0
        while True:
            await self.to_look.wait()
            self.to_look.clear()
            number += 1
            path = f"/api/jobs/{self.job}/rounds/bore-{1 + number % BORES}?setting=bg-{self.number}-1&round=1"
            sent, answered, status, body = await self.pages.ask(f"GET {path} HTTP/1.1\r\nHost: localhost\r\n\r\n".encode())
            self.looks.append((sent, answered - sent))
            if status != 200:
                self.wrong.append(f"{self.name}: a page is {status}: {body[:200]}")


class Load:
    """So many jobs, each with so many devices, on a server of served.py."""

    def __init__(self, server, jobs, devices, looks=False, together=False):
        self.server, self.looks = server, looks
        self.heads = Heads()
        self.jobs = [self.new_job(number, devices) for number in range(jobs)]
        begins = random.Random(SEED)
        self.devices = [(job, number, 0.0 if together else begins.random()) for job in self.jobs for number in range(devices)]

    def post_of(self, path, body):
        return f"POST {path} HTTP/1.1\r\nHost: localhost\r\nFettle-Token: {self.server.token}\r\nContent-Length: {len(body)}\r\n\r\n{body}".encode()

    def new_job(self, number, devices):
        status, made, _ = self.server.post("/api/jobs", {
            **self.heads.next("d-0"), "name": f"Linnet {number}", "engine": "four-cylinder petrol, invented", "shown_unit": "mm", "decimal_mark": "point",
            "groups": [{"kind": "cylinder-bore", "count": BORES}], "number_one_end": "pulley end", "turns": "clockwise", "seen_from": "pulley end",
            "thrust_side": "exhaust side"})
        assert status == 200, made
        acts = [{"act": "limit", "limit": name, "kind": "cylinder-bore", "definition": definition, "role": role, "side": side, "bound": bound,
                 "book": "Linnet notes (invented)", "edition": "first", "page": "14"}
                for name, definition, role, side, bound in (("low", "size-3", "new", "at-least", "78.000 mm"), ("high", "size-1", "new", "at-most", "78.020 mm"),
                                                            ("service", "size-1", "service", "at-most", "78.100 mm"))]
        acts.append({"act": "gauge", "gauge": "mic-in", "preset": "outside-micrometer-3-4-in", "reads": "3.0001 in", "on_standard": "3.0000 in"})
        for device in range(devices):
            acts.append({"act": "gauge", "gauge": f"bg-{device}", "preset": "dial-bore-gauge-0-001-mm", "turn": "0.2 mm", "pressed_in": "clockwise"})
            acts.append({"act": "setting", "setting": f"bg-{device}-1", "gauge": f"bg-{device}", "master": "mic-in", "wanted": "78.000 mm", "set": "3.0709 in",
                         "zeros": ["0", "1 acw", "0"]})
        status, reply, _ = self.server.post(f"/api/jobs/{made['job']}/acts", {"acts": [{**self.heads.next("d-0"), **each} for each in acts]})
        assert status == 200 and all(each["kept"] for each in reply["acts"]), reply
        return made["job"]

    def run(self, seconds, warm_up=0):
        """Every reading of `seconds` after `warm_up` is measured; all of them count for `lost`."""
        asyncio.run(self.run_all(seconds, warm_up))

    async def run_all(self, seconds, warm_up):
        self.devices = [Device(self, *each) for each in self.devices]
        for each in self.devices:
            await each.open()
        lookers = [asyncio.create_task(each.look_all()) for each in self.devices if self.looks]
        begin = time.perf_counter() + 0.2
        own, theirs = time.process_time(), processor_seconds(self.server.process.pid)
        await asyncio.gather(*(each.post_all(begin, warm_up + seconds) for each in self.devices))
        took = time.perf_counter() - begin
        self.own_share = (time.process_time() - own) / took
        self.server_share = (processor_seconds(self.server.process.pid) - theirs) / took
        for _ in range(50):  # what was acknowledged last is still being told
            if not any(self.untold(each) for each in self.devices):
                break
            await asyncio.sleep(0.1)
        for each in lookers:
            each.cancel()
        self.measured_from = begin + warm_up
        for each in self.devices:
            if each.listens.lost:
                each.wrong.append(f"{each.name}: its stream was cut")
            each.posts.transport.close()

    def others(self, device):
        return [each for each in self.devices if each.job == device.job and each is not device]

    def untold(self, device):
        """Positions that the other devices of the job made and that this one was not told of, or not once."""
        told = sorted(position for _, position, by in device.listens.seen if by != device.name)
        made = sorted(act[4] for other in self.others(device) for act in other.acts)
        return [] if told == made else sorted(set(made).symmetric_difference(told)) or ["one twice"]

    def acknowledged(self):
        """Seconds from an act to its acknowledgement."""
        return [answered - sent for each in self.devices for sent, answered, *_ in each.acts if sent >= self.measured_from]

    def told(self):
        """Seconds from an act until another device of the job was told of it, for each of them."""
        when = {}
        for each in self.devices:
            for at, position, _ in each.listens.seen:
                when[each.name, position] = at
        return [when[other.name, position] - sent for each in self.devices for sent, _, _, _, position in each.acts if sent >= self.measured_from
                for other in self.others(each) if (other.name, position) in when]

    def looked(self):
        return [took for each in self.devices for sent, took in each.looks if sent >= self.measured_from]

    def acknowledgements(self):
        return sum(len(each.acts) for each in self.devices)

    def wrong(self, wanted):
        """Everything that is not as it must be; to be asked when the server has ended. `wanted`: readings of each device."""
        out = [what for each in self.devices for what in each.wrong]
        for each in self.devices:
            if len(each.acts) != wanted:
                out.append(f"{each.name}: {len(each.acts)} of {wanted} readings were acknowledged")
            if untold := self.untold(each):
                out.append(f"{each.name} was not told once of {untold[:5]}")
        for job in self.jobs:
            out += self.lost(job)
        return out

    def lost(self, job):
        """What of a job's acknowledged readings is not in the record once, where and as it was acknowledged, and what is there besides."""
        program = self.server.process.args[0]
        done = subprocess.run([program, "events", job, "--record", self.server.record], capture_output=True, text=True, check=False)
        if done.returncode != 0:
            return [f"{job}: {done.stderr}"]
        there = {}
        for position, line in enumerate(done.stdout.splitlines(), 1):
            event = json.loads(line)
            if event["type"] == "reading-taken":
                there.setdefault(event["id"], []).append((position, event["payload"]["quantity"]["text"]))
        acts = {act: (position, text) for each in self.devices if each.job == job for _, _, act, text, position in each.acts}
        out = [f"{job}: {act} was acknowledged as {kept}, the record has {there.get(act)}" for act, kept in acts.items() if there.get(act) != [kept]]
        return out + [f"{job}: nobody was told that {act} is kept" for act in there if act not in acts]

    def verified(self):
        """What `verify` says of the record; empty where it is whole."""
        done = subprocess.run([self.server.process.args[0], "verify", "--record", self.server.record], capture_output=True, text=True, check=False)
        return "" if done.returncode == 0 else f"verify ends with {done.returncode}: {done.stdout}{done.stderr}"


def processor_seconds(process):
    """Of all its threads so far, in the program and in the system for it."""
    with open(f"/proc/{process}/stat", encoding="ascii") as file:
        fields = file.read().rpartition(")")[2].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def at(seconds, share):
    """The value that this share of them does not go over, in milliseconds."""
    ordered = sorted(seconds)
    return 1000 * ordered[min(len(ordered) - 1, int(share * len(ordered)))]

#!/usr/bin/env python3
"""Many connections at once, streams of events, and the end of the server with work under way."""
import os
import socket
import sys
import time

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from served import Listening, Ordinary, Served, raise_file_limit, read_answer, status_of  # noqa: E402
from program import check, report  # noqa: E402

SLOW, IDLE, LISTENERS = 300, 1000, 20


def crowd(program):
    """300 that send a byte now and then and 1000 that have asked once and sit there: whoever works does not notice."""
    with Served(program) as server:
        idle = []
        for _ in range(IDLE):
            client = server.open()
            client.sendall(b"GET /api/hello HTTP/1.1\r\nHost: localhost\r\n\r\n")
            idle.append(client)
        slow = []
        for _ in range(SLOW):
            client = server.open()
            client.sendall(b"GET /api/hello HTTP/1.1\r\nHost: localhost\r\nX: ")
            slow.append(client)
        with Ordinary(server) as ordinary:
            until = time.monotonic() + 7
            while time.monotonic() < until:
                for client in slow:
                    try:
                        client.send(b"a", socket.MSG_DONTWAIT)
                    except OSError:
                        pass
                time.sleep(0.5)
        ordinary.expect_served(within=1.5)
        cut = 0
        for client in slow:
            answer = read_answer(client)
            cut += status_of(answer) == 408
            client.close()
        check(cut == SLOW, f"{cut} of {SLOW} slow clients were told 408")
        served = sum(status_of(read_answer(client)) == 200 for client in idle)
        check(served == IDLE, f"{served} of {IDLE} idle clients had been answered")
        again = 0
        for client in idle:
            client.sendall(b"GET /api/hello HTTP/1.1\r\nHost: localhost\r\n\r\n")
            again += status_of(read_answer(client)) == 200
            client.close()
        check(again == IDLE, f"{again} of {IDLE} idle clients could go on")


def streams(program, root):
    """Each of 20 listeners is told, once and soon; those of another job are not."""
    with Served(program) as server:
        import subprocess
        subprocess.run([program, "open", os.path.join(root, "examples", "curlew-3"), "--record", server.record], check=True, capture_output=True)
        here = [Listening(server.open(timeout=60), f"job=tern-curlew-3&device=d-{i}") for i in range(LISTENERS)]
        elsewhere = Listening(server.open(timeout=60), "job=other&device=d-99")
        for each in [*here, elsewhere]:
            check(each.begun.wait(5), "a stream does not begin")
            check(b"text/event-stream" in each.head, f"a stream begins {each.head[:100]}")
        begun = time.monotonic()
        status, body, _ = server.post("/api/jobs/tern-curlew-3/present", {"device": "d-0", "who": "JB", "part": "bore-2", "holds": "round"})
        check(status == 200 and body["held"] is True and body["held_by"] is None, f"present: {status} {body}")
        for each in here:
            data = each.wait_for("present", 5)
            check(data == {"job": "tern-curlew-3", "people": [{"device": "d-0", "who": "JB", "part": "bore-2", "holds": "round"}]}, f"told {data}")
        check(time.monotonic() - begun < 1, f"20 listeners were told after {time.monotonic() - begun:.2f} s")
        check(not elsewhere.events, f"another job was told {elsewhere.events}")
        status, body, _ = server.post("/api/jobs/tern-curlew-3/present", {"device": "d-1", "who": "AK", "part": "bore-2", "holds": "round"})
        check(body["held"] is False and body["held_by"] == {"device": "d-0", "who": "JB"}, f"a second round: {body}")
        status, body, _ = server.post("/api/jobs/tern-curlew-3/present", {"device": "d-1", "who": "AK", "part": "bore-2", "holds": "second"})
        check(body["held"] is True, f"a second reading: {body}")
        check(here[5].wait_for("present", 5, lambda data: len(data["people"]) == 2) is not None, "both are seen")
        status, body, _ = server.post("/api/jobs/tern-curlew-3/present", {"device": "d-0", "who": "JB", "part": None})
        check(status == 400, f"null is no part: {status}")
        status, body, _ = server.post("/api/jobs/tern-curlew-3/present", {"device": "d-0", "who": "JB"})
        check(here[5].wait_for("present", 5, lambda data: [each["who"] for each in data["people"]] == ["AK"]) is not None, "one left")
        status, body, _ = server.post("/api/jobs/tern-curlew-3/present", {"device": "d-0", "who": "JB", "part": "bore-2", "holds": "all"})
        check(status == 400 and body["problems"][0]["code"] == "server.holds", f"{body}")
        status, body, _ = server.post("/api/jobs/no-such/present", {"device": "d-0", "who": "JB", "part": "bore-2"})
        check(status == 404 and body["problems"][0]["code"] == "record.no_such_job", f"{body}")

        # A request under way when the server is told to end: answered; streams end first, nobody new is let in.
        half = server.open()
        body = b'{"port":"g2","device":"d-0"}'
        half.sendall(f"POST /api/ports/take HTTP/1.1\r\nHost: localhost\r\nFettle-Token: {server.token}\r\nContent-Length: {len(body)}\r\n\r\n".encode() + body[:5])
        idle = server.open()
        idle.sendall(b"GET /api/hello HTTP/1.1\r\nHost: localhost\r\n\r\n")
        check(status_of(read_answer(idle)) == 200, "an idle one was answered")
        server.process.terminate()
        check(all(each.ended.wait(2) for each in here), "streams do not end with the server")
        check(idle.recv(10) == b"", "an idle connection is not closed")
        check(server.process.poll() is None, "the server did not wait for the request under way")
        try:
            server.open(timeout=2).close()
            check(False, "somebody new is let in while the server ends")
        except OSError:
            pass
        half.sendall(body[5:])
        answer = read_answer(half)
        check(status_of(answer) == 404 and b"server.no_such_port" in answer, f"the request under way: {answer[:200]}")
        check(b"Connection: close" in answer, "an ending server promises to stay")
        begun = time.monotonic()
        half.close()
        check(server.process.wait(timeout=10) == 0, "ends well")
        check(time.monotonic() - begun < 3, f"it took {time.monotonic() - begun:.1f} s to end")


def signals(program):
    import signal
    for how in (signal.SIGINT, signal.SIGTERM):
        with Served(program) as server:
            took = server.end(how)
            check(took < 2, f"{how.name}: {took:.1f} s")


def main():
    raise_file_limit()
    crowd(sys.argv[1])
    streams(sys.argv[1], sys.argv[2])
    signals(sys.argv[1])
    return report()


sys.exit(main())

#!/usr/bin/env python3
"""Many large files at once: what finds no room in memory is asked to come again, readings get in all the while, and room is given back."""
import http.client
import os
import sys
import time

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from served import Ordinary, Served, code_of, read_answer, status_of  # noqa: E402
from program import check, report  # noqa: E402

MIB = 1024 * 1024


def begin_file(server, size):
    """The head of a file; what is answered before a byte of it is sent, and the open connection."""
    client = server.open()
    client.sendall((f"POST /api/jobs/nobody/files HTTP/1.1\r\nHost: localhost\r\nFettle-Token: {server.token}\r\n"
                    f"Expect: 100-continue\r\nContent-Length: {size}\r\n\r\n").encode())
    return client, read_answer(client)


def goes_on(answer):
    return answer.startswith(b"HTTP/1.1 100 Continue")


def main():
    with Served(sys.argv[1]) as server, Ordinary(server) as ordinary:
        under_way = [begin_file(server, 64 * MIB) for _ in range(3)]
        for number, (_, answer) in enumerate(under_way):
            check(goes_on(answer), f"file {number} of three: {answer[:200]}")
        client, answer = begin_file(server, 1 * MIB)
        check(status_of(answer) == 503 and code_of(answer) == "server.bodies_full", f"the fourth: {answer[-300:]}")
        check(b"Retry-After: 5\r\n" in answer and b"Connection: close" in answer, f"when to come again: {answer[:300]}")
        client.close()
        status, body, _ = server.post("/api/jobs/nobody/acts", {"acts": [{}]})
        check(status == 400, f"what is typed gets in beside them: {status} {body}")

        under_way[0][0].close()
        until = time.monotonic() + 10
        while True:
            client, answer = begin_file(server, 64 * MIB)
            if goes_on(answer) or time.monotonic() > until:
                break
            client.close()
            time.sleep(0.05)
        check(goes_on(answer), f"after one broke off: {answer[:200]}")
        client.close()
        for each, _ in under_way:
            each.close()

        # More than there is room for, each on a connection that stays open: it gives its place back when it is answered.
        resting = []
        wrong = []
        for _ in range(260):
            resting.append(http.client.HTTPConnection("127.0.0.1", server.port, timeout=20))
            resting[-1].request("POST", "/api/jobs/nobody/files", body=b"x" * MIB, headers={"Fettle-Token": server.token})
            answer = resting[-1].getresponse()
            content = answer.read()
            if answer.status != 404:
                wrong.append((answer.status, content))
        check(not wrong, f"one after the other: {len(wrong)} refused, as {wrong[:1]}")
        for each in resting:
            each.close()
        time.sleep(0.6)  # for the ordinary client, who is counted
    ordinary.expect_served(within=2)
    return report()


sys.exit(main())

#!/usr/bin/env python3
"""Every attack on the server by its expected status, while an ordinary client is served."""
import os
import sys
import threading
import time

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from served import Ordinary, Served, code_of, read_answer, status_of  # noqa: E402
from program import check, report  # noqa: E402

HOST = "Host: localhost\r\n"


def head(first, *lines):
    return ("\r\n".join([first, *lines]) + "\r\n\r\n").encode("latin-1")


def quick_attacks(token):
    """Name, bytes, status, code."""
    key = f"Fettle-Token: {token}"
    take = "POST /api/ports/take HTTP/1.1"
    chunk = b"1000\r\n" + b"x" * 4096 + b"\r\n"
    return [
        ("an ordinary request", head("GET /api/hello HTTP/1.1", "Host: localhost"), 200, ""),
        ("a name with a port", head("GET /api/hello HTTP/1.1", "Host: LocalHost:8420"), 200, ""),
        ("chunked over the limit", head(take, "Host: localhost", key, "Transfer-Encoding: chunked") + 3 * chunk + b"0\r\n\r\n", 413, "server.body_too_large"),
        ("a body of 1 MB", head(take, "Host: localhost", key, "Content-Length: 1000000") + b"x" * 1000000, 413, "server.body_too_large"),
        ("a length beyond every number", head(take, "Host: localhost", key, "Content-Length: 99999999999999999999999"), 400, "server.unreadable"),
        ("length and chunks", head(take, "Host: localhost", key, "Content-Length: 3", "Transfer-Encoding: chunked") + b"0\r\n\r\n", 400, None),
        ("two lengths", head(take, "Host: localhost", key, "Content-Length: 3", "Content-Length: 4") + b"abcd", 400, None),
        ("two lengths in one", head(take, "Host: localhost", key, "Content-Length: 3, 3") + b"abc", 400, None),
        ("no host", head("GET /api/hello HTTP/1.1"), 400, "server.no_host"),
        ("no host in HTTP/1.0", head("GET /api/hello HTTP/1.0"), 400, "server.no_host"),
        ("two hosts", head("GET /api/hello HTTP/1.1", "Host: localhost", "Host: localhost"), 400, "server.no_host"),
        ("NUL in a field", head("GET /api/hello HTTP/1.1", "Host: localhost", "X: a\0b"), 400, "server.unreadable"),
        ("space before the colon", head("GET /api/hello HTTP/1.1", "Host : localhost"), 400, "server.unreadable"),
        ("xchunked", head(take, "Host: localhost", key, "Transfer-Encoding: xchunked") + b"0\r\n\r\n", 400, "server.body_framing"),
        ("gzip and a length", head(take, "Host: localhost", key, "Transfer-Encoding: gzip", "Content-Length: 3") + b"abc", 400, "server.body_framing"),
        ("gzip, then chunks", head(take, "Host: localhost", key, "Transfer-Encoding: gzip, chunked") + b"0\r\n\r\n", 400, "server.body_framing"),
        ("chunks in HTTP/1.0", head("POST /api/ports/take HTTP/1.0", "Host: localhost", key, "Transfer-Encoding: chunked") + b"0\r\n\r\n", 400, "server.body_framing"),
        ("a broken chunk", head(take, "Host: localhost", key, "Transfer-Encoding: chunked") + b"zz\r\n", 400, "server.unreadable"),
        ("a line of 100 kB between chunks", head(take, "Host: localhost", key, "Transfer-Encoding: chunked") + b"5;x=" + b"y" * 100000, 431, "server.header_too_large"),
        ("a head of 100 kB", head("GET /api/hello HTTP/1.1", "Host: localhost", "X: " + "y" * 100000), 431, "server.header_too_large"),
        ("an address of 100 kB", head("GET /" + "y" * 100000 + " HTTP/1.1", "Host: localhost"), 431, "server.header_too_large"),
        ("a foreign host", head("GET /api/hello HTTP/1.1", "Host: shop.example"), 421, "server.foreign_host"),
        ("a foreign host for a file", head("GET /index.html HTTP/1.1", "Host: shop.example"), 421, "server.foreign_host"),
        ("a host that only begins right", head("GET /api/hello HTTP/1.1", "Host: localhost.example"), 421, "server.foreign_host"),
        ("a host with a user", head("GET /api/hello HTTP/1.1", "Host: localhost@example"), 421, "server.foreign_host"),
        ("a foreign origin", head(take, "Host: localhost", key, "Origin: http://shop.example", "Content-Length: 2") + b"{}", 403, "server.foreign_page"),
        ("an origin of nowhere", head(take, "Host: localhost", key, "Origin: null", "Content-Length: 2") + b"{}", 403, "server.foreign_page"),
        ("an origin with another port", head(take, "Host: localhost:1", key, "Origin: http://localhost:2", "Content-Length: 2") + b"{}", 403, "server.foreign_page"),
        ("another site, as browsers tell", head(take, "Host: localhost", key, "Sec-Fetch-Site: cross-site", "Content-Length: 2") + b"{}", 403, "server.foreign_page"),
        ("a foreign page reads", head("GET /api/hello HTTP/1.1", "Host: localhost", "Sec-Fetch-Site: same-site"), 403, "server.foreign_page"),
        ("our own origin", head(take, "Host: localhost", key, "Origin: http://localhost", "Sec-Fetch-Site: same-origin", "Content-Length: 2") + b"{}", 400, "wire.missing_key"),
        ("no token", head(take, "Host: localhost", "Content-Length: 2") + b"{}", 403, "server.token"),
        ("a wrong token", head(take, "Host: localhost", "Fettle-Token: " + "0" * len(token), "Content-Length: 2") + b"{}", 403, "server.token"),
        ("two tokens", head(take, "Host: localhost", key, key, "Content-Length: 2") + b"{}", 403, "server.token"),
        ("asked beforehand by a foreign page", head("OPTIONS /api/ports/take HTTP/1.1", "Host: localhost"), 405, "server.method"),
        ("a method that is none", head("BREW /api/hello HTTP/1.1", "Host: localhost"), 405, "server.method"),
        ("another machine's address", head("GET http://localhost/api/hello HTTP/1.1", "Host: localhost"), 400, "server.target"),
        ("a broken escape", head("GET /api/live?job=%zz HTTP/1.1", "Host: localhost"), 400, "server.target"),
        ("nothing there", head("GET /api/nothing HTTP/1.1", "Host: localhost"), 404, "server.no_such_path"),
        ("a way out of the folder", head("GET /../../etc/passwd HTTP/1.1", "Host: localhost"), 404, "server.no_such_path"),
        ("an expectation", head(take, "Host: localhost", key, "Expect: cake", "Content-Length: 2"), 417, "server.expectation"),
        ("TLS where there is none", bytes([0x16, 3, 1, 2, 0, 1, 0, 1, 0xfc, 3, 3]) + b"\r\n\r\n", 400, "server.unreadable"),
        ("another protocol", b"HELO there\r\n\r\n", 400, "server.unreadable"),
    ]


def slow_attack(name, server, begin, drop, wanted, within, failures):
    """Sends a byte now and then; has to be ended by the server, whole phase by whole phase."""
    begun = time.monotonic()
    with server.open(timeout=30) as client:
        client.sendall(begin)
        client.settimeout(0.3)
        answer = b""
        while time.monotonic() - begun < 28:
            try:
                got = client.recv(65536)
                if not got:
                    break
                answer += got
                if answer.endswith(b"}"):
                    break
            except TimeoutError:
                if drop:
                    try:
                        client.sendall(drop)
                    except OSError:
                        break
            except OSError:
                break
    took = time.monotonic() - begun
    if wanted == 408 and code_of(answer) != "server.too_slow":
        failures.append(f"{name}: {answer[-200:]}")
    if status_of(answer) != wanted or not within[0] <= took <= within[1]:
        failures.append(f"{name}: status {status_of(answer)} after {took:.1f} s, wanted {wanted} after {within[0]} to {within[1]} s")


def main():
    with Served(sys.argv[1]) as server, Ordinary(server) as ordinary:
        failures = []
        key = f"Fettle-Token: {server.token}"
        slow = [
            ("a slow head", b"GET /api/hello HTTP/1.1\r\nHost: localhost\r\nX: ", b"a", 408, (4, 9)),
            ("a slow body", head("POST /api/ports/take HTTP/1.1", "Host: localhost", key, "Content-Length: 1000"), b"a", 408, (9, 15)),
            ("silence", b"", b"", 0, (9, 15)),
        ]
        threads = [threading.Thread(target=slow_attack, args=(each[0], server, *each[1:], failures)) for each in slow]
        for each in threads:
            each.start()
        for name, data, status, code in quick_attacks(server.token):
            answer = server.raw(data)
            check(status_of(answer) == status, f"{name}: {status_of(answer)} {answer[-200:]}, wanted {status}")
            if status in (400, 413, 431) and name != "our own origin":
                check(b"Connection: close" in answer, f"{name}: the connection stays open")
            if code:
                check(code_of(answer) == code, f"{name}: {code_of(answer)}, wanted {code}")

        # Two requests in one packet are two answers; what follows a refusal whose body was not read is no request.
        with server.open() as client:
            client.sendall(2 * head("GET /api/hello HTTP/1.1", "Host: localhost"))
            check(status_of(read_answer(client)) == 200, "the first of two requests")
        smuggled = server.raw(head("POST /api/ports/take HTTP/1.1", "Host: localhost", "Content-Length: 60") + head("GET /api/hello HTTP/1.1", "Host: localhost"))
        check(status_of(smuggled) == 403 and b"Connection: close" in smuggled, f"after a refusal the connection stays open: {smuggled[:300]}")
        answer = server.raw(head("POST /api/ports/take HTTP/1.1", "Host: localhost", key, "Expect: 100-continue", "Content-Length: 2"))
        check(answer.startswith(b"HTTP/1.1 100 Continue"), f"asked whether to go on: {answer[:80]}")

        status, body, fields = server.ask("HEAD", "/api/hello")
        check(status == 200 and body == b"" and int(fields["Content-Length"]) > 50, f"HEAD: {status} {body}")
        status, body, fields = server.get("/", {"Accept-Language": "de-DE,de;q=0.9"})
        policy = fields["Content-Security-Policy"]
        check("default-src 'self'" in policy and "frame-ancestors 'none'" in policy and "unsafe" not in policy, policy)
        check(fields["X-Content-Type-Options"] == "nosniff" and fields["Referrer-Policy"] == "no-referrer", str(fields))
        status, body, _ = server.get("/api/nothing", {"Accept-Language": "de"})
        check(body["format"] == "fettle-refusal" and body["version"] == 1 and "Adresse" in body["problems"][0]["what"], str(body))
        for each in threads:
            each.join()
        for each in failures:
            check(False, each)
    ordinary.expect_served(within=2)
    return report()


sys.exit(main())

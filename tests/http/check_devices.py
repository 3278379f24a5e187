#!/usr/bin/env python3
"""The server opened to another address: TLS, pairing, keys, revoking. Runs in a network of its own, which it makes itself."""
import hashlib
import http.client
import json
import os
import signal
import socket
import ssl
import stat
import subprocess
import sys
import time
import warnings

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from served import Listening, Served, new_folder, status_of, read_answer, code_of  # noqa: E402
from program import check, report  # noqa: E402

ADDRESS = "10.77.0.1"
ADDRESS_SIX = "fd00::5"


def enter_own_network():
    """Starts this program anew in a network that has nothing but its own two ends. Never skipped: without it nothing is shown."""
    if os.environ.get("FETTLE_OWN_NETWORK") == "1":
        return
    os.environ["FETTLE_OWN_NETWORK"] = "1"
    tried = subprocess.run(["unshare", "-rn", "true"], capture_output=True, text=True, check=False)
    if tried.returncode != 0:
        print(f"FAILED: this machine lets no network of its own be made (unshare -rn: {tried.stderr.strip()}); the test shows nothing without one")
        sys.exit(1)
    os.execvp("unshare", ["unshare", "-rn", sys.executable, "-B", *sys.argv])


def make_network():
    for command in ("link set lo up", "link add shop type veth peer name phone", f"addr add {ADDRESS}/24 dev shop", f"-6 addr add {ADDRESS_SIX}/64 dev shop nodad", "link set shop up", "link set phone up"):
        subprocess.run(["ip", *command.split()], check=True)


class Elsewhere:
    """Another machine, as far as the server can tell: it comes by the outer address."""

    def __init__(self, port, certificate, cookie=None, address=ADDRESS):
        self.address = address
        self.port = port
        self.context = ssl.create_default_context(cafile=certificate)
        self.cookie = cookie

    def ask(self, method, path, value=None, fields=None):
        connection = http.client.HTTPSConnection(self.address, self.port, context=self.context, timeout=20)
        try:
            given = dict(fields or {})
            if self.cookie:
                given["Cookie"] = self.cookie
            connection.request(method, path, body=None if value is None else json.dumps(value), headers=given)
            answer = connection.getresponse()
            return answer.status, json.loads(answer.read()), answer.headers
        finally:
            connection.close()

    def socket(self):
        return self.context.wrap_socket(socket.create_connection((ADDRESS, self.port), timeout=20), server_hostname=ADDRESS)


def first_code(answer):
    return answer[1]["problems"][0]["code"]


def expect_refusal(answer, status, code, what):
    check(answer[0] == status and first_code(answer) == code, f"{what}: {answer[0]} {answer[1]}, wanted {status} {code}")


def pair(server, elsewhere, name):
    """The key's cookie."""
    status, pairing, _ = server.post("/api/pairing", {})
    check(status == 200, f"a code is asked for: {status} {pairing}")
    token = elsewhere.ask("GET", "/api/hello")[1]["token"]
    status, body, fields = elsewhere.ask("POST", "/api/pair", {"code": pairing["code"], "name": name}, {"Fettle-Token": token})
    check(status == 200 and body["device"]["name"] == name, f"paired: {status} {body}")
    return pairing, body["device"], fields.get("Set-Cookie", "")


def expect_encrypted_only(server, certificate):
    with socket.create_connection((ADDRESS, server.port), timeout=10) as client:
        client.sendall(f"GET /api/hello HTTP/1.1\r\nHost: {ADDRESS}:{server.port}\r\n\r\n".encode())
        answer = read_answer(client)
    check(status_of(answer) == 403 and code_of(answer) == "server.needs_tls", f"plain text from elsewhere: {answer[:200]}")
    check(f"https://{ADDRESS}:{server.port}/".encode() in answer, "it is not said how")
    try:
        with ssl.create_default_context().wrap_socket(socket.create_connection((ADDRESS, server.port), timeout=10), server_hostname=ADDRESS):
            check(False, "a certificate that nobody trusts is trusted")
    except ssl.SSLCertVerificationError:
        pass
    old = ssl.create_default_context(cafile=certificate)
    warnings.simplefilter("ignore", DeprecationWarning)
    old.set_ciphers("DEFAULT@SECLEVEL=0")  # so that it is not this side that refuses
    old.minimum_version = old.maximum_version = ssl.TLSVersion.TLSv1_1
    try:
        with old.wrap_socket(socket.create_connection((ADDRESS, server.port), timeout=10), server_hostname=ADDRESS):
            check(False, "an old TLS is spoken")
    except (ssl.SSLError, OSError, ValueError):
        pass


def expect_pairing(server, certificate):
    stranger = Elsewhere(server.port, certificate)
    status, hello, _ = stranger.ask("GET", "/api/hello")
    check(status == 200 and hello["device"] is None and hello["loopback"] is False and hello["secure"] is True, f"hello from elsewhere: {hello}")
    for path in ("/api/devices", "/api/ports", "/api/live?job=a&device=b"):
        expect_refusal(stranger.ask("GET", path), 401, "server.not_paired", path)
    token = {"Fettle-Token": hello["token"]}
    expect_refusal(stranger.ask("POST", "/api/pairing", {}, token), 401, "server.not_paired", "a code for a stranger")
    expect_refusal(stranger.ask("POST", "/api/pair", {"code": "0" * 32, "name": "x"}), 403, "server.token", "pairing without a token")
    expect_refusal(stranger.ask("POST", "/api/pair", {"code": "0" * 32, "name": "x"}, token), 401, "server.wrong_code", "a wrong code")

    for name in ("", "x" * 81, "a\nb"):
        expect_refusal(stranger.ask("POST", "/api/pair", {"code": "0" * 32, "name": name}, token), 400, "server.device_name", f"a device called {name!r}")

    pairing, device, cookie = pair(server, stranger, "phone at the bench")
    served = ssl.PEM_cert_to_DER_cert(ssl.get_server_certificate((ADDRESS, server.port)))
    digits = hashlib.sha256(served).hexdigest().upper()
    check(pairing["fingerprint"].replace(":", "") == digits, f"fingerprint: {pairing['fingerprint']}, the certificate served has {digits}")
    check(pairing["address"] == f"https://{ADDRESS}:{server.port}/#/pair/{pairing['code']}/{digits}", pairing["address"])
    check(len(pairing["code"]) == 32 and pairing["minutes"] == 10 and pairing["picture"].startswith("<svg "), str(pairing)[:200])
    for word in ("HttpOnly", "Secure", "SameSite=Strict", "Path=/"):
        check(word in cookie, f"the cookie lacks {word}: {cookie}")
    key = cookie.split(";")[0]
    check(len(key.split("=")[1]) == 64, f"the key is too short: {key}")
    phone = Elsewhere(server.port, certificate, key)
    check(phone.ask("GET", "/api/hello")[1]["device"] == device, "hello knows the device")
    expect_refusal(stranger.ask("POST", "/api/pair", {"code": pairing["code"], "name": "x"}, token), 401, "server.wrong_code", "a used code")
    expect_refusal(phone.ask("POST", "/api/pairing", {}, token), 403, "server.only_here", "a code from elsewhere")
    expect_refusal(phone.ask("POST", "/api/devices/revoke", {"device": device["id"]}), 403, "server.token", "revoking without a token")
    listed = phone.ask("GET", "/api/devices")[1]["devices"]
    check([(each["id"], each["revoked"]) for each in listed] == [(device["id"], False)] and listed[0]["last_seen"], str(listed))
    return phone, device, key


def expect_revoking(server, phone, device, certificate):
    tablet_device, cookie = pair(server, Elsewhere(server.port, certificate), "tablet")[1:]
    tablet = Elsewhere(server.port, certificate, cookie.split(";")[0])
    stream = Listening(phone.socket(), "job=a&device=b", f"Cookie: {phone.cookie}\r\n")
    other = Listening(tablet.socket(), "job=a&device=c", f"Cookie: {tablet.cookie}\r\n")
    check(stream.begun.wait(5) and other.begun.wait(5) and b" 200 " in stream.head, f"streams of devices: {stream.head[:80]}")
    status, body, _ = server.post("/api/devices/revoke", {"device": device["id"]})
    check(status == 200 and [each["revoked"] for each in body["devices"]] == [True, False], f"revoked: {body}")
    check(stream.ended.wait(3), "a revoked device goes on listening")
    expect_refusal(phone.ask("GET", "/api/devices"), 401, "server.not_paired", "a revoked key")
    check(tablet.ask("GET", "/api/devices")[0] == 200 and not other.ended.is_set(), "another device is not touched")
    expect_refusal(server.post("/api/devices/revoke", {"device": "p-none"}), 404, "server.no_such_device", "revoking nobody")
    return tablet, tablet_device


def expect_limits(server, certificate):
    """Last, because this address is then told to wait."""
    held = [socket.create_connection((ADDRESS, server.port), timeout=5) for _ in range(140)]
    time.sleep(0.5)
    closed = 0
    for client in held:
        client.setblocking(False)
        try:
            closed += client.recv(1) == b""
        except BlockingIOError:
            pass
        except OSError:
            closed += 1
        client.close()
    check(12 <= closed <= 30, f"of 140 connections of one address {closed} were closed")
    check(server.get("/api/hello")[0] == 200, "this machine is served all the same")
    time.sleep(0.3)
    guesser = Elsewhere(server.port, certificate, "__Host-fettle-key=" + "0" * 64)
    answers = [guesser.ask("GET", "/api/devices")[0] for _ in range(12)]
    check(answers[:9] == [401] * 9 and answers[-1] == 429, f"wrong keys: {answers}")
    guesser.cookie = None
    token = guesser.ask("GET", "/api/hello")[1]["token"]
    expect_refusal(guesser.ask("POST", "/api/pair", {"code": "0" * 32, "name": "x"}, {"Fettle-Token": token}), 429, "server.too_many_wrong_keys", "codes after wrong keys")
    check(server.get("/api/devices")[0] == 200, "this machine need not wait")


def expect_own_files(program, keys):
    for name, mode in (("", 0o700), ("/key.pem", 0o600), ("/certificate.pem", 0o600)):
        check(stat.S_IMODE(os.stat(keys + name).st_mode) == mode, f"mode of {keys}{name}")
    with Served(program, "--open-to", "0.0.0.0", "--certificate", keys + "/certificate.pem", "--key", keys + "/key.pem", "--name", "shop.test") as server:
        check(not os.path.exists(server.record + ".keys"), "a key of its own is made though one was given")
        check(Elsewhere(server.port, keys + "/certificate.pem").ask("GET", "/api/hello")[0] == 200, "on all addresses, with a certificate that was given")
        check(server.get("/api/hello", {"Host": "shop.test"})[0] == 200 and server.get("/api/hello", {"Host": "other.test"})[0] == 421, "names that were given")
        check(f"https://{ADDRESS}:{server.port}/" in server.said[0], f"said {server.said}")
    with Served(program) as server:
        expect_refusal(server.post("/api/pairing", {}), 409, "server.not_open", "pairing with a closed server")
        try:
            socket.create_connection((ADDRESS, server.port), timeout=2).close()
            check(False, "open to others without being told so")
        except OSError:
            pass


def expect_version_six(program):
    """Addresses of both versions, with one certificate for all of them."""
    with Served(program, "--open-to", "::") as server:
        for address in (ADDRESS, ADDRESS_SIX):
            status, hello, _ = Elsewhere(server.port, server.record + ".keys/certificate.pem", address=address).ask("GET", "/api/hello")
            check(status == 200 and hello["loopback"] is False, f"hello at {address}: {status} {hello}")
        check(server.get("/api/hello")[1]["loopback"] is True, "this machine is known in both versions")


def expect_refused_starts(program, keys):
    folder = new_folder()
    # In this order: server.open_to_itself, server.no_address (twice), server.certificate_and_key, server.no_name, server.cannot_listen, server.bad_certificate,
    # server.gauge_option, entry.template_field.
    for options, wanted in ((["--open-to", "127.0.0.1"], "this machine itself"),
                            (["--open-to", "shop.local"], "no address in figures"), (["--open-to", "10.0.0.5,DNS:tern.example"], "no address in figures"), (["--certificate", keys + "/certificate.pem"], "of no use without its key"),
                            (["--name", "a:1"], "no name of a machine"), (["--open-to", "10.99.0.1"], "Nobody can be served at 10.99.0.1"),
                            (["--certificate", keys + "/key.pem", "--key", keys + "/key.pem"], "cannot be used together"),
                            (["--gauge", "G2"], "does not say where a gauge is"), (["--gauge", "g=/dev/x,9600,{value}"], "no field {value}")):
        done = subprocess.run([program, "serve", "--record", folder + "/x.fettle", "--port", "0", *options], capture_output=True, text=True, timeout=20, check=False)
        check(done.returncode in (2, 3) and wanted in done.stderr and not done.stdout, f"{options}: {done.returncode} {done.stderr}")
    os.symlink(keys, folder + "/y.fettle.keys")
    done = subprocess.run([program, "serve", "--record", folder + "/y.fettle", "--port", "0", "--open-to", ADDRESS], capture_output=True, text=True, timeout=20, check=False)
    check(done.returncode == 2 and "cannot be kept" in done.stderr, f"a folder of keys that leads elsewhere: {done.returncode} {done.stderr}")  # server.cannot_keep_key


def main():
    enter_own_network()
    make_network()
    program = sys.argv[1]
    with Served(program, "--open-to", ADDRESS) as server:
        keys = server.record + ".keys"
        certificate = keys + "/certificate.pem"
        printed = server.said[2].split("/#/pair/")[1].split("/")[0]
        expect_encrypted_only(server, certificate)
        phone, device, key = expect_pairing(server, certificate)
        tablet, tablet_device = expect_revoking(server, phone, device, certificate)
        token = tablet.ask("GET", "/api/hello")[1]["token"]
        status, _, _ = Elsewhere(server.port, certificate).ask("POST", "/api/pair", {"code": printed, "name": "laptop"}, {"Fettle-Token": token})
        check(status == 200, f"the code that was printed: {status}")
        server.end(signal.SIGKILL)
        record = server.record
    before = open(certificate, "rb").read()
    with Served(program, "--open-to", ADDRESS, record=record) as server:
        check(open(certificate, "rb").read() == before, "a new certificate, though the old one holds")
        tablet.port = phone.port = server.port
        check(tablet.ask("GET", "/api/hello")[1]["device"] == tablet_device, "a device is known after the server was killed")
        expect_refusal(phone.ask("GET", "/api/devices"), 401, "server.not_paired", "a revoked device after the server was killed")
        expect_limits(server, certificate)
    secret = key.split("=")[1].encode()
    for name in os.listdir(os.path.dirname(record)):
        path = os.path.join(os.path.dirname(record), name)
        check(os.path.isdir(path) or secret not in open(path, "rb").read(), f"{name} holds the key itself")
    expect_own_files(program, keys)
    expect_version_six(program)
    expect_refused_starts(program, keys)
    return report()


sys.exit(main())

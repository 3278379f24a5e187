"""The built program as the checks run it, and what they found wrong."""

import json
import subprocess

FAILURES = []


def check(holds, what):
    if not holds:
        FAILURES.append(what)


class Program:
    """The built program; every run is checked for its exit code."""

    def __init__(self, path):
        self.path = path

    def run(self, arguments, wanted_exit):
        """Standard output. The exit code has to be `wanted_exit`, or one of them."""
        wanted = wanted_exit if isinstance(wanted_exit, set) else {wanted_exit}
        done = subprocess.run([self.path, *arguments], capture_output=True, timeout=120, check=False)
        name = "fettle " + " ".join(arguments)
        check(done.returncode in wanted, f"{name}: exit {done.returncode}, wanted {wanted_exit}: {done.stderr.decode()}")
        return done.stdout.decode("utf-8")

    def documents(self, arguments, wanted_exit):
        """Every JSON value of the output, one behind the other."""
        text = self.run(arguments, wanted_exit)
        decoder = json.JSONDecoder(object_pairs_hook=no_key_twice)
        out = []
        while text.strip():
            text = text.lstrip()
            value, end = decoder.raw_decode(text)
            out.append(value)
            text = text[end:]
        return out


def no_key_twice(pairs):
    keys = [key for key, _ in pairs]
    check(len(keys) == len(set(keys)), f"a key stands twice in {keys}")
    return dict(pairs)


def report():
    """The exit code of a check: prints the first failures and their number."""
    for failure in FAILURES[:40]:
        print(failure)
    print(f"failures: {len(FAILURES)}")
    return 1 if FAILURES else 0

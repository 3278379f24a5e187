"""Runs the built program and holds everything it writes as JSON against src/wire/schemas.

check_schemas.py <fettle> <root of the repository>
Ends with 0 if every output fits its schema, and every schema refuses what was spoilt on purpose.
"""

import json
import pathlib
import subprocess
import sys
import tempfile

from schema_checks import Schemas, closed_objects, spoilt, without_one_key

FAILURES = []


def check(holds, what):
    if not holds:
        FAILURES.append(what)


class Program:
    """The built program; every run is checked for its exit code."""

    def __init__(self, path):
        self.path = path

    def run(self, arguments, wanted_exit):
        done = subprocess.run([self.path, *arguments], capture_output=True, timeout=120, check=False)
        name = "fettle " + " ".join(arguments)
        check(done.returncode == wanted_exit, f"{name}: exit {done.returncode}, wanted {wanted_exit}: {done.stderr.decode()}")
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


def fits(schemas, name, value, what):
    for problem in schemas.problems(name, value):
        check(False, f"{what} does not fit {name}: {problem}")


def refuses_spoilt(schemas, name, value, what):
    """Every object of the value in turn with a key too many and with a value of another kind."""
    for how, broken in spoilt(value):
        check(not schemas.fits(name, broken), f"{name} lets through {what} with {how}")


def refuses_without(schemas, name, value, what, may_be_left_out=()):
    """Every object of the value in turn without one of its keys."""
    for key, broken in without_one_key(value):
        if key not in may_be_left_out:
            check(not schemas.fits(name, broken), f"{name} lets through {what} without {key}")


def check_schema_files(schemas):
    wanted = {"judgement", "problems", "typed-quantity", "definitions", "event", "simulation"}
    check(set(schemas.names()) == wanted, f"schemas: {sorted(schemas.names())}")
    for name in schemas.names():
        schemas.check_itself(name)
        for place in closed_objects(schemas.schema(name)):
            check(False, f"{name}: the object at {place} lets unknown keys through")


def check_judgements(program, schemas, root):
    runs = [["curlew-3"], ["curlew-3", "--rule", "reading"], ["curlew-3", "--level", "0.99"], ["curlew-3-set-afresh"]]
    for folder, *options in runs:
        [written] = program.documents(["judge", str(root / "examples" / folder), "--json", *options], 1)
        fits(schemas, "judgement", written, f"judge {folder} {options}")
    [written] = program.documents(["judge", str(root / "examples/curlew-3"), "--json"], 1)
    # Three bores with four heights and two directions, and one reading that was taken again: 25. Piston 1 is the fourth part.
    check(written["job"]["readings"] == 25, f"readings: {written['job']['readings']}")
    check([part["id"] for part in written["parts"]] == ["bore-1", "bore-2", "bore-3", "piston-1"], "parts of curlew-3")
    short = pruned(written)
    refuses_spoilt(schemas, "judgement", short, "a judgement")
    # Top keys without their insides: what else may be left out hangs on the readings.
    for key in written:
        check(not schemas.fits("judgement", {each: short[each] for each in short if each != key}), f"a judgement without {key}")


def pruned(value):
    """The same with at most two items of each list, so that spoiling it everywhere stays quick."""
    if isinstance(value, dict):
        return {key: pruned(each) for key, each in value.items()}
    if isinstance(value, list):
        return [pruned(each) for each in value[:2]]
    return value


def changed_folder(root, into, change):
    for name in ("job.toml", "readings.csv"):
        text = (root / "examples/curlew-3" / name).read_text(encoding="utf-8")
        (into / name).write_text(change(name, text), encoding="utf-8")


def check_refusals(program, schemas, root):
    with tempfile.TemporaryDirectory() as made:
        folder = pathlib.Path(made)
        changes = {
            "job.kind_unknown": lambda name, text: text.replace('"cylinder-bore"', '"cylinder-boar"'),
            "document.syntax": lambda name, text: text + ("[[part\n" if name == "job.toml" else ""),
            "job.flag_unknown": lambda name, text: text.replace("deposit", "rust"),
        }
        for code, change in changes.items():
            changed_folder(root, folder, change)
            [written] = program.documents(["judge", str(folder), "--json"], 2)
            fits(schemas, "problems", written, code)
            check(code in [each["code"] for each in written["problems"]], f"no {code} in {written}")
            refuses_spoilt(schemas, "problems", pruned(written), code)
            refuses_without(schemas, "problems", pruned(written), code, may_be_left_out={"file", "line", "column"})
    [written] = program.documents(["judge", str(root / "no-such-folder"), "--json"], 2)
    fits(schemas, "problems", written, "no folder")


def check_simulations(program, schemas):
    asked = ["simulate", "--engines", "20", "--exact", "6", "--family", "exp", "--family", "few-mid-missing", "--family", "one-sleeve",
             "--hand", "mid", "--json"]
    [written] = program.documents(asked, 0)
    fits(schemas, "simulation", written, "a simulation")
    check([each["family"] for each in written["families"]] == ["exp", "few-mid-missing", "one-sleeve"], "families in the order asked for")
    # A sleeve at a random place has no exact posterior; the others have.
    check(["with_exact" in each for each in written["families"]] == [True, True, False], "exact posteriors")
    check(all(each["scores"]["engines"] == 20 for each in written["families"]), "engines of each family")
    refuses_spoilt(schemas, "simulation", pruned(written), "a simulation")
    check(program.run([*asked, "--threads", "2"], 0) == program.run(asked, 0), "one and two threads write different bytes")
    [refused] = program.documents(["simulate", "--family", "no-such-family", "--json"], 2)
    fits(schemas, "problems", refused, "an unknown family")


def check_quantities(program, schemas):
    texts = ["84.02 mm", "3.307 in", "2-1/32 in", "31 cw", "31 acw", "0 div", "68.0 °F", "40 lbf ft", "30 psi", "1.5 L", "45°", "7 turns",
             "250 g", "30 min", "4 kN", "12 thou", "0.5 µm"]
    written = program.documents(["understand", "--json", "--decimal-mark", "point", *texts], 0)
    check([each["text"] for each in written] == texts, f"texts: {[each['text'] for each in written]}")
    check(len({each["dimension"] for each in written}) == 11, "every dimension is asked for")
    for each in written:
        fits(schemas, "typed-quantity", each, each["text"])
        refuses_spoilt(schemas, "typed-quantity", each, each["text"])
        refuses_without(schemas, "typed-quantity", each, each["text"], may_be_left_out={"needle"})
    # 3.307 in is 3.307 x 25.4 mm.
    check(written[1]["mm"] == "83.9978000" and written[1]["numerator"] == "3307", f"3.307 in: {written[1]}")
    for wrong in ({"unit": "kg"}, {"dimension": "mass"}, {"numerator": "+1"}, {"denominator": "0"}, {"mm": "84.02"}, {"decimals": 19}):
        check(not schemas.fits("typed-quantity", {**written[0], **wrong}), f"a quantity with {wrong} is let through")
    for text in ("84.02", "31", "furlong", "1e3 mm"):
        [refused] = program.documents(["understand", "--json", text], 2)
        fits(schemas, "problems", refused, text)


def check_definitions(program, schemas):
    [written] = program.documents(["definitions", "--json"], 0)
    fits(schemas, "definitions", written, "definitions")
    ids = {each["id"] for each in written["definitions"]}
    check({"size-1", "oor-1", "tap-5", "tap-7"} <= ids, f"definitions: {sorted(ids)}")
    refuses_spoilt(schemas, "definitions", pruned(written), "definitions")
    refuses_without(schemas, "definitions", pruned(written), "definitions")


def check_events(program, schemas, root):
    for folder in ("curlew-3", "curlew-3-set-afresh"):
        lines = program.run(["events", str(root / "examples" / folder)], 0).split("\n")
        check(lines.pop() == "", f"{folder}: the last line has no end")
        events = [json.loads(line, object_pairs_hook=no_key_twice) for line in lines]
        for number, event in enumerate(events, start=1):
            fits(schemas, "event", event, f"{folder}, event {number}")
            check(event["device_sequence"] == number, f"{folder}: event {number} has sequence {event['device_sequence']}")
    # One of every type with all its keys, and one with none that may be left out; the unit tests read and write the same file.
    kept = (root / "tests/cli/event_lines_v1.jsonl").read_bytes().decode("utf-8").split("\n")[:-1]
    events = [json.loads(line) for line in kept]
    check(len({event["type"] for event in events}) == 10 and len(events) == 20, "two lines of each of ten types")
    for event in events:
        fits(schemas, "event", event, f"kept {event['type']}")
        refuses_spoilt(schemas, "event", event, f"kept {event['type']}")
    for event in events[10:]:
        refuses_without(schemas, "event", event, f"bare {event['type']}")
    step = events[3]["payload"]["step"]
    for wrong in ({**step, "kind": "standard"}, {key: step[key] for key in step if key != "offset"}):
        part = {**events[3], "payload": {**events[3]["payload"], "step": wrong}}
        check(not schemas.fits("event", part), f"a part with the step {wrong} is let through")
    for wrong in ({"type": "reading-guessed"}, {"version": 2}, {"type": "rule-chosen"}, {"id": "e1"}):
        check(not schemas.fits("event", {**events[7], **wrong}), f"an event with {wrong} is let through")


def main():
    program = Program(sys.argv[1])
    root = pathlib.Path(sys.argv[2])
    schemas = Schemas(root / "src/wire/schemas")
    check_schema_files(schemas)
    check_judgements(program, schemas, root)
    check_refusals(program, schemas, root)
    check_quantities(program, schemas)
    check_definitions(program, schemas)
    check_simulations(program, schemas)
    check_events(program, schemas, root)
    for failure in FAILURES[:40]:
        print(failure)
    print(f"failures: {len(FAILURES)}")
    return 1 if FAILURES else 0


sys.exit(main())

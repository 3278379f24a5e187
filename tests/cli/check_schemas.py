"""Runs the built program and holds everything it writes as JSON against src/wire/schemas.

check_schemas.py <fettle> <root of the repository>
Ends with 0 if every output fits its schema, and every schema refuses what was spoilt on purpose.
"""

import json
import pathlib
import sys
import tempfile

from program import Program, check, no_key_twice, report
from schema_checks import Schemas, closed_objects, page_schemas, spoilt, unseen, without_one_key

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


def check_schema_files(schemas, root):
    wanted = {"judgement", "problems", "typed-quantity", "definitions", "event", "simulation", "guided", "setting-up", "kinds", "iso-fit", "gauge-study", "thumb", "sheet-proof", "sheet-change",
              "bundle-manifest", "found-jobs", "verified-record", "judged-all", "part-history", "readings", "verdicts"}
    # Those of the answers to the page are held by check_openapi.py.
    check(set(schemas.names()) - set(page_schemas(root)) == wanted, f"schemas: {sorted(schemas.names())}")
    for name in schemas.names():
        schemas.check_itself(name)
        for place in closed_objects(schemas.schema(name)):
            check(False, f"{name}: the object at {place} lets unknown keys through")


def check_judgements(program, schemas, root):
    runs = [
        ("examples/curlew-3", [], 1),
        ("examples/curlew-3", ["--rule", "reading"], 1),
        ("examples/curlew-3", ["--level", "0.99"], 1),
        ("examples/curlew-3", ["--all-definitions", "--chance-error", "0.01", "--draws", "64"], 1),
        ("examples/curlew-3-set-afresh", [], 1),
        ("tests/cli/jobs/another-size", [], 1),
        ("tests/cli/jobs/another-size-unread", [], 1),
        ("tests/cli/jobs/blunder", [], 1),
        ("tests/cli/jobs/bore-and-piston", [], 1),
        ("tests/cli/jobs/by-thumb", [], 1),
        ("tests/cli/jobs/every-kind", [], 1),
        ("tests/cli/jobs/found-out", [], 1),
        ("tests/cli/jobs/from-the-book", [], 1),
        ("tests/cli/jobs/mid-unread", [], 1),
        ("tests/cli/jobs/mid-unread", ["--all-definitions"], 1),
        ("tests/cli/jobs/six-directions", [], 0),
    ]
    judged = {}
    for folder, options, wanted_exit in runs:
        [written] = program.documents(["judge", str(root / folder), "--json", *options], wanted_exit)
        fits(schemas, "judgement", written, f"judge {folder} {options}")
        judged.setdefault(written["job"]["id"] + (" beside" if "--all-definitions" in options else ""), written)
    written = judged["tern-curlew-3"]
    # Three bores with four heights and two directions, and one reading that was taken again: 25. Piston 1 is the fourth part.
    check(written["job"]["readings"] == 25, f"readings: {written['job']['readings']}")
    check([part["id"] for part in written["parts"]] == ["bore-1", "bore-2", "bore-3", "piston-1"], "parts of curlew-3")
    short = {name: pruned(judged[name]) for name in ("tern-curlew-3", "mid-unread beside", "another-size-unread", "blunder", "bore-and-piston", "bittern-4", "every-kind", "found-out", "tern-from-the-book", "mid-unread", "six-directions")}
    for place in unseen(schemas, "judgement", short.values()):
        check(False, f"no judgement that is checked here has {place}")
    for name, each in short.items():
        refuses_spoilt(schemas, "judgement", each, f"the judgement of {name}")
    # Top keys without their insides: what else may be left out hangs on the readings.
    for key in written:
        rest = {each: written[each] for each in written if each != key}
        check(not schemas.fits("judgement", rest), f"a judgement without {key}")


def key_paths(value, path=()):
    """Every key that lies in a value, with the keys above it."""
    if isinstance(value, dict):
        return {(*path, key) for key in value}.union(*(key_paths(each, (*path, key)) for key, each in value.items()))
    if isinstance(value, list):
        return set().union(*(key_paths(each, path) for each in value))
    return set()


def pruned(value):
    """The same with the first item of each list and those after it that hold some key anew, so that spoiling it everywhere stays quick."""
    if isinstance(value, dict):
        return {key: pruned(each) for key, each in value.items()}
    if not isinstance(value, list):
        return value
    kept, seen = [], set()
    for each in value:
        paths = key_paths(each)
        if kept and paths <= seen:
            continue
        kept.append(pruned(each))
        seen |= paths
    return kept


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


def check_sheet_proofs(program, schemas, root):
    [written] = program.documents(["proof-read", str(root / "tests/sheets/traps"), str(root / "tests/sheets/refused"), "--json"], 2)
    fits(schemas, "sheet-proof", written, "the proof of the traps")
    rules = {finding["rule"] for sheet in written["sheets"] for finding in sheet["findings"]}
    check(len(rules) == 14, f"a rule that no trap shows: {sorted(rules)}")
    refuses_spoilt(schemas, "sheet-proof", pruned(written), "the proof of the traps")


def check_sheet_change(program, schemas, root):
    job = str(root / "tests/cli/jobs/from-the-book")
    asked = ["sheet-change", job, str(root / "tests/sheets/written/notes-next.toml"), "--as", "notes", "--json"]
    [written] = program.documents(asked, 0)
    fits(schemas, "sheet-change", written, "the next version of the notes")
    check([each["limit"] for each in written["limits"]] == ["notes.cylinder-bore-wear", "notes.out-of-round-wear-oor-1", "notes.out-of-round-wear-oor-3"], f"{written['limits']}")
    words = [each["other_word"] for each in written["verdicts"]]
    check(words == sorted(words, reverse=True) and any(words), f"other words do not come first: {words}")
    # Nothing else than what the two judgements show.
    [before] = program.documents(["judge", job, "--json"], 1)
    of_before = {(part["id"], verdict["limit"]) for part in before["parts"] for verdict in part["verdicts"]}
    gone = {(each["part"], each["limit"]) for each in written["verdicts"] if "now" not in each}
    check(gone == {pair for pair in of_before if pair[1].startswith("notes.out-of-round")}, f"gone: {sorted(gone)}")
    refuses_spoilt(schemas, "sheet-change", pruned(written), "the next version of the notes")


def check_simulations(program, schemas):
    asked = ["simulate", "--engines", "20", "--exact", "6", "--family", "exp", "--family", "few-mid-missing", "--family", "one-sleeve",
             "--hand", "mid", "--json"]
    [written] = program.documents(asked, 0)
    fits(schemas, "simulation", written, "a simulation")
    check([each["family"] for each in written["families"]] == ["exp", "few-mid-missing", "one-sleeve"], "families in the order asked for")
    # A sleeve at a random place has no exact posterior; the others have.
    check(["with_exact" in each for each in written["families"]] == [True, True, False], "exact posteriors")
    check(all(each["scores"]["engines"] == 20 for each in written["families"]), "engines of each family")
    # One threshold by hindsight is only there if the notebook lost something in every family.
    [other] = program.documents(["simulate", "--engines", "40", "--family", "exp", "--hand", "mid", "--hand", "coarse", "--json"], 0)
    fits(schemas, "simulation", other, "a simulation of two hands")
    check([each["hand"] for each in other["hands"]] == ["mid", "coarse"], "hands in the order asked for")
    for place in unseen(schemas, "simulation", [written, other]):
        check(False, f"no simulation that is checked here has {place}")
    for each in (written, other):
        refuses_spoilt(schemas, "simulation", pruned(each), "a simulation")
    for key in written:
        check(not schemas.fits("simulation", {each: written[each] for each in written if each != key}), f"a simulation without {key}")
    [refused] = program.documents(["simulate", "--family", "no-such-family", "--hand", "sloppy", "--json"], 2)
    fits(schemas, "problems", refused, "an unknown family")
    check({each["code"] for each in refused["problems"]} == {"app.unknown_family", "app.unknown_hand"}, f"not both unknown: {refused}")
    refuses_spoilt(schemas, "problems", refused, "an unknown family")


def check_guided(program, schemas):
    [written] = program.documents(["simulate", "--guided", "--engines", "12", "--family", "exp", "--family", "new", "--hand", "mid", "--json"], 0)
    [priced] = program.documents(["simulate", "--guided", "--minute", "5", "--engines", "12", "--family", "exp", "--hand", "mid", "--json"], 0)
    check(written["share_wanted"] == "0.2500" and "share_wanted" not in priced, "what the price was sought for")
    for each in (written, priced):
        fits(schemas, "guided", each, "guided engines")
        refuses_spoilt(schemas, "guided", pruned(each), "guided engines")
        refuses_without(schemas, "guided", pruned(each), "guided engines", may_be_left_out={"share_wanted", "before", "guided", "notebook_guided", "chances"})


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
    refuses_without(schemas, "definitions", pruned(written), "definitions", may_be_left_out={"kinds"})


def check_kinds(program, schemas, root):
    [all_kinds] = program.documents(["kinds", "--json"], 0)
    [one] = program.documents(["kinds", "cylinder-bore", "--json"], 0)
    [with_own] = program.documents(["kinds", "--json", "--catalogue", str(root / "tests/cli/own-kinds")], 0)
    for what, written in (("all kinds", all_kinds), ("one kind", one), ("kinds of one's own", with_own)):
        fits(schemas, "kinds", written, what)
    check(one["kinds"] == all_kinds["kinds"][:1], "one kind is written as in the list of all")
    check(with_own["kinds"][: len(all_kinds["kinds"])] == all_kinds["kinds"], "own kinds stand behind the built-in ones")
    for kind in all_kinds["kinds"]:
        wear = kind["wear"]
        check(("why_none" in wear) == (wear["pattern"] == "none") and wear["origin"] != "", f"{kind['id']} wears {wear}")
        for name, least in (("how", 4), ("mistakes", 2), ("cautions", 1)):
            check(len(kind[name]) >= least, f"{kind['id']} has {len(kind[name])} {name}")
    for place in unseen(schemas, "kinds", [with_own]):
        check(False, f"no kind that is checked here has {place}")
    short = pruned(with_own)
    refuses_spoilt(schemas, "kinds", short, "kinds")
    refuses_without(schemas, "kinds", short, "kinds", may_be_left_out={"depth", "group", "span", "quantity", "offset", "text", "why_none", "unworn"})
    [refused] = program.documents(["kinds", "gearbox", "--json"], 2)
    fits(schemas, "problems", refused, "an unknown kind")


def check_iso_fits(program, schemas):
    asked = (["H7/g6", "80 mm"], ["P7", "3 mm"], ["js01", "2 mm"], ["ZC8/h18", "499.9 mm"], ["N9/k6", "12.7001 mm"])
    written = [program.documents(["iso-fit", *each, "--json"], 0)[0] for each in asked]
    for each in written:
        fits(schemas, "iso-fit", each, f"iso-fit {each.get('hole')} {each.get('shaft')}")
        refuses_spoilt(schemas, "iso-fit", pruned(each), "an ISO fit")
    refuses_without(schemas, "iso-fit", written[0], "an ISO fit", may_be_left_out={"play"})
    for place in unseen(schemas, "iso-fit", written):
        check(False, f"no ISO fit that is checked here has {place}")
    check(written[0]["play"] == {"sort": "clearance", "least": {"value": "10", "unit": "µm"}, "most": {"value": "59", "unit": "µm"}}, "H7/g6")
    check(written[2]["shaft"]["largest_size"] == {"value": "2.00015", "unit": "mm"}, "every digit of js01")
    [refused] = program.documents(["iso-fit", "j9", "80 mm", "--json"], 2)
    fits(schemas, "problems", refused, "a grade that the letter does not have")


def check_gauge_studies(program, schemas, root):
    study = str(root / "examples/curlew-3/bore-gauge-study.toml")
    asked = ([study], [study, "--person", "Anna"], [str(root / "tests/cli/studies/five-repeats.toml")], [str(root / "tests/cli/studies/apart.toml")])
    written = [program.documents(["gauge-study", *each, "--json"], 0)[0] for each in asked]
    for each in written:
        fits(schemas, "gauge-study", each, f"the study of {each['gauge']}")
        refuses_spoilt(schemas, "gauge-study", pruned(each), "a gauge study")
    may_be_left_out = {"repeats", "division", "tolerance", "by_ranges", "for_job", "person", "people", "interaction", "parts", "total", "categories", "of_tolerance"}
    refuses_without(schemas, "gauge-study", pruned(written[0]), "a gauge study", may_be_left_out=may_be_left_out)
    for place in unseen(schemas, "gauge-study", written):
        check(False, f"no gauge study that is checked here has {place}")
    [refused] = program.documents(["gauge-study", study, "--person", "Clara", "--json"], 2)
    fits(schemas, "problems", refused, "a study of somebody who read nothing")


def check_thumb_offers(program, schemas, root):
    job = str(root / "tests/cli/jobs/by-thumb")
    [offers] = program.documents(["thumb", "--job", job, "--json"], 0)
    [of_pistons] = program.documents(["thumb", "piston", "--job", job, "--json"], 0)
    for what, each in (("offers to a job", offers), ("offers for pistons", of_pistons)):
        fits(schemas, "thumb-offers", each, what)
        for how, broken in spoilt(each):
            may_be_null = how.startswith("None for ") and how.endswith(("/bound", "/figure", "/missing"))
            check(may_be_null or not schemas.fits("thumb-offers", broken), f"thumb-offers lets through {what} with {how}")
        refuses_without(schemas, "thumb-offers", each, what)
    check([each["kind"] for each in of_pistons["kinds"]] == ["piston"], f"offers for pistons: {of_pistons}")
    every = [offer for kind in offers["kinds"] for offer in kind["offers"]]
    check(all((each["bound"] is None) == (each["missing"] is not None) for each in every), "an offer with a figure lacks no size")
    check(not any(each["makers_figure"] or each["accepted"] for each in every), "an offer that counts")
    [refused] = program.documents(["thumb", "gearbox", "--job", job, "--json"], 2)
    fits(schemas, "problems", refused, "offers for a thing that no rule is about")


def check_thumb(program, schemas, root):
    [all_rules] = program.documents(["thumb", "--json"], 0)
    sizes = ["--length", "4.5 in", "--radius", "6 in", "--growth", ".001 in", "--new-size", "2 in"]
    [reckoned] = program.documents(["thumb", "--diameter", "4.000 in", *sizes, "--json"], 0)
    [bore] = program.documents(["thumb", "cylinder-bore", "100 mm", "--json"], 0)
    for what, each in (("all rules", all_rules), ("rules at sizes", reckoned), ("rules about a bore", bore)):
        fits(schemas, "thumb", each, what)
        refuses_spoilt(schemas, "thumb", pruned(each), what)
        refuses_without(schemas, "thumb", pruned(each), what, may_be_left_out={"definition", "figure", "per", "missing"})
    for place in unseen(schemas, "thumb", [all_rules, reckoned]):
        check(False, f"no rule of thumb that is checked here has {place}")
    check([each["id"] for each in reckoned["rules"]] == [each["id"] for each in all_rules["rules"]], "a size leaves no rule out")
    check(all("figure" in each or each["id"].startswith("sleeve-press") for each in reckoned["rules"]), "a rule without figure at all sizes")
    check(bore["rules"][0]["figure"] == {"value": "0.1", "unit": "mm"}, f"wear of a bore of 100 mm: {bore['rules'][0]}")
    check_thumb_offers(program, schemas, root)
    [refused] = program.documents(["thumb", "gearbox", "--json"], 2)
    fits(schemas, "problems", refused, "a thing that no rule is about")


def check_setting_up(program, schemas, root):
    asked = ["set", str(root / "examples/curlew-3"), "--gauge", "bore-gauge", "--json"]
    [written] = program.documents([*asked, "--for", "cylinder-bore"], 0)
    [of_part] = program.documents([*asked, "--for", "bore-1", "--size", "131.3 mm", "--master", "mic-5-6"], 2)
    check(of_part["problems"][0]["code"] == "app.set_unknown_gauge", f"a master that is not there: {of_part}")
    # With an extension, a part by name, and a zero list in its job.
    with tempfile.TemporaryDirectory() as made:
        folder = pathlib.Path(made)
        def change(name, text):
            text = text.replace('opening_zero = "0"', 'opening_zero = ["0", "2 acw", "1 acw"]').replace('"0.2 mm"', '"0.1 mm"')
            return text.replace("outside-micrometer-3-4-in", "outside-micrometer-4-5-in").replace("3.0000 in", "4.0000 in")
        changed_folder(root, folder, change)
        [with_extension] = program.documents(["set", made, "--gauge", "bore-gauge", "--for", "bore-1", "--size", "4.925 in", "--json"], 0)
        # Its events: kit, list of zeros, and a look at the zero are no part of the frozen lines.
        def with_check(name, text):
            text = change(name, text)
            return text.replace("[[limit]]", '[[setting.check]]\nafter_order = 12\nshows = "1 acw"\n\n[[limit]]', 1)
        changed_folder(root, folder, with_check)
        events = [json.loads(line) for line in program.run(["events", made], 0).split("\n")[:-1]]
        [gauge] = [each for each in events if each["type"] == "gauge-registered" and "kit" in each["payload"]]
        [setting] = [each for each in events if each["type"] == "setting-made"]
        check(len(setting["payload"]["opening_zeros"]) == 3 and len(setting["payload"]["checks"]) == 1, f"zeros and checks: {setting}")
        for each in (gauge, setting):
            fits(schemas, "event", each, each["type"])
            refuses_spoilt(schemas, "event", pruned(each), each["type"])
    all_of_them = [written, with_extension]
    for each in all_of_them:
        fits(schemas, "setting-up", each, "setting up")
        refuses_spoilt(schemas, "setting-up", pruned(each), "setting up")
    for key in ("gauge", "master", "kind", "wanted", "master_setting", "zero", "rule", "step_known", "pointers", "format", "version"):
        check(not schemas.fits("setting-up", {each: written[each] for each in written if each != key}), f"setting up without {key}")
    for place in unseen(schemas, "setting-up", all_of_them):
        # Every preset states its spreads as exactly known, so that one reading has no degrees of freedom.
        check(place == "#/$defs/doubt/degrees_of_freedom", f"no setting up that is checked here has {place}")
    check(written["master_setting"]["thimble"]["nearest"]["shown"] == {"value": "3.3070", "unit": "in"}, "the thimble of the demo")
    check(written["master_setting"]["off"] == {"value": "-2.2", "unit": "µm"}, "how far the demo is set from nominal")


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
    check(len({event["type"] for event in events}) == 22 and len(events) == 44, "two lines of each of twenty-two types")
    for event in events:
        fits(schemas, "event", event, f"kept {event['type']}")
        refuses_spoilt(schemas, "event", event, f"kept {event['type']}")
    for event in events[22:]:
        refuses_without(schemas, "event", event, f"bare {event['type']}")
    step = events[3]["payload"]["step"]
    for wrong in ({**step, "kind": "standard"}, {key: step[key] for key in step if key != "offset"}):
        part = {**events[3], "payload": {**events[3]["payload"], "step": wrong}}
        check(not schemas.fits("event", part), f"a part with the step {wrong} is let through")
    for wrong in ({"type": "reading-guessed"}, {"version": 2}, {"type": "rule-chosen"}, {"id": "e1"}):
        check(not schemas.fits("event", {**events[7], **wrong}), f"an event with {wrong} is let through")


NULLABLE = ("decimal_mark", "said", "question", "offer", "understood", "spoken")


def refuses_spoilt_but_null(schemas, name, value, what):
    for how, broken in spoilt(value):
        if not ("None for" in how and how.endswith(NULLABLE)):
            check(not schemas.fits(name, broken), f"{name} lets through {what} with {how}")


def check_acts(schemas, root):
    """What a device may send, and the replies that the server's tests recorded, by their format."""
    for seed in sorted((root / "tests/fuzz/seeds/acts").iterdir()):
        asked = json.loads(seed.read_text(encoding="utf-8"))
        name = "acts" if "acts" in asked else "new-engine-asked"
        fits(schemas, name, asked, seed.name)
        refuses_spoilt_but_null(schemas, name, asked, seed.name)
    reading = json.loads((root / "tests/fuzz/seeds/acts/reading").read_text(encoding="utf-8"))["acts"][0]
    asked = {key: reading[key] for key in reading if key not in ("id", "device", "sequence", "made_at", "who", "act")}
    fits(schemas, "understood-asked", asked, "a text that is asked about")
    check(not schemas.fits("understood-asked", reading), "understood-asked lets an act through")
    seen = set()
    for reply in sorted((root / "tests/http/replies").glob("*.json")):
        written = json.loads(reply.read_text(encoding="utf-8"), object_pairs_hook=no_key_twice)
        name = written["format"].removeprefix("fettle-")
        if name not in ("kept", "understood", "new-engine"):
            continue
        seen.add(name)
        fits(schemas, name, written, reply.name)
        refuses_spoilt_but_null(schemas, name, json.loads(reply.read_text(encoding="utf-8")), reply.name)
        refuses_without(schemas, name, json.loads(reply.read_text(encoding="utf-8")), reply.name)
    check(seen == {"kept", "understood", "new-engine"}, f"replies recorded: {sorted(seen)}")


def main():
    program = Program(sys.argv[1])
    root = pathlib.Path(sys.argv[2])
    schemas = Schemas(root / "src/wire/schemas")
    check_schema_files(schemas, root)
    check_judgements(program, schemas, root)
    check_refusals(program, schemas, root)
    check_quantities(program, schemas)
    check_definitions(program, schemas)
    check_kinds(program, schemas, root)
    check_sheet_proofs(program, schemas, root)
    check_sheet_change(program, schemas, root)
    check_iso_fits(program, schemas)
    check_gauge_studies(program, schemas, root)
    check_thumb(program, schemas, root)
    check_simulations(program, schemas)
    check_guided(program, schemas)
    check_setting_up(program, schemas, root)
    check_events(program, schemas, root)
    check_acts(schemas, root)
    return report()


sys.exit(main())

"""Exports every job folder and reads what was written with readers that are not ours.

check_export.py <fettle> <root of the repository>
Ends with 0 if each exported folder judges as the first did, to the byte; if exporting it again writes the same bytes; and if the csv module
of Python finds in the tables what stands in the JSON, which fits the schema beside it.
"""

import csv
import json
import pathlib
import sys
import tempfile

from program import Program, check, report
from schema_checks import Schemas, spoilt, unseen, without_one_key

# Folders with kinds of their own, and where these are told.
CATALOGUES = {"own-kind": "own-kinds", "trade-kinds": "trade-kinds"}
TABLES = ("readings", "verdicts")
NEEDED = {
    "readings": {"event", "part", "as_typed", "unit", "setting"},
    "verdicts": {"part", "kind", "limit", "definition", "role", "side", "bound_as_typed", "rule_of_thumb", "word", "rule"},
}


def job_folders(root):
    all_of_them = [*(root / "examples").iterdir(), *(root / "tests/cli/jobs").iterdir()]
    return sorted(each for each in all_of_them if each.name != "curlew-3-mistakes")


def text_of(path):
    return path.read_bytes().decode("utf-8")


def check_same_job(program, options, first, second):
    before = program.run([*options, "judge", str(first), "--json"], {0, 1})
    after = program.run([*options, "judge", str(second), "--json"], {0, 1})
    check(before == after, f"{first.name} is judged otherwise after it was written anew")
    check(not text_of(second / "job.toml").startswith("# Left out"), f"{first.name}: something was left out")


def check_written_again(program, options, written, again):
    program.run([*options, "export", str(written), "--out", str(again)], 0)
    names = sorted(each.name for each in written.iterdir())
    check(names == sorted(each.name for each in again.iterdir()), f"{written.name}: other files at the second time")
    for name in names:
        check((written / name).read_bytes() == (again / name).read_bytes(), f"{written.name}/{name} differs when it is written again")


def guarded(column, text):
    """As a table has a text of the JSON: what would be a formula gets an apostrophe, if a person may have written it."""
    free = {"part", "kind", "position", "station", "direction", "setting", "gauge", "master", "round", "note", "who", "when", "limit",
            "definition", "book", "edition", "page", "decision", "stations", "directions"}
    return "'" + text if column in free and text[:1] in "=+-@\t\r\n" and text else text


def check_table(folder, name, mark, separator):
    with open(folder / f"{name}-table.csv", encoding="utf-8", newline="") as file:
        rows = list(csv.reader(file, delimiter=separator, strict=True))
    columns, rows = rows[0], rows[1:]
    wanted = json.loads(text_of(folder / f"{name}.json"))[name]
    schema = json.loads(text_of(folder / f"{name}.schema.json"))["$defs"]["row"]["properties"]
    check(columns == list(schema), f"{folder.name}: columns of {name} are not those of the schema, in its order")
    check(len(rows) == len(wanted), f"{folder.name}: {len(rows)} rows and {len(wanted)} {name}")
    for row, values in zip(rows, wanted):
        check(len(row) == len(columns), f"{folder.name}: a row of {len(row)} cells")
        for column, cell in zip(columns, row):
            text = str(values.get(column, ""))
            if "decimal" in schema[column].get("$ref", ""):
                text = text.replace(".", mark)
            check(cell == guarded(column, text), f"{folder.name}: {name} {column}: {cell!r}, wanted {text!r}")
    return wanted


def check_formulas(program, root, made):
    """Notes that a spreadsheet would reckon with are text in the tables, and as they were in the JSON; typed signs stay."""
    folder = made / "formulas"
    folder.mkdir()
    job = text_of(root / "examples/curlew-3/job.toml").replace('opening_zero = "0"', 'opening_zero = "0"\nplus_means = "anticlockwise"', 1)
    (folder / "job.toml").write_text(job, encoding="utf-8")
    notes = ["=1+1", "@SUM(A1)", "+1", "-1", "plain", "a \"b\", c;\nd"]
    lines = ["part,station,direction,reading,setting,note"]
    lines += [f'bore-{bore},{station},thrust,+{31 + bore},first,"{note.replace(chr(34), chr(34) * 2)}"'
              for (bore, station), note in zip([(b, s) for b in (1, 2, 3) for s in ("top", "bottom")], notes)]
    (folder / "readings.csv").write_text("\n".join(lines) + "\n", encoding="utf-8")
    for mark, separator in ((".", ","), (",", ";")):
        out = made / f"formulas-out-{len(separator + mark)}-{ord(mark)}"
        program.run(["export", str(folder), "--out", str(out), "--decimal-mark", "comma" if mark == "," else "point"], 0)
        readings = check_table(out, "readings", mark, separator)
        check(sorted(each["note"] for each in readings) == sorted(notes), f"notes: {readings}")
        table = text_of(out / "readings-table.csv")
        check("'=1+1" in table and "'@SUM(A1)" in table and "'plain" not in table, "apostrophes before formulas alone")
        check(all(each["as_typed"].startswith("+3") for each in readings) and "'+3" not in table, "typed signs stay")


def main():
    program = Program(sys.argv[1])
    root = pathlib.Path(sys.argv[2])
    schemas = Schemas(root / "src/wire/schemas")
    kept = {name: [] for name in TABLES}
    with tempfile.TemporaryDirectory() as folder:
        made = pathlib.Path(folder)
        folders = job_folders(root)
        check(len(folders) >= 14, f"only {len(folders)} job folders")
        for job in folders:
            options = ["--catalogue", str(root / "tests/cli" / CATALOGUES[job.name])] if job.name in CATALOGUES else []
            program.run([*options, "export", str(job), "--out", str(made / job.name)], 0)
            check_same_job(program, options, job, made / job.name)
            check_written_again(program, options, made / job.name, made / (job.name + "-again"))
            for name in TABLES:
                check_table(made / job.name, name, ".", ",")
                check(text_of(made / job.name / f"{name}.schema.json") == text_of(root / f"src/wire/schemas/{name}.schema.json"), "the schema beside")
                value = json.loads(text_of(made / job.name / f"{name}.json"))
                for problem in schemas.problems(name, value):
                    check(False, f"{job.name}/{name}.json: {problem}")
                kept[name].append(value)
        check_formulas(program, root, made)
    for name in TABLES:
        for place in unseen(schemas, name, kept[name]):
            # No job that is kept here says when, at which temperature a reading was taken, has a ratio judged by the shape model, or
            # holds a correction (a folder has none); the unit tests do.
            may_be_missing = {f"#/$defs/row/{key}" for key in ("corrected_by", "who", "when", "temperature", "temperature_celsius", "decision", "other_best")}
            check(place in may_be_missing, f"no {name} that are checked here have {place}")
        short = {**kept[name][0], name: kept[name][0][name][:2]}
        for how, broken in spoilt(short):
            check(not schemas.fits(name, broken), f"{name} let through {how}")
        for key, broken in without_one_key(short):
            if key in NEEDED[name] | {"format", "version", name}:
                check(not schemas.fits(name, broken), f"{name} without {key}")
    return report()


sys.exit(main())

"""What `fettle simulate` promises beyond its tables: the same bytes with any number of threads, engines that can be judged, and the
examples of the documents.

check_simulate.py <fettle> <root of the repository>
"""

import json
import pathlib
import re
import sys
import tempfile

from program import Program, check, report

THREE = ["--family", "exp", "--family", "few-mid-missing", "--family", "one-sleeve"]


def check_threads(program):
    asked = ["simulate", "--engines", "40", "--exact", "4", *THREE, "--json"]
    one = program.run([*asked, "--threads", "1"], 0)
    for threads in ("2", "5"):
        check(program.run([*asked, "--threads", threads], 0) == one, f"1 and {threads} threads write different bytes")
    # The comparison can fail: other engines are other bytes, and not by the printed seed alone.
    other = json.loads(program.run([*asked, "--seed", "2"], 0))
    check(other["families"] != json.loads(one)["families"], "another seed makes the same engines")


def check_written(program, folder):
    """Written engines are whole job folders; nothing of the truth stands where it is judged."""
    written = program.run(["simulate", "--engines", "2", *THREE, "--write", str(folder)], 0).splitlines()
    check([pathlib.Path(each).name for each in written] == [f"{family}-mid-{n}" for family in THREE[1::2] for n in range(2)], f"{written}")
    for each in map(pathlib.Path, written):
        check({file.name for file in each.iterdir()} == {"job.toml", "readings.csv", "truth.csv"}, f"files of {each.name}")
        judged = program.run(["judge", str(each), "--json"], {0, 1})
        check(len(json.loads(judged)["parts"]) == 4, f"{each.name}: {judged[:200]}")
        (each / "truth.csv").unlink()
        check(program.run(["judge", str(each), "--json"], {0, 1}) == judged, f"{each.name}: the truth is read when it is judged")
    program.run(["simulate", "--engines", "2", *THREE, "--write", str(folder)], 2)
    report_there = json.loads(program.run(["simulate", "--engines", "2", *THREE, "--report", str(pathlib.Path(written[0]) / "job.toml"), "--json"], 2))
    check([each["code"] for each in report_there["problems"]] == ["app.cannot_write"], f"a report into a file: {report_there}")


def check_examples(program, root, folder):
    """The families and hands of one's own in docs/FILES.md are read, made and scored."""
    text = (root / "docs/FILES.md").read_text(encoding="utf-8")
    examples = re.findall(r"```toml\n(.*?)```", text, re.DOTALL)
    options = []
    for table, option in (("[[family]]", "--families"), ("[[hand]]", "--hands")):
        [example] = [each for each in examples if table in each]
        (folder / f"{option}.toml").write_text(example, encoding="utf-8")
        options += [option, str(folder / f"{option}.toml")]
    listed = program.run(["simulate", *options, "--list"], 0)
    check(listed == "waisted  wear at both ends, oval at the deck\n\nown-micrometer  a fair hand, set twice on its own micrometer\n", f"the examples are listed as {listed!r}")
    [scored] = program.documents(["simulate", *options, "--engines", "20", "--exact", "2", "--json"], 0)
    done = [(each["family"], each["hand"], each["scores"]["engines"]) for each in scored.get("families", [])]
    check(done == [("waisted", "own-micrometer", 20)], f"the examples are scored as {done}")


def main():
    program = Program(sys.argv[1])
    root = pathlib.Path(sys.argv[2])
    check_threads(program)
    with tempfile.TemporaryDirectory() as made:
        check_written(program, pathlib.Path(made) / "engines")
        check_examples(program, root, pathlib.Path(made))
    return report()


sys.exit(main())

"""Runs every example of README.md and docs/COMMANDS.md and compares what it prints.

check_examples.py <fettle> <root of the repository>
An example is a block of code with lines "$ fettle ..."; what follows such a line is the standard output and then the error output. A line
"..." stands for any lines.
"""

import difflib
import pathlib
import re
import shlex
import subprocess
import sys

from program import check, report

PAGES = ("README.md", "docs/COMMANDS.md")
PROMPT = "$ fettle "


def examples(text):
    """(command, lines that it is said to print)"""
    for block in re.findall(r"^```\n(.*?)^```$", text, re.DOTALL | re.MULTILINE):
        command, said = None, []
        for line in block.splitlines():
            if line.startswith(PROMPT):
                if command is not None:
                    yield command, said
                command, said = line.removeprefix(PROMPT), []
            elif command is not None:
                said.append(line)
        if command is not None:
            yield command, said


def fits(said, printed):
    pattern = "".join(r"(?:.*\n)*?" if line == "..." else re.escape(line + "\n") for line in said)
    return re.fullmatch(pattern, printed) is not None


def main():
    program, root = sys.argv[1], pathlib.Path(sys.argv[2])
    for page in PAGES:
        found = list(examples((root / page).read_text(encoding="utf-8")))
        check(found, f"{page} shows no example")
        for command, said in found:
            done = subprocess.run([program, *shlex.split(command)], cwd=root, capture_output=True, timeout=60, check=False)
            printed = (done.stdout + done.stderr).decode("utf-8")
            if not fits(said, printed):
                lines = difflib.unified_diff(said, printed.splitlines(), page, "printed", lineterm="", n=0)
                check(False, f"{page}: fettle {command}\n" + "\n".join(lines))
    return report()


sys.exit(main())

"""Runs the program as a recorded run says and compares every byte.

    run_recorded.py <fettle> <root> <file.run>...

A .run file holds sections that begin with ">>> name" at the start of a line, and comments ("#") before the first of them:
    >>> command   the arguments after "fettle", quoted as for a shell; run in the root of the repository
    >>> setting   NAME=value a line for the environment; may be left out
    >>> exit      the exit code
    >>> out       what stands on the standard output; left out: nothing
    >>> error     what stands on the error output; left out: nothing
"{new}" in the command stands for a folder that is not there yet; so does it in the outputs. A line "..." in `out` or `error` stands for any lines. With RECORD=1 in the environment the outputs are written into the
file instead; read every line of them before you keep it.
"""
import difflib
import os
import pathlib
import re
import shlex
import subprocess
import sys
import tempfile

MARK = ">>> "
KNOWN = {"command", "setting", "exit", "out", "error"}
ANY_LINES = re.compile(r"^\.\.\.\n", re.MULTILINE)


def read_sections(path):
    sections, head, name = {}, "", None
    for line in path.read_text(encoding="utf-8").splitlines(keepends=True):
        if line.startswith(MARK):
            name = line[len(MARK):].strip()
            if name not in KNOWN or name in sections:
                raise SystemExit(f"{path}: section {name!r} is not known or stands twice")
            sections[name] = ""
        elif name is None:
            head += line
        else:
            sections[name] += line
    return head, sections


def environment(sections):
    given = dict(line.split("=", 1) for line in sections.get("setting", "").splitlines() if line)
    return {"PATH": os.environ["PATH"], "LC_ALL": "C", **given}


def run_program(program, root, sections):
    with tempfile.TemporaryDirectory() as made:
        new = os.path.join(made, "new")
        arguments = [argument.replace("{new}", new) for argument in shlex.split(sections["command"])]
        done = subprocess.run([program, *arguments], cwd=root, env=environment(sections), capture_output=True, timeout=60)
    out, error = (text.decode("utf-8").replace(new, "{new}") for text in (done.stdout, done.stderr))
    return {"exit": f"{done.returncode}\n", "out": out, "error": error}


def fits(wanted, got):
    pieces = [re.escape(piece) for piece in ANY_LINES.split(wanted)]
    return re.fullmatch(r"(?:.*\n)*?".join(pieces), got) is not None


def difference(name, wanted, got):
    if fits(wanted, got):
        return ""
    lines = difflib.unified_diff(wanted.splitlines(), got.splitlines(), f"{name} as recorded", f"{name} now", lineterm="")
    return "\n".join(lines) or f"{name}: the line ends differ"


def record(path, head, sections, got):
    text = head
    for name in ("command", "setting"):
        if name in sections:
            text += MARK + name + "\n" + sections[name]
    for name in ("exit", "out", "error"):
        if got[name]:
            text += MARK + name + "\n" + got[name]
    path.write_text(text, encoding="utf-8")


def check(program, root, path):
    head, sections = read_sections(path)
    if "command" not in sections:
        raise SystemExit(f"{path}: no command")
    got = run_program(program, root, sections)
    if os.environ.get("RECORD") == "1":
        record(path, head, sections, got)
        return True
    findings = [difference(name, sections.get(name, ""), got[name]) for name in ("exit", "out", "error")]
    for finding in filter(None, findings):
        print(f"{path}:\n{finding}")
    return not any(findings)


def main(arguments):
    program, root, *files = arguments
    if not files:
        raise SystemExit("no recorded run was named")
    results = [check(program, root, pathlib.Path(file)) for file in files]
    print(f"{len(results)} recorded runs, {results.count(False)} differ")
    return 0 if all(results) else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))

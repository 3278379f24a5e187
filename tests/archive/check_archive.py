"""Holds our archives against Python's zipfile: it reads what we pack, we read what it packs, and refuse what it spoils.

check_archive.py <archive_tool>
Ends with 0 if all of it holds.
"""

import pathlib
import stat
import subprocess
import sys
import tempfile
import zipfile

FILES = {
    "manifest.toml": b"format = 1\n",
    "papers/Pr\u00fcfblatt \u2013 N\u00ba 4.pdf": bytes(range(256)) * 300,
    "empty": b"",
    "papers/deep/er/same.txt": b"ab" * 100_000,
}
failures = []


def check(holds, what):
    if not holds:
        failures.append(what)


def run(tool, *arguments):
    done = subprocess.run([tool, *map(str, arguments)], capture_output=True, text=True, encoding="utf-8", check=False)
    return done.returncode, done.stdout.split("\n")[:-1]


def write_files(folder):
    for name, content in FILES.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)


def python_reads_ours(tool, folder):
    write_files(folder / "in")
    ours = folder / "ours.zip"
    code, _ = run(tool, "pack", ours, folder / "in", *FILES)
    check(code == 0, f"pack ended with {code}")
    with zipfile.ZipFile(ours) as archive:
        check(archive.testzip() is None, "Python finds our archive damaged")
        check(archive.namelist() == list(FILES), f"names: {archive.namelist()}")
        for info in archive.infolist():
            check(archive.read(info) == FILES[info.filename], f"other bytes in {info.filename}")
            check(info.compress_type == zipfile.ZIP_STORED, f"{info.filename} is compressed")
            check(info.date_time == (1980, 1, 1, 0, 0, 0), f"{info.filename} is of {info.date_time}")
            check(info.external_attr >> 16 == stat.S_IFREG | 0o644, f"{info.filename} has mode {info.external_attr:x}")


def ours_reads_python(tool, folder, method, level):
    theirs = folder / "theirs.zip"
    with zipfile.ZipFile(theirs, "w", method, compresslevel=level) as archive:
        archive.mkdir("papers") if hasattr(archive, "mkdir") else archive.writestr("papers/", b"")
        for name, content in FILES.items():
            archive.writestr(name, content)
    out = folder / f"out-{method}-{level}"
    code, names = run(tool, "unpack", theirs, out)
    check(code == 0 and names == list(FILES), f"method {method}, level {level}: {code} {names}")
    for name, content in FILES.items():
        check((out / name).is_file() and (out / name).read_bytes() == content, f"method {method}, level {level}: {name}")


def spoilt(folder):
    """Archives of another hand that must be refused, with the code that must be said."""
    def written(name, fill, method=zipfile.ZIP_STORED):
        path = folder / name
        with zipfile.ZipFile(path, "w", method) as archive:
            fill(archive)
        return path

    def link(archive):
        info = zipfile.ZipInfo("link")
        info.create_system = 3
        info.external_attr = (stat.S_IFLNK | 0o777) << 16
        archive.writestr(info, "/etc/hosts")

    def twice(archive):
        archive.writestr("a", "1")
        archive.NameToInfo.clear()
        archive.writestr("a", "2")

    yield written("up.zip", lambda archive: archive.writestr("../a", "x")), "archive.name"
    yield written("root.zip", lambda archive: archive.writestr("/a", "x")), "archive.name"
    yield written("link.zip", link), "archive.link"
    yield written("twice.zip", twice), "archive.name_twice"
    yield written("lzma.zip", lambda archive: archive.writestr("a", "x" * 100), zipfile.ZIP_LZMA), "archive.method"
    bomb = written("bomb.zip", lambda archive: [archive.writestr(str(i), b"") for i in range(50_001)])
    yield bomb, "archive.too_many"


def main(tool):
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        python_reads_ours(tool, folder)
        for method, level in ((zipfile.ZIP_STORED, None), (zipfile.ZIP_DEFLATED, 1), (zipfile.ZIP_DEFLATED, 9)):
            ours_reads_python(tool, folder, method, level)
        for path, wanted in spoilt(folder):
            code, said = run(tool, "unpack", path, folder / "refused")
            check(code == 2 and said == [wanted], f"{path.name}: {code} {said}, not {wanted}")
    for each in failures:
        print(each)
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))

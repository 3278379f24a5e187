"""Holds every recorded reply against its schema.

check_replies.py <root of the repository>
The unit tests hold the replies against what the server says now (RECORD=1 records anew), so that what fits here is what the page gets.
"""

import json
import pathlib
import sys

ROOT = pathlib.Path(sys.argv[1])
sys.path.insert(0, str(ROOT / "tests/cli"))

from program import check, no_key_twice, report  # noqa: E402
from schema_checks import Schemas, page_schemas, spoilt, unseen  # noqa: E402

# What needs a network, a device or a file: held where these are.
ELSEWHERE = {"hello", "pairing", "paired", "devices", "ports", "present", "live-line", "file"}
# Asked for by the page, or answered by the routes of acts: those bring their replies.
OF_ACTS = {"acts", "kept", "understood-asked", "understood", "new-engine", "new-engine-asked", "sheet-draft", "sheet-effect-asked"}
# What no reply here has yet, and why.
UNSEEN = {
    # Advice comes with a later issue; the place is there.
    "verdict-page": {"#/$defs/row/settle/oneOf/lines"},
}


def main():
    schemas = Schemas(ROOT / "src/wire/schemas")
    seen = {}
    for path in sorted((ROOT / "tests/http/replies").glob("*.json")):
        reply = json.loads(path.read_text(encoding="utf-8"), object_pairs_hook=no_key_twice)
        name = reply["format"].removeprefix("fettle-")
        check(name in schemas.names(), f"{path.name}: no schema {name}")
        for problem in schemas.problems(name, reply):
            check(False, f"{path.name} does not fit {name}: {problem}")
        seen.setdefault(name, []).append(reply)
        # The same in both languages but for the words.
        other = path.with_name(path.name.replace(".en.", ".de."))
        if path.name.endswith(".en.json") and other.is_file():
            german = json.loads(other.read_text(encoding="utf-8"))
            check(shape(reply) == shape(german), f"{path.name} and {other.name} differ in more than words")
    # What the page sends of a book's page: with every key there is, and spoilt.
    asked = json.loads((ROOT / "tests/fuzz/seeds/sheet_draft/page.json").read_text(encoding="utf-8"))
    for problem in schemas.problems("sheet-draft", asked):
        check(False, f"the page that is typed does not fit sheet-draft: {problem}")
    for how, broken in spoilt(asked):
        check(not schemas.fits("sheet-draft", broken), f"sheet-draft lets through a page with {how}")
    for name in set(page_schemas(ROOT)) - ELSEWHERE - OF_ACTS:
        check(name in seen, f"no reply of {name} is recorded")
    for name, replies in seen.items():
        if name in OF_ACTS:
            continue
        for place in unseen(schemas, name, replies):
            check(place in UNSEEN.get(name, set()), f"no reply of {name} has {place}")
        for how, broken in spoilt(shortest(replies)):
            # A sentence or none: null for a text, or a text for null, may both be right.
            if not how.startswith("7 for") and not how.startswith("None for"):
                check(not schemas.fits(name, broken), f"{name} lets through a reply with {how}")
    return report()


def shape(value):
    """Keys and lengths, no words."""
    if isinstance(value, dict):
        return {key: shape(each) for key, each in value.items()}
    if isinstance(value, list):
        return [shape(each) for each in value]
    return type(value).__name__


def shortest(replies):
    return min(replies, key=lambda each: len(json.dumps(each)))


sys.exit(main())

"""Asks the built program as a server for everything that openapi.json names as a GET, and a few POSTs, and holds the answers against the schemas.

check_answers.py <fettle> <root of the repository>
"""

import json
import pathlib
import re
import sys

from served import Served, check

from program import report  # noqa: E402  (served.py puts tests/cli on the path)
from schema_checks import Schemas  # noqa: E402

JOB = "tern-curlew-3"
QUERY = {
    "/api/jobs/{job}/gauges": "?for=bore-1",
    "/api/jobs/{job}/setting-up": "?gauge=bore-gauge&for=cylinder-bore",
    "/api/jobs/{job}/rounds/{part}": "?who=JB",
}
WORDS = {"job": JOB, "part": "bore-2", "name": "round.schema.json", "kind": "cylinder-bore"}
# A stream, and files that nobody has handed in: held by other tests.
NOT_HERE = {"/api/live", "/api/jobs/{job}/files/{hash}", "/api/jobs/{job}/files/{hash}/thumbnail"}


def schema_of(operation):
    content = operation["responses"]["200"].get("content", {}).get("application/json", {})
    reference = content.get("schema", {}).get("$ref", "")
    return reference.removeprefix("schemas/").removesuffix(".schema.json")


def fits(schemas, name, value, what):
    for problem in schemas.problems(name, value):
        check(False, f"{what} does not fit {name}: {problem}")


def main():
    root = pathlib.Path(sys.argv[2])
    schemas = Schemas(root / "src/wire/schemas")
    document = json.loads((root / "src/wire/openapi.json").read_text(encoding="utf-8"))
    with Served(sys.argv[1]) as server:
        status, made, _ = server.post("/api/example", {"device": "d-1", "who": "JB"})
        if status != 200:
            status, made, _ = server.ask("POST", "/api/example", "", {"Fettle-Token": server.token})
        check(status == 200, f"the example: {status} {made}")
        fits(schemas, "new-engine", made, "the example")
        asked = 0
        for path, methods in document["paths"].items():
            if "get" not in methods or path in NOT_HERE:
                continue
            for language in ("en", "de"):
                url = re.sub(r"{(\w+)}", lambda each: WORDS[each[1]], path) + QUERY.get(path, "")
                status, answer, _ = server.get(url, {"Accept-Language": language})
                check(status == 200, f"GET {url}: {status} {answer}")
                if name := schema_of(methods["get"]):
                    fits(schemas, name, answer, f"GET {url}")
                    asked += 1
        check(asked >= 22, f"only {asked} answers were held against a schema")
        status, answer, _ = server.post(f"/api/jobs/{JOB}/present", {"device": "d-1", "who": "JB", "part": "bore-2", "holds": "round"})
        fits(schemas, "present", answer, "present")
        status, answer, _ = server.get(f"/api/jobs/{JOB}/rounds/bore-2")
        check(answer["held_by"] == {"who": "JB", "device": "d-1"}, f"held by {answer['held_by']}")
        status, answer, _ = server.post(f"/api/jobs/{JOB}/proof", {"gauge": "bore-gauge", "for": "bore-1", "shows": "76", "side": "anticlockwise"})
        fits(schemas, "proof", answer, "proof")
        check(answer["outcome"] == "right", f"proof: {answer}")
        for url in ("/api/jobs/no-such", "/api/no-such-path", f"/api/jobs/{JOB}/rounds/no-such", "/api/schemas/no-such"):
            status, answer, _ = server.get(url)
            check(status == 404, f"{url}: {status}")
            fits(schemas, "refusal", answer, url)
        _, served, _ = server.get("/api/openapi.json")
        check(served == document, "the server gives another openapi.json away")
    return report()


sys.exit(main())

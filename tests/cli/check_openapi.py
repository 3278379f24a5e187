"""Holds src/wire/openapi.json and the schema files of the page's answers against each other, without the program.

check_openapi.py <root of the repository>
Ends with 0 if every schema is sound and closed, every reference leads somewhere, and nothing stands there unused.
"""

import json
import pathlib
import re
import sys

from program import check, no_key_twice, report
from schema_checks import Schemas, closed_objects, page_schemas, references


# Posted because they bring a body, and only answered.
KEEPS_NOTHING = {"/api/jobs/{job}/understood", "/api/jobs/{job}/proof", "/api/sheet-proof", "/api/jobs/{job}/sheet-effect"}


def at(document, pointer):
    """What a pointer like /components/responses/refusal leads to; nothing where it leads nowhere."""
    for step in filter(None, pointer.split("/")):
        if not isinstance(document, dict) or step not in document:
            return None
        document = document[step]
    return document


def check_references(wire, document, schemas):
    for reference in references(document):
        file, _, pointer = reference.partition("#")
        if not file:
            check(at(document, pointer) is not None, f"openapi.json refers to {reference}, which is not there")
            continue
        check((wire / file).is_file(), f"openapi.json refers to {file}, which is not there")
    for name in schemas.names():
        for reference in references(schemas.schema(name)):
            file, _, pointer = reference.partition("#")
            target = schemas.schema(file.removesuffix(".schema.json")) if file else schemas.schema(name)
            check(at(target, pointer) is not None, f"{name} refers to {reference}, which is not there")


def check_operations(document):
    ids = []
    for path, methods in document["paths"].items():
        for method, operation in methods.items():
            what = f"{method} {path}"
            ids.append(operation["operationId"])
            named = set()
            for each in operation["parameters"]:
                parameter = at(document, each["$ref"].removeprefix("#")) if "$ref" in each else each
                if parameter["in"] == "path":
                    named.add(parameter["name"])
            check(named == set(re.findall(r"{(\w+)}", path)), f"{what}: parameters {sorted(named)}")
            check("200" in operation["responses"], f"{what} has no answer")
            check(operation["responses"]["default"] == {"$ref": "#/components/responses/refusal"}, f"{what} cannot be refused")
            # What changes something carries the token; what does not, does not.
            token = {"$ref": "#/components/parameters/token"} in operation["parameters"]
            check(token == (method == "post" and path not in KEEPS_NOTHING), f"{what}: token")
            check(method in ("get", "post"), f"{what}: another method")
    check(len(ids) == len(set(ids)), f"an operationId twice: {sorted(ids)}")


def check_unused(document, schemas, root):
    used = set(references(document))
    for group in ("parameters", "responses", "schemas"):
        for name in document["components"][group]:
            check(f"#/components/{group}/{name}" in used, f"nothing refers to {group}/{name}")
    for name in page_schemas(root):
        schemas.check_itself(name)
        schema = schemas.schema(name)
        check(schema["$id"].endswith(f"/{name}.schema.json"), f"{name} calls itself {schema['$id']}")
        for place in closed_objects(schema):
            check(False, f"{name}: the object at {place} lets unknown keys through")
        if "format" in schema.get("properties", {}):
            check(schema["properties"]["format"] == {"const": f"fettle-{name}"}, f"{name}: format {schema['properties']['format']}")


def check_contract(document, root):
    """docs/HTTP.md names the same paths."""
    text = (root / "docs/HTTP.md").read_text(encoding="utf-8")
    written = {(method, path) for method, path in re.findall(r"`(GET|POST) (/api/[^`?\s]*)", text)}
    # ".../thumbnail" is written short there.
    known = {(method.upper(), path) for path, methods in document["paths"].items() for method in methods}
    known = {each for each in known if not each[1].endswith("/thumbnail")}
    for each in sorted(written - known):
        check(False, f"docs/HTTP.md names {each}, openapi.json does not")
    for each in sorted(known - written):
        check(False, f"openapi.json names {each}, docs/HTTP.md does not")


def main():
    root = pathlib.Path(sys.argv[1])
    wire = root / "src/wire"
    document = json.loads((wire / "openapi.json").read_text(encoding="utf-8"), object_pairs_hook=no_key_twice)
    schemas = Schemas(wire / "schemas")
    check(document["openapi"] == "3.1.0", f"OpenAPI {document['openapi']}")
    check(len(page_schemas(root)) >= 18, f"schemas of answers: {page_schemas(root)}")
    check_references(wire, document, schemas)
    check_operations(document)
    check_unused(document, schemas, root)
    check_contract(document, root)
    return report()


sys.exit(main())

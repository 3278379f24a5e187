"""The schema files as one set that refer to each other, and ways to spoil a value."""

import copy
import json
import sys
import warnings

try:
    import jsonschema
except ImportError:
    sys.exit("python3 cannot import jsonschema. Install the distribution's package python3-jsonschema.")

ENDING = ".schema.json"


class Schemas:
    """Every *.schema.json of a folder. References from one file to the next are found in the folder; nothing is fetched."""

    def __init__(self, folder):
        self._schemas = {}
        for path in sorted(folder.glob("*" + ENDING)):
            self._schemas[path.name[: -len(ENDING)]] = json.loads(path.read_text(encoding="utf-8"))
        self._validators = {name: self._validator(schema) for name, schema in self._schemas.items()}

    def names(self):
        return list(self._schemas)

    def schema(self, name):
        return self._schemas[name]

    def check_itself(self, name):
        jsonschema.Draft202012Validator.check_schema(self._schemas[name])

    def problems(self, name, value):
        """The first few reasons why a value does not fit, as text."""
        found = []
        for error in self._validators[name].iter_errors(value):
            found.append("/".join(str(step) for step in error.absolute_path) + ": " + error.message[:200])
            if len(found) == 3:
                break
        return found

    def fits(self, name, value):
        return self._validators[name].is_valid(value)

    def _validator(self, schema):
        by_id = {each["$id"]: each for each in self._schemas.values()}
        try:
            from referencing import Registry, Resource
        except ImportError:  # jsonschema below 4.18
            with warnings.catch_warnings():
                warnings.simplefilter("ignore")
                resolver = jsonschema.RefResolver.from_schema(schema, store=by_id)
            return jsonschema.Draft202012Validator(schema, resolver=resolver)
        registry = Registry().with_resources((key, Resource.from_contents(each)) for key, each in by_id.items())
        return jsonschema.Draft202012Validator(schema, registry=registry)


def references(node):
    """Every "$ref" in a document."""
    if isinstance(node, list):
        for each in node:
            yield from references(each)
    elif isinstance(node, dict):
        for key, each in node.items():
            if key == "$ref":
                yield each
            else:
                yield from references(each)


def page_schemas(root):
    """Names of the schema files that src/wire/openapi.json refers to: the answers to the page."""
    document = json.loads((root / "src/wire/openapi.json").read_text(encoding="utf-8"))
    files = {each.partition("#")[0] for each in references(document)}
    return sorted(each.removeprefix("schemas/").removesuffix(ENDING) for each in files if each)


def closed_objects(schema, place="#"):
    """Places of objects with properties that let unknown keys through. (An object without any is a map, or is named elsewhere.)"""
    if isinstance(schema, list):
        for index, each in enumerate(schema):
            yield from closed_objects(each, f"{place}/{index}")
    elif isinstance(schema, dict):
        if schema.get("type") == "object" and "properties" in schema and schema.get("additionalProperties") is not False:
            yield place
        for key, each in schema.items():
            yield from closed_objects(each, f"{place}/{key}")


def unseen(schemas, name, values):
    """Properties of a schema (as "place/name") that none of the values has: nobody has checked what the program writes there. What lies
    in other schema files is left out."""
    root = schemas.schema(name)
    known, seen = set(), set()

    def list_all(node, place):
        for key, each in node.get("properties", {}).items():
            known.add(f"{place}/{key}")
            if isinstance(each, dict):
                list_all(each, f"{place}/{key}")
        if "items" in node:
            list_all(node["items"], f"{place}[]")

    def walk(node, place, value):
        place = node.get("$ref", place)
        if "$ref" in node:
            if not place.startswith("#/$defs/"):
                return
            node = root["$defs"][place.removeprefix("#/$defs/")]
        if isinstance(value, dict):
            for key in node.get("properties", {}).keys() & value.keys():
                seen.add(f"{place}/{key}")
                walk(node["properties"][key], f"{place}/{key}", value[key])
        for each in value if isinstance(value, list) else []:
            walk(node.get("items", {}), f"{place}[]", each)

    list_all(root, "#")
    for key, each in root.get("$defs", {}).items():
        list_all(each, f"#/$defs/{key}")
    for value in values:
        walk(root, "#", value)
    return sorted(known - seen)


def spoilt(value):
    """(how, copy of value with one fault): each object with an unknown key, and each of its values of another kind. Maps named
    "arguments" hold any key, and their values any kind."""
    for path, node in objects(value):
        if path and path[-1] == "arguments":
            continue
        where = "/".join(str(step) for step in path)
        yield f"an unknown key in {where or 'its root'}", replaced(value, path, {**node, "unknown_key": 1})
        for key, each in node.items():
            other = 7 if isinstance(each, str) else "7" if isinstance(each, (int, bool)) else None
            yield f"{other} for {where}/{key}", replaced(value, path, {**node, key: other})


def without_one_key(value):
    """(key, copy of value that lacks it), for each key of each object; what lies inside "arguments" is left alone."""
    for path, node in objects(value):
        if path and path[-1] == "arguments":
            continue
        for key in node:
            yield key, replaced(value, path, {name: each for name, each in node.items() if name != key})


def objects(value, path=()):
    """Every object in a value, outermost first, with its path; what lies inside "arguments" is left out."""
    if isinstance(value, dict):
        yield path, value
        if path and path[-1] == "arguments":
            return
        for key, each in value.items():
            yield from objects(each, (*path, key))
    elif isinstance(value, list):
        for index, each in enumerate(value):
            yield from objects(each, (*path, index))


def replaced(value, path, node):
    """A copy of value, as deep as the path goes, with node at its end."""
    if not path:
        return node
    out = copy.copy(value)
    out[path[0]] = replaced(value[path[0]], path[1:], node)
    return out

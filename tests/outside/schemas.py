"""Holds YAML files against JSON Schemas with the package jsonschema.

On standard input one JSON object: `schemas` by kind, and `files`, each with `name`, `kind` and `text`. Prints one JSON
object: for each file its errors, each with the `path` to the block or value and, where a key is too much, the `key`.
Every schema is held against the draft's own, and every example in it against the schema around it.
"""

import json
import re
import sys

import jsonschema
import yaml


class Loader(yaml.SafeLoader):
    """Takes for numbers and truths what YAML 1.2 takes for them; days stay texts. Of equal keys the last counts."""

    yaml_implicit_resolvers = {}


def resolves(tag, pattern, first):
    Loader.add_implicit_resolver(f"tag:yaml.org,2002:{tag}", re.compile(f"^(?:{pattern})$"), list(first))


resolves("bool", "true|True|TRUE|false|False|FALSE", "tTfF")
resolves("null", "~|null|Null|NULL|", "~nN" + "\0")
resolves("int", "[-+]?[0-9]+", "-+0123456789")
resolves("float", r"[-+]?(?:\.[0-9]+|[0-9]+\.[0-9]*)(?:[eE][-+]?[0-9]+)?|[-+]?[0-9]+[eE][-+]?[0-9]+", "-+.0123456789")
Loader.add_implicit_resolver("tag:yaml.org,2002:null", re.compile("^$"), [""])


class FirstLoader(Loader):
    """Of equal keys the first counts."""

    def construct_mapping(self, node, deep=False):
        node.value = node.value[::-1]
        return super().construct_mapping(node, deep=deep)


def told(error):
    """The places of an error: those within the branch that fits best."""
    if error.validator == "anyOf":
        branches = {}
        for one in error.context:
            branches.setdefault(one.schema_path[0], []).append(one)
        # The branch that takes one word only says nothing about a longer value.
        own = error.absolute_path
        words = [at for at, ones in branches.items() if ones[0].validator == "const" and ones[0].absolute_path == own]
        branches = {at: ones for at, ones in branches.items() if at not in words}
        deep = max(branches.values(), key=lambda ones: max(len(one.absolute_path) for one in ones), default=[])
        if any(len(one.absolute_path) > len(error.absolute_path) or one.validator != "type" for one in deep):
            for one in deep:
                yield from told(one)
            return
    if error.validator == "additionalProperties":
        for key in error.instance:
            if key not in error.schema.get("properties", {}):
                yield {"path": list(error.absolute_path), "key": key}
        return
    if error.validator in ("contains", "maxContains") and isinstance(error.instance, list):
        inner = jsonschema.Draft202012Validator(error.schema["contains"])
        there = [at for at, entry in enumerate(error.instance) if inner.is_valid(entry)]
        for at in there[1:]:
            yield {"path": [*error.absolute_path, at], "key": None}
        return
    yield {"path": list(error.absolute_path), "key": None}


def examples(validator, schema, count=0):
    """Holds each example of a schema against the part that gives it."""
    if isinstance(schema, dict):
        for example in schema.get("examples", []):
            validator.evolve(schema=schema).validate(example)
            count += 1
        for inner in schema.values():
            count = examples(validator, inner, count)
    elif isinstance(schema, list):
        for inner in schema:
            count = examples(validator, inner, count)
    return count


def main():
    given = json.load(sys.stdin)
    checks = {}
    shown = 0
    for kind, schema in given["schemas"].items():
        jsonschema.Draft202012Validator.check_schema(schema)
        checks[kind] = jsonschema.Draft202012Validator(schema)
        shown += examples(checks[kind], schema)
    errors = {}
    for file in given["files"]:
        places = []
        for loader in (FirstLoader, Loader):
            found = checks[file["kind"]].iter_errors(yaml.load(file["text"], loader))
            places.extend([loader is FirstLoader, place] for error in found for place in told(error))
        errors[file["name"]] = [{**place, "first": first} for first, place in places]
    json.dump({"examples": shown, "errors": errors}, sys.stdout)


main()

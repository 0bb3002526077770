"""Reads every YAML file of a library with a second reader, and holds a few plain facts against it."""

import pathlib
import sys

import yaml


def main(library: str) -> None:
    files = sorted(pathlib.Path(library).rglob("*.yaml"))
    ids = set()
    for file in files:
        data = yaml.safe_load(file.read_text(encoding="utf-8"))
        assert isinstance(data, dict), f"{file}: not a map"
        name = data.get("id") or data.get("survey") or data.get("rules")
        if file.name != "terms.yaml":
            assert name == file.stem, f"{file}: named {name}"
        if "id" in data:
            assert name not in ids, f"{file}: {name} twice"
            ids.add(name)
    for note in sorted(pathlib.Path(library, "notes").rglob("*.md")):
        assert note.parent.name in ids, f"{note}: no card of this name"
        header = note.read_text(encoding="utf-8").split("---")[1]
        assert isinstance(yaml.safe_load(header), dict), f"{note}: no header"
    print(f"{len(files)} files, {len(ids)} cards")


main(sys.argv[1])

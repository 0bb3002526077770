#!/usr/bin/env python3
"""Holds every crate that is built into the program against deny.toml: licences, where it comes from, one version of each.

cargo-deny reads the same file and does the same, and more, but every machine that checks would have to build it first. Needs
Python 3.11 and nothing else: `cargo metadata` says what there is.
"""

import json
import re
import subprocess
import sys
import tomllib
from collections import defaultdict

deny = tomllib.load(open("deny.toml", "rb"))
target = deny["graph"]["targets"][0]


def cargo(*words: str) -> str:
    return subprocess.run(["cargo", *words], check=True, capture_output=True, text=True).stdout


metadata = json.loads(cargo("metadata", "--format-version", "1", "--locked", "--filter-platform", target))
packages = {(package["name"], package["version"]): package for package in metadata["packages"]}
root = next(package for package in metadata["packages"] if package["id"] == metadata["resolve"]["root"])


def built() -> list[dict]:
    """What is built into the program or builds it: tests and benchmarks alone need the others. `cargo tree` alone knows
    which optional crates are asked for."""
    tree = cargo("tree", "--locked", "-e", "normal,build", "--target", target, "--prefix", "none", "--format", "{p}")
    found = {(words[0], words[1].removeprefix("v")) for words in map(str.split, tree.splitlines()) if words}
    return [packages[one] for one in sorted(found) if packages[one] is not root]


def allowed(licence: str, allow: set[str]) -> bool:
    """Whether an expression of SPDX can be met with these licences. OR binds less than AND; `/` is an old way to write OR."""
    tokens = re.findall(r"\(|\)|[^\s()]+", licence.replace("/", " OR "))
    at = 0

    def either() -> bool:
        nonlocal at
        met = both()
        while at < len(tokens) and tokens[at] == "OR":
            at += 1
            met = both() or met
        return met

    def both() -> bool:
        nonlocal at
        met = one()
        while at < len(tokens) and tokens[at] == "AND":
            at += 1
            met = one() and met
        return met

    def one() -> bool:
        nonlocal at
        if tokens[at] == "(":
            at += 1
            met = either()
            at += 1
            return met
        name = tokens[at]
        at += 1
        if at < len(tokens) and tokens[at] == "WITH":
            name += f" WITH {tokens[at + 1]}"
            at += 2
        return name in allow

    return either()


wrong = []
allow = set(deny["licenses"]["allow"])
crates = built()
for crate in crates:
    named = f"{crate['name']} {crate['version']}"
    licence = crate["license"]
    if not licence or not allowed(licence, allow):
        wrong.append(f"{named}: its licence, {licence}, is none of those in deny.toml")
    if not (crate["source"] or "").startswith("registry+"):
        wrong.append(f"{named}: it comes from {crate['source']}, not from the registry")
versions = defaultdict(list)
for crate in crates:
    versions[crate["name"]].append(crate["version"])
skipped = {tuple(skip["crate"].split("@")) for skip in deny["bans"]["skip"]}
used = set()
for name, found in versions.items():
    skips = {skip for skip in skipped if skip[0] == name}
    left = [version for version in found if not any((version + ".").startswith(skip[1] + ".") for skip in skips)]
    if len(left) < len(found):
        used |= skips
    if len(left) > 1:
        wrong.append(f"{name}: {' and '.join(found)} are both built; deny.toml does not say why")
for name, version in sorted(skipped - used):
    wrong.append(f"deny.toml lets {name}@{version} pass beside another, and it is not there")
for dependency in root["dependencies"]:
    if dependency["req"] == "*":
        wrong.append(f"{dependency['name']}: any version is asked for")
if wrong:
    sys.exit("\n".join(f"error: {line}" for line in wrong))
print(f"{len(crates)} crates: licences, sources and versions are as deny.toml says")

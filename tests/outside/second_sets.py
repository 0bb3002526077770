"""Reads cards before and after one fact was set, with PyYAML: the data must be the same but for that fact.

On standard input, one JSON object a line: `{"card": TEXT}`, then for each fact of it `{"path", "value", "text"}`.
"""

import copy
import datetime
import json
import sys

import yaml

Loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


def plain(value):
    """Days as the texts that they are in a file."""
    if isinstance(value, dict):
        return {key: plain(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return [plain(inner) for inner in value]
    return value.isoformat() if isinstance(value, datetime.date) else value


def step(value, name):
    return value[int(name)] if isinstance(value, list) else value[name]


def main():
    count = 0
    card = None
    for line in sys.stdin:
        row = json.loads(line)
        if "card" in row:
            card = plain(yaml.load(row["card"], Loader))
            continue
        expected = copy.deepcopy(card)
        inner = expected
        for name in row["path"][:-1]:
            inner = step(inner, name)
        inner[row["path"][-1]] = row["value"]
        found = plain(yaml.load(row["text"], Loader))
        assert found == expected, (row["path"], row["value"])
        assert found != card, row["path"]
        count += 1
    print(f"{count} facts")


main()

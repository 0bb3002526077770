"""READY, found a second way: from pack.json and the survey alone.

    second_ready.py DIR        for each DIR/NAME.yaml with its DIR/NAME.json

This is DESIGN.md section 6 read once more, from the text alone. What can be worked out again from the figures of the
pack and the words of the survey is worked out here, whatever the pack's findings say; only for what rests on cards
(a trigger that fires the wrong way, a fact to confirm on site) the pack's blockers are believed. It prints a line for
each pack: its name, READY or NOT READY, what the pack says, and the reasons.
"""

import json
import pathlib
import re
import sys

import yaml

# What only the cards can tell.
FROM_CARDS = {
    "confirm-on-site", "feed-volts", "fuse-blown", "fuse-larger", "loop-open", "mark-unknown", "not-known",
    "reading-out", "tamper-returns", "trigger-mismatch", "trigger-not-known",
}
# What somebody can look at and answer for.
CAN_BE_SETTLED = {"ac-on-cable", "confirm-on-site", "fuse-blown", "fuse-larger", "loop-open"}
OVER = {"supply": "supply-over", "source": "source-over", "fuse": "fuse-over", "output": "output-over", "core": "core-over"}


def of_plan(survey, pack):
    """Every must is served with all its cores between two ends; nothing is left undecided."""
    served = {item["item"]: item for item in pack["plan"]["items"]}
    decided = set(survey.get("remove") or [])
    for fit in survey.get("fit") or []:
        decided.add(fit["item"])
        if fit.get("priority", "must") == "must" and fit["item"] not in served:
            yield "unserved", fit["item"]
    for item in served.values():
        if any(core["to"] in ("park", "leave") for core in item["cores"]):
            yield "unserved", item["item"]
    for cable in survey.get("cables") or []:
        serves = cable.get("serves")
        for hangs in serves if isinstance(serves, list) else []:
            if hangs["item"] not in decided:
                yield "undecided", hangs["item"]


def of_figures(survey, pack):
    """No figure is out of its limits, and none is open that decides."""
    for row in pack["electrics"]["drop"]:
        ok, name = row["ok"], row["item"]
        four = [row[key] for key in ("battery_end_v", "needs_low_v", "mains_v", "needs_high_v")]
        if None not in four:
            end, low, mains, high = four
            assert ok == (end >= low - 1e-8 and mains <= high + 1e-8), row
        if ok is not True:
            yield ("drop" if ok is False else "not-known"), name
    for row in pack["electrics"]["loading"]:
        both = [(row["standby_a"], row["limit_a"]), (row["alarm_a"], row["alarm_limit_a"])]
        known = all(a is not None and b is not None for a, b in both)
        within = known and all(a <= b + 1e-8 for a, b in both)
        assert row["ok"] == (within if known else None), row
        if not within:
            yield (OVER[row["what"].split(":")[0]] if known else "not-known"), row["what"]
    for row in pack["electrics"]["loops"]:
        for state in row["states"]:
            if state["ok"] is not True:
                yield ("loop" if state["ok"] is False else "not-known"), row["input"]
    battery = pack["battery"]
    needs, has = battery["required_ah"], battery["fitted_ah"]
    known = needs is not None and has is not None
    assert battery["enough"] == (needs <= has + 1e-8 if known else None), battery
    none = survey.get("battery") == "none" and not survey.get("new_battery")
    if known and needs > has + 1e-8:
        yield "battery-small", "battery"
    if not known and not none:
        yield "not-known", "battery"
    if battery["verdict"] == "replace" and not survey.get("new_battery"):
        yield "battery-replace", "battery"


def of_site(survey):
    """Nobody works where it is not safe to."""
    mains = survey.get("mains")
    if isinstance(mains, dict) and mains.get("isolator") == "none":
        yield "no-isolator", "mains"
    for cable in survey.get("cables") or []:
        volts = re.match(r"\s*-?([0-9.]+)\s*(mV|V|kV)", str(cable.get("ac") or ""))
        if volts and float(volts[1]) * {"mV": 0.001, "V": 1, "kV": 1000}[volts[2]] > 25:
            yield "ac-on-cable", cable["cable"]


def reasons(survey, pack):
    settled = {(s["code"], s["about"]) for s in survey.get("settled") or [] if s["code"] in CAN_BE_SETTLED}
    found = {*of_plan(survey, pack), *of_figures(survey, pack), *of_site(survey)}
    for finding in pack["findings"]:
        if finding["level"] == "blocker" and finding["code"] in FROM_CARDS:
            found.add((finding["code"], finding["about"]))
    return sorted(found - settled)


def main():
    folder = pathlib.Path(sys.argv[1])
    for path in sorted(folder.glob("*.yaml")):
        survey = yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
        pack = json.loads(path.with_suffix(".json").read_text(encoding="utf-8"))
        why = reasons(survey, pack)
        says = "READY" if pack["ready"] else "NOT READY"
        print("\t".join([path.stem, "NOT READY" if why else "READY", says, json.dumps(why)]))


main()

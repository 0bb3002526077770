"""The seven numbers of a plan, found a second way.

This is DESIGN.md sections 4.5 and 5.1 read once more, from the text alone, as a mixed-integer model that
SciPy's HiGHS solves (https://docs.scipy.org/doc/scipy/reference/generated/scipy.optimize.milp.html). It shares
no code with the program: it reads cards and surveys itself and says only what the best plan costs.

    plan_milp.py library LIBRARY-DIR        every survey of a library, read with PyYAML
    plan_milp.py jobs FILE.json             a list of jobs, each with its cards and its survey, as section 4 writes them

It prints one JSON object: survey or job name -> the seven numbers, in order.
"""

import json
import pathlib
import re
import sys

import numpy as np
from scipy.optimize import LinearConstraint, Bounds, milp
from scipy.sparse import csr_array

SEVEN = ["unserved_must", "unserved_want", "unmonitored", "shared", "opened", "moved", "used"]


# ---- reading ------------------------------------------------------------------------------------------------

def read_library(folder):
    """Every job of a library's surveys. All scalars stay text: nothing is guessed to be a number or a truth."""
    import yaml

    folder = pathlib.Path(folder)

    def cards(kind):
        found = {}
        for path in sorted((folder / kind).glob("*.yaml")):
            found[path.stem] = yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
        return found

    panels, boards, devices, cables = (cards(k) for k in ("panels", "boards", "devices", "cables"))
    for name, survey in cards("surveys").items():
        yield {
            "name": name,
            "panel": panels[survey["panel"]],
            "board": boards[survey["board"]],
            "devices": devices,
            "cables": cables,
            "survey": survey,
        }


def block(card, key):
    """A block of a card; nothing when it is left out or `none`."""
    value = card.get(key)
    return value if isinstance(value, dict) else None


SCALE = {"k": 1e3, "M": 1e6, "m": 1e-3, "µ": 1e-6, "u": 1e-6, "": 1.0}


def quantity(text):
    """A quantity in its unit without a prefix: `4.7 kΩ`, `4k7`, `4700R`, `120 mA`."""
    if text is None:
        return None
    inside = re.fullmatch(r"(\d+)([kMR])(\d+)", text.strip())
    if inside:
        whole, letter, part = inside.groups()
        return float(f"{whole}.{part}") * (1.0 if letter == "R" else SCALE[letter])
    plain = re.fullmatch(r"([-+0-9.eE]+)\s*([kMmµu]?)(?:Ω|ohm|R|A)?", text.strip())
    if not plain:
        raise ValueError(f"not a quantity: {text!r}")
    return float(plain.group(1)) * SCALE[plain.group(2)]


# ---- what a core does today (4.5) -----------------------------------------------------------------------------

def places(panel):
    """Mark -> function, by the first of: supply, trigger, zone, tamper, siren tamper, keypad data; and the pairs."""
    order = []
    power, keypad, siren = block(panel, "power"), block(panel, "keypad"), block(panel, "siren")
    out = (power or {}).get("out")
    if isinstance(out, list):
        order += [(out[0], "supply+"), (out[1], "supply-")]
    if keypad:
        order += [(keypad.get("positive"), "supply+"), (keypad.get("negative"), "supply-")]
    if siren:
        order += [(siren.get("hold_off"), "supply+"), (siren.get("negative"), "supply-")]
        order += [(t["terminal"], "trigger:" + t["trigger"]) for t in siren.get("triggers", [])]
    pairs = []
    for zone in panel.get("zones", []):
        first, second = zone["terminals"]
        order += [(first, "alarm"), (second, "alarm-return")]
        pairs.append((first, second, "alarm"))
    zone_tampers = [block(zone, "tamper") for zone in panel.get("zones", [])]
    for tamper in filter(None, [block(panel, "tamper"), *zone_tampers]):
        first, second = tamper["terminals"]
        order += [(first, "tamper"), (second, "tamper-return")]
        pairs.append((first, second, "tamper"))
    siren_tamper = block(siren, "tamper") if siren else None
    if siren_tamper:
        order.append((siren_tamper["terminal"], "tamper"))
        if siren_tamper.get("with"):
            order.append((siren_tamper["with"], "tamper-return"))
            pairs.append((siren_tamper["terminal"], siren_tamper["with"], "tamper"))
    if keypad:
        order += [(mark, f"data:{n}") for n, mark in enumerate(keypad.get("data", []), 1)]
    functions = {}
    for mark, function in order:
        if mark is not None and mark != "none":
            functions.setdefault(mark, function)
    return functions, pairs


class Core:
    """A core of a cable: where it is, whose it is, what it does, whether the plan may use it."""

    def __init__(self, cable, colour, value):
        self.cable, self.colour = cable, colour
        self.mark = self.join = self.owner = self.function = None
        owner = None
        if " for " in value:
            value, owner = value.split(" for ", 1)
        if value.startswith("join "):
            self.join = value[5:]
        elif value not in ("spare", "broken", "unknown"):
            self.mark = value
        self.usable = value not in ("broken", "unknown")
        self.wired = self.mark is not None or self.join is not None
        self.says = owner

    def is_supply(self):
        return self.function in ("supply+", "supply-")


def cores_of(job):
    """The cores of every cable, in cable order, with what each does today and whether it is usable."""
    survey = job["survey"]
    functions, pairs = places(job["panel"])
    decided = {f["item"] for f in survey.get("fit", [])} | set(survey.get("remove", []))
    cables = []
    for c, cable in enumerate(survey.get("cables", [])):
        seen = cable.get("cores", {})
        served = [s["item"] for s in cable.get("serves", [])]
        cores = [Core(c, colour, seen.get(colour, "unknown")) for colour in job["cables"][cable["type"]]["cores"]]
        for core in cores:
            core.function = functions.get(core.mark)
            if core.wired and not core.is_supply():
                if len(served) == 1:
                    core.owner = served[0]
                elif core.says in served:
                    core.owner = core.says
        cables.append(cores)
    walk_joins(cables, functions, pairs)
    for c, cable in enumerate(survey.get("cables", [])):
        served = [s["item"] for s in cable.get("serves", [])]
        undecided = [item for item in served if item not in decided]
        for core in cables[c]:
            if core.wired and core.owner in undecided:
                core.usable = False
            # "The supply cores where it alone is served": of two undecided items on one cable, both hold them.
            if core.is_supply() and undecided and undecided == served:
                core.usable = False
    return cables


def walk_joins(cables, functions, pairs):
    """Gives the joins their functions, by walking each loop from each of its terminals."""
    every = [core for cores in cables for core in cores]
    partners = {}
    for first, second, _ in pairs:
        partners.setdefault(first, set()).add(second)
        partners.setdefault(second, set()).add(first)
    ends = {}
    for core in every:
        if core.join is not None:
            ends.setdefault(core.join, []).append(core)
    given = {id(core): {True: set(), False: set()} for core in every}
    for first, second, kind in pairs:
        for start, own, other in ((first, kind, kind + "-return"), (second, kind + "-return", kind)):
            if functions.get(start) != own:
                continue
            for core in every:
                if core.mark == start:
                    steps, closes = walk(core, own, other, partners[start], cables, ends)
                    for step, function in steps:
                        given[id(step)][closes].add(function)
    for core in every:
        if core.join is None or len(ends[core.join]) > 2:
            continue
        counts = given[id(core)][True] or given[id(core)][False]
        if len(counts) == 1:
            core.function = next(iter(counts))


def walk(core, out, back, closing, cables, ends):
    """The joined cores that a walk down `core` reaches with their functions, and whether its loop closes."""
    steps, seen = [], set()
    while True:
        seen.add(id(core))
        if core.owner is None:
            return steps, False
        fellows = [k for k in cables[core.cable] if k is not core and k.owner == core.owner]
        if any(k.mark in closing for k in fellows if k.mark is not None):
            return steps, True
        joins = [k for k in fellows if k.join is not None]
        if len(joins) != 1 or id(joins[0]) in seen:
            return steps, False
        returning = joins[0]
        seen.add(id(returning))
        steps.append((returning, back))
        others = [k for k in ends[returning.join] if k is not returning]
        if len(others) != 1 or id(others[0]) in seen:
            return steps, False
        core = others[0]
        steps.append((core, out))


# ---- what an item needs (5.1) ------------------------------------------------------------------------------------

class Way:
    """One way of wiring an item: a cable and a method."""

    def __init__(self, cable, method, wiring, joins, contacts):
        self.cable, self.method, self.wiring, self.joins, self.contacts = cable, method, wiring, joins, contacts


class Item:
    """An item of `fit`: what it needs, and every way of wiring it."""

    def __init__(self, job, fit, cables):
        survey, board = job["survey"], job["board"]
        self.name, self.keep = fit["item"], fit.get("keep") == "true"
        self.want = fit.get("priority", "must") == "want"
        self.share, self.reaction = fit.get("share"), fit.get("reaction", "instant")
        self.resistors = None
        self.cables, device = self.reach(survey, fit)
        device = job["devices"][device]
        self.button = device.get("class") == "button"
        self.supply = block(device, "supply") is not None
        self.alarm, self.tamper = block(device, "alarm"), block(device, "tamper")
        self.triggers = device.get("triggers", [])
        if not isinstance(self.triggers, list):
            self.triggers = []
        self.data, self.bus = int(device.get("data", 0)), device.get("bus")
        self.returns = None
        if self.tamper:
            unsaid = None if device.get("class") == "external-sounder" else "pair"
            self.returns = self.tamper.get("returns", unsaid)
        kinds = {t.get("fires", "").split("-")[0] for t in self.triggers}
        two_wire = bool(self.triggers) and not self.supply
        self.positive = self.supply or (two_wire and "negative" in kinds)
        self.negative = self.supply or (two_wire and "positive" in kinds)
        self.fed_by = self.feeder(board) if self.positive or self.negative else None
        self.ways = self.all_ways() if self.can_be_planned(device, board) else []

    def reach(self, survey, fit):
        """The cables it may use, and its device."""
        if self.keep:
            for c, cable in enumerate(survey["cables"]):
                for served in cable.get("serves", []):
                    if served["item"] == self.name:
                        resistors = served.get("resistors")
                        self.resistors = resistors if isinstance(resistors, dict) else None
                        return [c], served["device"]
            raise ValueError(f"{self.name} is kept but nothing serves it")
        place = fit.get("place")
        all_cables = enumerate(survey.get("cables", []))
        return [c for c, cable in all_cables if place is not None and cable.get("to") == place], fit["device"]

    def feeder(self, board):
        """Which board supply feeds it."""
        supplies = board.get("supplies", [])
        keypad = block(board, "keypad")
        if self.data and keypad:
            for n, supply in enumerate(supplies):
                if supply["terminals"] == [keypad.get("positive"), keypad.get("negative")]:
                    return n
        kind = "sounders" if self.triggers else "detectors"
        for n, supply in enumerate(supplies):
            if supply.get("feeds", "any") in (kind, "any"):
                return n
        return None

    def can_be_planned(self, device, board):
        """Whether anything in its own data rules it out."""
        if device.get("class") == "speaker":
            return False
        if any(c and c.get("contact") != "normally-closed" for c in (self.alarm, self.tamper)):
            return False
        if any("fires" not in t for t in self.triggers):
            return False
        if (self.positive or self.negative) and self.fed_by is None:
            return False
        if self.data:
            keypad = block(board, "keypad")
            if not keypad or keypad.get("bus") != self.bus or len(keypad.get("data", [])) < self.data:
                return False
        return True

    def all_ways(self):
        methods = []
        tamper_cores = {"pair": ["tamper", "tamper-return"], "negative": ["tamper"]}.get(self.returns)
        alarm = ["alarm", "alarm-return"]
        if self.alarm and self.tamper and tamper_cores:
            methods.append(("pairs", "closed-loop", True, alarm + tamper_cores))
            methods.append(("single-eol", "single-eol", True, alarm + tamper_cores))
        if self.alarm and not self.tamper:
            methods.append(("single-eol", "single-eol", False, alarm))
        if self.alarm and self.returns == "pair":
            methods.append(("double-eol", "double-eol", False, alarm))
        if self.alarm:
            methods.append(("alarm-only", "closed-loop", False, alarm))
        if self.tamper and not self.alarm and tamper_cores:
            methods.append(("tamper-only", None, True, tamper_cores))
        if not self.alarm:
            methods.append(("none", None, False, []))
        return [Way(c, *method) for c in self.cables for method in methods]

    def own_cores(self, way):
        """The functions of its own cores: all it needs but supply cores."""
        triggers = ["trigger:" + t["trigger"] for t in self.triggers]
        return way.contacts + triggers + [f"data:{n}" for n in range(1, self.data + 1)]

    def unmonitored(self, way):
        return self.tamper is not None and way.method in ("alarm-only", "none")

    def opened(self, way, eol):
        if not self.keep:
            return False
        there = self.resistors if self.resistors and self.resistors.get("at") == "device" else None
        if way.wiring not in ("single-eol", "double-eol"):
            return there is not None
        end, alarm = eol.get("single"), None
        if way.wiring == "double-eol":
            double = eol.get("double") if isinstance(eol.get("double"), dict) else {}
            end, alarm = double.get("end"), double.get("alarm")
        if there is None or end is None:
            return True
        return quantity(there.get("end")) != quantity(end) or quantity(there.get("alarm")) != quantity(alarm)

    def series_key(self):
        """Items with the same key may sit on one input in series."""
        return (self.share, self.reaction, self.button) if self.share is not None else None


# ---- the model --------------------------------------------------------------------------------------------------

class Model:
    """0/1 variables and linear rules over them."""

    def __init__(self):
        self.names, self.rows, self.low, self.high = {}, [], [], []

    def var(self, *name):
        return self.names.setdefault(name, len(self.names))

    def rule(self, terms, low, high):
        self.rows.append(terms)
        self.low.append(low)
        self.high.append(high)

    def at_most(self, terms, high):
        self.rule(terms, -np.inf, high)

    def implies(self, var, others):
        """When `var` is 1, so is at least one of the others."""
        self.at_most([(var, 1)] + [(o, -1) for o in others], 0)

    def solve(self, terms):
        """The least sum of `terms`."""
        n = len(self.names)
        if n == 0:
            return np.zeros(0)
        cost = np.zeros(n)
        for var, weight in terms:
            cost[var] += weight
        at = [(r, var, weight) for r, row in enumerate(self.rows) for var, weight in row]
        constraints = []
        if self.rows:
            rows, cols, data = zip(*at) if at else ((), (), ())
            matrix = csr_array((data, (rows, cols)), shape=(len(self.rows), n))
            constraints = [LinearConstraint(matrix, self.low, self.high)]
        found = milp(cost, integrality=np.ones(n), bounds=Bounds(0, 1), constraints=constraints,
                     options={"mip_rel_gap": 0.0})
        if found.status != 0:
            raise RuntimeError(f"the solver gave up: {found.message}")
        return np.rint(found.x)


def can_fire(output, fires):
    """Whether an output can fire that way."""
    if output["type"] == "open-collector":
        return fires == "negative-applied"
    contact = "normally_open" if fires.endswith("-applied") else "normally_closed"
    return contact in output["terminals"]


def seven(job):
    """The seven numbers of the best plan."""
    board = job["board"]
    eol = block(board, "eol") or {}
    cores = cores_of(job)
    items = [Item(job, fit, cores) for fit in job["survey"].get("fit", [])]
    model = Model()
    sums = {name: [] for name in SEVEN}
    fixed = dict.fromkeys(SEVEN, 0)

    ways = {i: [(model.var("way", i, w), way) for w, way in enumerate(item.ways)] for i, item in enumerate(items)}
    for i, item in enumerate(items):
        model.at_most([(v, 1) for v, _ in ways[i]], 1)
        name = "unserved_want" if item.want else "unserved_must"
        fixed[name] += 1
        for v, way in ways[i]:
            sums[name].append((v, -1))
            if item.unmonitored(way):
                sums["unmonitored"].append((v, 1))
            if item.opened(way, eol):
                sums["opened"].append((v, 1))

    core_rules(model, sums, items, ways, cores)
    input_rules(model, sums, items, ways, board.get("inputs", []))
    output_rules(model, items, ways, board.get("outputs", []))

    most = len(items) + 1
    cores_in_all = sum(len(c) for c in cores) + 1
    for group, base in ((SEVEN[:3], most), (SEVEN[3:5], most), (SEVEN[5:], cores_in_all)):
        terms = []
        for n, name in enumerate(group):
            terms += [(v, w * base ** (len(group) - 1 - n)) for v, w in sums[name]]
        found = model.solve(terms)
        for name in group:
            value = int(sum(w * found[v] for v, w in sums[name]))
            fixed[name] += value
            model.rule(sums[name] or [], value, value)
    return [fixed[name] for name in SEVEN]


def core_rules(model, sums, items, ways, cores):
    """Cores of each cable: no more than are usable; what is used and what is moved."""
    for c, cable in enumerate(cores):
        usable, used = sum(core.usable for core in cable), []
        for i, item in enumerate(items):
            for v, way in ways[i]:
                if way.cable != c:
                    continue
                needs = item.own_cores(way)
                there = {k.function for k in cable if k.usable and k.owner == item.name and k.function}
                moved = sum(1 for f in needs if not (item.keep and f in there))
                used.append((v, len(needs)))
                sums["moved"].append((v, moved))
                for side, needed in (("supply+", item.positive), ("supply-", item.negative)):
                    if needed:
                        model.implies(v, [model.var("rail", c, item.fed_by, side)])
        for side in ("supply+", "supply-"):
            rails = [v for name, v in model.names.items() if name[0] == "rail" and name[1] == c and name[3] == side]
            used += [(v, 1) for v in rails]
            sums["moved"] += [(v, 1) for v in rails]
            surveyed = next((k for k in cable if k.function == side), None)
            if surveyed is not None and surveyed.usable and rails:
                stays = model.var("stays", c, side)
                kept = [v for i, item in enumerate(items) if item.keep and (
                    item.positive if side == "supply+" else item.negative) for v, way in ways[i] if way.cable == c]
                model.implies(stays, kept)
                sums["moved"].append((stays, -1))
        model.at_most(used, usable)
        sums["used"] += used


def input_rules(model, sums, items, ways, inputs):
    """Alarm loops and the tamper loop on the board's inputs."""
    loop_on = {n: model.var("tamper-loop", n) for n, put in enumerate(inputs)
               if "closed-loop" in put["accepts"] and put.get("use", "any") != "alarm"}
    model.at_most([(v, 1) for v in loop_on.values()], 1)
    to_negative = [v for n, v in loop_on.items() if inputs[n].get("return") == "negative"]
    one_core = []
    taken = {n: [] for n in range(len(inputs))}
    loops = {n: [] for n in range(len(inputs))}
    for n, v in loop_on.items():
        taken[n].append(v)
    for i, item in enumerate(items):
        for v, way in ways[i]:
            if way.joins:
                model.implies(v, list(loop_on.values()))
                if item.returns == "negative":
                    one_core.append(v)
                    model.implies(v, to_negative)
        for wiring in ("closed-loop", "single-eol", "double-eol"):
            planned = [v for v, way in ways[i] if way.wiring == wiring]
            if not planned:
                continue
            at = []
            for n, put in enumerate(inputs):
                if wiring in put["accepts"] and put.get("use", "any") != "tamper":
                    on = model.var("loop", i, n, wiring)
                    at.append(on)
                    loops[n].append(on)
                    if wiring == "closed-loop" and item.series_key():
                        series = model.var("series", n, item.series_key())
                        model.implies(on, [series])
                        if series not in taken[n]:
                            taken[n].append(series)
                    else:
                        taken[n].append(on)
            model.rule([(v, 1) for v in at] + [(v, -1) for v in planned], 0, 0)
    model.at_most([(v, 1) for v in one_core], 1)
    for n in range(len(inputs)):
        model.at_most([(v, 1) for v in taken[n]], 1)
        if loops[n]:
            carries = model.var("carries", n)
            model.implies(carries, loops[n])
            sums["shared"] += [(v, 1) for v in loops[n]] + [(carries, -1)]


def output_rules(model, items, ways, outputs):
    """Each trigger on an output that can fire it."""
    modes = {o: {} for o in range(len(outputs))}
    amps = {o: [] for o in range(len(outputs))}
    for i, item in enumerate(items):
        served = [(v, -1) for v, _ in ways[i]]
        if not served:
            continue
        for k, trigger in enumerate(item.triggers):
            on = []
            for o, output in enumerate(outputs):
                if not can_fire(output, trigger["fires"]):
                    continue
                v = model.var("fires", i, k, o)
                on.append((v, 1))
                supply = item.fed_by if output["type"] == "relay" else None
                mode = (trigger["fires"], supply)
                modes[o].setdefault(mode, model.var("mode", o, mode))
                model.implies(v, [modes[o][mode]])
                if trigger.get("current"):
                    amps[o].append((v, round(quantity(trigger["current"]) * 1e3, 6)))
            model.rule(on + served, 0, 0)
    for o, output in enumerate(outputs):
        model.at_most([(v, 1) for v in modes[o].values()], 1)
        if output.get("limit") and amps[o]:
            model.at_most(amps[o], quantity(output["limit"]) * 1e3 + 1e-6)


def main(arguments):
    if len(arguments) != 2 or arguments[0] not in ("library", "jobs"):
        sys.exit(__doc__)
    if arguments[0] == "library":
        jobs = read_library(arguments[1])
    else:
        jobs = json.loads(pathlib.Path(arguments[1]).read_text(encoding="utf-8"))
    json.dump({job["name"]: seven(job) for job in jobs}, sys.stdout, indent=0)


if __name__ == "__main__":
    main(sys.argv[1:])

"""Loading totals and battery sums, worked a second time (DESIGN.md 5.3 and 5.5, from the text alone).

    second_figures.py LIBRARY-DIR PACKS-DIR

Reads cards and surveys with PyYAML and, from each pack.json, only which items are served and which cores they
have; works the sums again and holds them against the figures of the same pack.json. Prints each difference and
ends with 1 if there is any."""

import json
import pathlib
import sys

import yaml

from plan_milp import Item, block, cores_of, read_library

UNITS = {"A": 1, "mA": 1e-3, "Ah": 1, "mAh": 1e-3, "V": 1, "h": 1, "min": 1 / 60, "s": 1 / 3600, "C": 1}
CURRENTS = ("standby", "alarm")


def number(text):
    """A quantity in volts, amperes, ampere-hours, hours or degrees; nothing for nothing."""
    if text is None:
        return None
    value, unit = text.split()
    return float(value) * UNITS[unit]


def add(values):
    """A sum that is not known when a part of it is not known."""
    total = 0.0
    for value in values:
        if value is None:
            return None
        total += value
    return total


def cards(library, kind):
    return {p.stem: yaml.load(p.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
            for p in pathlib.Path(library, kind).glob("*.yaml")}


def draws(block_, which):
    """Amperes of a block that gives standby and alarm; alarm not given is the same as standby."""
    return number(block_.get(which, block_.get("standby")))


class Load:
    """A served item: what it draws and where."""

    def __init__(self, item, device):
        self.item = item
        own = block(device, "supply")
        self.own = {which: draws(own, which) if own else 0.0 for which in CURRENTS}
        self.triggers = [(t["trigger"], t["fires"], number(t.get("current"))) for t in item.triggers]

    def all(self, which):
        """All it draws: in alarm its triggers too."""
        return add([self.own[which]] + ([amps for _, _, amps in self.triggers] if which == "alarm" else []))

    def side(self, applied):
        """What one side of its pair carries in alarm: its own, the removed triggers, the applied ones of that side."""
        through = [a for _, f, a in self.triggers if f.endswith("-removed") or f == applied]
        return add([self.own["alarm"]] + through)


class Site:
    """A survey with its pack."""

    def __init__(self, job, library, pack):
        self.job, self.pack, self.survey, self.board = job, pack, job["survey"], job["board"]
        power = self.survey.get("power")
        self.kind = power if power in ("panel", "board") else "supply"
        unit = job[power] if power in ("panel", "board") else cards(library, "supplies").get(power)
        self.unit, self.power = unit, block(unit, "power") if unit else None
        served = {i["item"]: i["cable"] for i in pack["plan"]["items"]}
        items = [Item(job, fit, cores_of(job)) for fit in self.survey["fit"]]
        self.loads = []
        for item, fit in zip(items, self.survey["fit"]):
            if item.name in served:
                _, device = item.reach(self.survey, fit)
                self.loads.append((Load(item, job["devices"][device]), served[item.name]))
        rules = cards(library, "rules")[self.survey.get("rules", "en-50131")]
        self.rules, self.grade = rules, rules["grades"].get(self.survey.get("grade"))

    def on_supply(self, n, which):
        return add(load.all(which) for load, _ in self.loads if load.item.fed_by == n)

    def on_source(self, which):
        feed = 0.0 if self.kind == "board" else draws(self.board["feed"], which)
        others = [draws(load, which) for load in self.survey.get("loads", [])]
        return add([feed] + others + [load.all(which) for load, _ in self.loads])

    def with_own(self, which):
        return add([number(self.power.get("own")), self.on_source(which)])

    def rating(self, unit, mark):
        return next((number(f["rating"]) for f in unit["fuses"] if f["mark"] == mark), None)

    def loading(self):
        """Row name -> standby, alarm, limit, alarm limit."""
        rows = {}
        supplies = self.board.get("supplies", [])

        def pair(work):
            return [work(which) for which in CURRENTS]

        for n, supply in enumerate(supplies):
            limit = number(supply.get("limit"))
            rows["supply:" + supply["supply"]] = [
                *pair(lambda w: self.on_supply(n, w)), limit, number(supply.get("alarm_limit")) or limit]
        if self.power:
            limit = number(self.power.get("limit"))
            rows["source"] = [*pair(self.on_source), limit, number(self.power.get("alarm_limit")) or limit]
        guarded = {}
        for n, supply in enumerate(supplies):
            if supply.get("fuse"):
                guarded.setdefault(supply["fuse"], []).append(n)
        for mark, which_supplies in guarded.items():
            rating = self.rating(self.board, mark)
            sums = pair(lambda w: add(self.on_supply(n, w) for n in which_supplies))
            rows["fuse:board:" + mark] = [*sums, rating, rating]
        if self.power and self.power.get("fuse"):
            rating = self.rating(self.unit, self.power["fuse"])
            rows[f"fuse:{self.kind}:{self.power['fuse']}"] = [*pair(self.on_source), rating, rating]
        battery = block(self.power, "battery") if self.power else None
        if battery and battery.get("fuse"):
            rating = self.rating(self.unit, battery["fuse"])
            rows[f"fuse:{self.kind}:{battery['fuse']}"] = [*pair(self.with_own), rating, rating]
        self.output_rows(rows)
        self.core_rows(rows)
        return rows

    def output_rows(self, rows):
        on = {}
        for t in self.pack["triggers"]:
            on.setdefault(t["output"], []).append((t["item"], t["trigger"]))
        amps = {(load.item.name, name): a for load, _ in self.loads for name, _, a in load.triggers}
        for output in self.board.get("outputs", []):
            if output["output"] not in on:
                continue
            limit = number(output.get("limit"))
            total = add(amps[key] for key in on[output["output"]])
            rows["output:" + output["output"]] = [0.0, total, limit, limit]

    def core_rows(self, rows):
        for cable in self.pack["plan"]["cables"]:
            kind = next(c["type"] for c in self.survey["cables"] if c["cable"] == cable["cable"])
            rating = number(self.job["cables"][kind].get("rating"))
            here = [load for load, at in self.loads if at == cable["cable"]]
            standby, alarm = [], []
            for n, supply in enumerate(self.board.get("supplies", [])):
                fed = [load for load in here if load.item.fed_by == n]
                if not fed:
                    continue
                names = {load.item.name for load in fed}
                count = {side: sum(k["function"] == side and bool(names & set(k["items"])) for k in cable["cores"])
                         for side in ("supply+", "supply-")}
                sides = (("supply+", "negative-applied"), ("supply-", "positive-applied"))
                alarm += [add(load.side(f) for load in fed) / count[s] for s, f in sides if count[s]]
                standby.append(add(load.own["standby"] for load in fed) / min(c for c in count.values() if c))
            alarm += [a for load in here for _, _, a in load.triggers]
            if rating is not None and (standby or alarm):
                rows["core:" + cable["cable"]] = [max(standby, default=0.0), max(alarm, default=0.0), rating, rating]

    def factor(self):
        points = [(number(p["at"]), float(p["factor"])) for p in self.rules["temperature"]]
        t = number(self.survey.get("temperature", "20 C"))
        for (low, a), (high, b) in zip(points, points[1:]):
            if low <= t <= high:
                return a + (b - a) * (t - low) / (high - low)
        return points[0][1] if t < points[0][0] else points[-1][1]

    def battery(self):
        """The battery's figures that are sums; those that rest on something unknown are nothing."""
        found = dict.fromkeys(["standby_a", "alarm_a", "standby_h", "alarm_h", "required_ah", "fitted_ah", "enough",
                               "smallest_enough_ah", "recharge_h", "recharge_limit_h"])
        if self.grade:
            reported = self.survey["site"].get("mains_fail_reported", "false") == "true"
            found["standby_h"] = number(self.grade["standby_reported" if reported else "standby"])
            found["alarm_h"], found["recharge_limit_h"] = number(self.grade["alarm"]), number(self.grade["recharge"])
        there = block(self.survey, "battery") or {}
        capacity = number(self.survey.get("new_battery", there.get("capacity")))
        found["fitted_ah"] = capacity
        if not self.power:
            return found
        found["standby_a"], found["alarm_a"] = self.with_own("standby"), self.with_own("alarm")
        worked = [found[k] for k in ("standby_a", "alarm_a", "standby_h", "alarm_h")]
        if None not in worked:
            if capacity is not None:
                found["required_ah"] = self.required(capacity, *worked)
                found["enough"] = found["required_ah"] <= capacity + 1e-9
            fits = sorted(number(c) for c in (block(self.power, "battery") or {}).get("fits", []))
            found["smallest_enough_ah"] = next((c for c in fits if self.required(c, *worked) <= c + 1e-9), None)
        charge = number(self.power.get("charge"))
        if capacity is not None and charge:
            found["recharge_h"] = 0.8 * capacity / (0.9 * charge)
        return found

    def required(self, capacity, standby_a, alarm_a, standby_h, alarm_h):
        steeper = float(self.rules["peukert"]) - 1

        def phase(amps, hours):
            return amps * hours * max(1.0, (amps / (capacity / 20)) ** steeper) if amps else 0.0

        both = phase(standby_a, standby_h) + phase(alarm_a, alarm_h)
        return both * float(self.rules["ageing"]) / self.factor()


def same(ours, theirs):
    if isinstance(ours, bool) or isinstance(theirs, bool) or ours is None or theirs is None:
        return ours == theirs
    return abs(ours - theirs) <= 1e-6 * max(1.0, abs(theirs))


def main(library, packs):
    compared, differ = 0, []
    for job in read_library(library):
        pack = json.loads(pathlib.Path(packs, job["name"], "pack.json").read_text(encoding="utf-8"))
        site = Site(job, library, pack)
        rows = site.loading()
        printed = {row["what"]: row for row in pack["electrics"]["loading"]}
        if set(rows) != set(printed):
            differ.append(f"{job['name']}: rows only in one: {sorted(set(rows) ^ set(printed))}")
        for what in sorted(set(rows) & set(printed)):
            for key, value in zip(("standby_a", "alarm_a", "limit_a", "alarm_limit_a"), rows[what]):
                compared += 1
                if not same(printed[what][key], value):
                    differ.append(f"{job['name']}: {what} {key}: pack {printed[what][key]}, here {value}")
        for key, value in site.battery().items():
            compared += 1
            if not same(pack["battery"][key], value):
                differ.append(f"{job['name']}: battery {key}: pack {pack['battery'][key]}, here {value}")
    print(f"{compared} figures compared, {len(differ)} differ")
    if differ:
        sys.exit("\n".join(differ))


if __name__ == "__main__":
    main(*sys.argv[1:])

"""A second, small interpreter of the catalogue: what a shipped scenario's answer claims, worked out again.

    interpret.py PROGRAM SCENARIO...

It reads the YAML of `catalogues/` and of the scenario and, of the program's own answer (`--format json`), only which
things are in which bag, and the demands. From these it works out masses, rooms, what is to be bought, what meets the
needs, the wheel loads, the hours lost with nothing aboard, and for a single rider every term of the objective, and
compares them with the figures of the answer. It shares no code with the program and nothing but the files.
"""

import json
import math
import re
import subprocess
import sys
from collections import defaultdict
from pathlib import Path

import yaml

ROOT = Path(__file__).resolve().parents[2]
SURFACES = ("sealed", "gravel", "track", "rough")
SKILLS = ("anyone", "handy", "skilled", "expert")
NIGHTLY = ("shelter", "sleep", "cooking")
# Petrol that fills the last tenth of the tank, in kilograms a litre of tank (EN 228:2012, the middle of its densities).
LAST_TENTH = 0.1 * 0.7475
# Tyre load index to kilograms (ETRTO and TRA tables; the part that motorcycle tyres use).
LOAD_INDEX = dict(zip(range(30, 91), (
    106, 109, 112, 115, 118, 121, 125, 128, 132, 136, 140, 145, 150, 155, 160, 165, 170, 175, 180, 185, 190, 195, 200, 206,
    212, 218, 224, 230, 236, 243, 250, 257, 265, 272, 280, 290, 300, 307, 315, 325, 335, 345, 355, 365, 375, 387, 400, 412,
    425, 437, 450, 462, 475, 487, 500, 515, 530, 545, 560, 580, 600)))

UNITS = {
    "mg": 1e-3, "g": 1.0, "kg": 1000.0, "mL": 1.0, "ml": 1.0, "L": 1000.0, "l": 1000.0, "mm": 1.0, "cm": 10.0, "m": 1000.0,
    "min": 1 / 60, "h": 1.0, "hours": 1.0, "day": 24.0, "days": 24.0, "nights": 24.0, "km": 1.0, "°C": 1.0, "C": 1.0, "%": 0.01, "USD": 1.0,
}


class Loader(yaml.SafeLoader):
    """YAML as it is written: dates and the like stay texts."""


Loader.yaml_implicit_resolvers = {
    key: [(tag, regexp) for tag, regexp in resolvers if tag != "tag:yaml.org,2002:timestamp"]
    for key, resolvers in yaml.SafeLoader.yaml_implicit_resolvers.items()
}


def amount(value):
    """A number, or a number with a unit, in grams, millilitres, millimetres, hours, kilometres or the currency."""
    if value is None:
        return 0.0
    if isinstance(value, (int, float)):
        return float(value)
    match = re.fullmatch(r"\s*(-?[0-9.]+)\s*(\S+)?\s*", value)
    if not match:
        raise ValueError(f"no amount: {value}")
    return float(match[1]) * (UNITS[match[2]] if match[2] else 1.0)


def counted(value):
    """How many of each: a mapping, or a list or a single name for one of each."""
    if isinstance(value, str):
        return {value: 1}
    if isinstance(value, list):
        counts = defaultdict(int)
        for name in value:
            counts[str(name)] += 1
        return counts
    return {str(name): int(count) for name, count in (value or {}).items()}


def many(value):
    """One text or a list of them."""
    return [str(one) for one in (value if isinstance(value, list) else [value])]


def by_surface(value):
    """Four numbers, those not stated 0."""
    return [amount((value or {}).get(surface, 0)) for surface in SURFACES]


def read_catalogue():
    """All sections of all files, with `like` and sizes resolved."""
    sections = defaultdict(dict)
    for path in sorted((ROOT / "catalogues").glob("*.yaml")):
        for section, entries in (yaml.load(path.read_text(), Loader) or {}).items():
            if isinstance(entries, dict):
                sections[section].update(entries)
            else:
                sections[section] = entries
    # What was worked out from evidence stands in place of what was typed in.
    for key, rate in sections["rates"].items():
        sections["failures"][key] = {**sections["failures"][key], "rate": rate}
    if "fall_rate" in sections:
        sections["model"]["falls_per_1000_km"] = sections["fall_rate"]["per_1000_km"]
    for section in ("items", "bags", "bikes", "failures"):
        sections[section] = {key: inherited(sections[section], key) for key in sections[section]}
    for item in sections["items"].values():
        for key in ("provides", "holds", "requires"):
            item[key] = counted(item.get(key))
    for failure in sections["failures"].values():
        for repair in (failure.get("repairs") or {}).values():
            for key in ("needs", "uses"):
                repair[key] = counted(repair.get(key))
    for section in ("functions", "stocks"):
        sections[section] = {
            fill(key, {"size": size}): json.loads(fill_json(entry, size)) if size is not None else entry
            for key, entry in sections[section].items()
            for size in [None if s is None else str(s) for s in (entry.get("sizes") or [None])]
        }
    return sections


def inherited(entries, key):
    """An entry with everything that it takes over from what it is like."""
    own = json.loads(json.dumps(entries[key]))
    like = own.pop("like", None)
    if like is None:
        return own
    base = inherited(entries, like)
    attributes = {**base.get("attributes", {}), **own.get("attributes", {})}
    if "range" in own:
        base = {key: value for key, value in base.items() if key not in ("tank", "consumption")}
    if "tank" in own or "consumption" in own:
        base = {key: value for key, value in base.items() if key != "range"}
    merged = {**base, **own}
    if attributes:
        merged["attributes"] = attributes
    return merged


def fill_json(entry, size):
    return json.dumps(entry, ensure_ascii=False).replace("{size}", size)


def fill(text, values):
    """A name with its holes filled; `None` where a value is missing."""
    for _ in range(20):
        match = re.search(r"\{([^{}]+)\}", text)
        if not match:
            return text
        value = values.get(match[1].strip())
        if value is None:
            return None if "size" not in values else text
        text = text[: match.start()] + str(value) + text[match.end():]
    raise ValueError(text)


class Trip:
    """A scenario of one rider with the catalogue, as the rider's answer needs them."""

    def __init__(self, catalogue, scenario, rider):
        self.c, self.s, self.rider = catalogue, scenario, rider
        self.bike = catalogue["bikes"][rider["bike"]]
        self.attributes = {**(self.bike.get("attributes") or {}), "energy": "battery" if "range" in self.bike else "fuel"}
        self.legs = [leg for leg in scenario["trip"]["legs"] if rider["name"] in leg.get("riders", [rider["name"]])]
        self.prices = {**catalogue["prices"], **(scenario.get("prices") or {})}
        self.never = set(scenario.get("never") or [])
        own = [bag for bag in rider.get("bags") or [] if bag not in (self.bike.get("bags") or [])]
        self.own_bags = list(dict.fromkeys(own))
        self.all_bags = list(dict.fromkeys((self.bike.get("bags") or []) + own))
        self.owned = defaultdict(int)
        for source in (self.bike.get("toolkit"), rider.get("owns")):
            for item, count in counted(source).items():
                self.owned[item] += count
        self.failures = {key: f for key, f in catalogue["failures"].items() if self.applies(f) and self.on_such_trips(f)}

    def item(self, key):
        return self.c["items"][key]

    def on_such_trips(self, failure):
        return self.s["trip"].get("style") in (failure.get("styles") or [self.s["trip"].get("style")])

    def applies(self, entry):
        wanted = (entry.get("applies") or {}).items()
        return all(str(self.attributes.get(name)) in many(values) for name, values in wanted)

    # Riding

    def falls(self, leg):
        model = self.c["model"]
        per_km = by_surface(model["falls_per_1000_km"])
        km = by_surface(leg["km"])
        return sum(r * d for r, d in zip(per_km, km)) / 1000 * amount(model["riding_skill"][self.rider["riding_skill"]])

    def modifier(self, key):
        done = set(self.bike.get("fitted") or []) | set(self.s.get("done") or [])
        factor = 1.0
        for part in sorted(done):
            entry = self.c["preparations"].get(part)
            if entry and self.applies(entry):
                factor *= amount((entry.get("effects") or {}).get(key, 1))
        return factor

    def rate(self, failure):
        rate = failure["rate"]
        if "share_of_system" in rate:
            system = self.c["systems"][failure["system"]]
            ladder = by_surface(self.c["ladders"][rate["ladder"]])
            anchor = amount(system["per_1000_km"]) * amount(rate["share_of_system"])
            return [step * anchor for step in ladder]
        return by_surface(rate.get("per_1000_km"))

    def mean(self, key, leg):
        failure = self.failures[key]
        rate = failure["rate"]
        ridden = sum(r * d for r, d in zip(self.rate(failure), by_surface(leg["km"]))) / 1000
        per_day, per_fall = amount(rate.get("per_day")), amount(rate.get("per_fall"))
        return self.modifier(key) * (ridden + per_day * amount(leg["days"]) + per_fall * self.falls(leg))

    # Costs

    def hours_of(self, money):
        hour = amount(self.prices["hour"])
        return money / hour if hour > 0 else 0.0

    def cost(self, key, leg):
        failure, help_ = self.failures[key], amount(leg["hours_to_help"])
        night = amount(self.prices["night"]) if help_ >= amount(self.prices["night_from"]) else 0.0
        fetched = help_ + amount(self.prices["rest_of_day"]) + self.hours_of(amount(self.prices["recovery"]) + night)
        if failure["outcome"] == "stops":
            return fetched, help_ * amount(self.prices["dread"])
        if failure["outcome"] == "limps":
            return fetched * amount(failure["limps_share"]), 0.0
        return amount(failure["nags_hours"]), 0.0

    def hours_empty(self):
        return sum(self.mean(key, leg) * self.cost(key, leg)[0] for key in self.failures for leg in self.legs)

    def company(self, leg):
        return len(leg.get("riders") or self.s["riders"])

    def spared(self, key, repair, leg):
        hours, dread = self.cost(key, leg)
        restores = amount(repair["restores"])
        spared = (hours + dread) * restores - amount(repair["time"])
        if self.company(leg) < repair.get("riders", 1) or spared <= 0:
            return 0.0, 0.0
        return spared, restores * dread

    # What a kit can do

    def functions(self, items):
        there = {name for key in items for name in self.item(key).get("provides") or {}}
        while True:
            more = {
                key for key, entry in self.c["functions"].items()
                if key not in there and any(all(part in there for part in way) for way in entry.get("also_from") or [])
            }
            if not more:
                return there
            there |= more

    def usable(self, bag):
        bag = self.c["bags"][bag]
        return amount(bag["volume"]) * amount(bag["packing"])

    def fits(self, key, bag):
        item, entry = self.item(key), self.c["bags"][bag]
        return (amount(item["longest"]) <= amount(entry["longest"]) and amount(item["volume"]) <= self.usable(bag)
                and amount(item["mass"]) <= amount(entry["max_load"]) and item["kind"] not in (entry.get("refuses") or []))

    def possible(self):
        items = [k for k in self.c["items"] if k not in self.never and any(self.fits(k, bag) for bag in self.all_bags)]
        while True:
            functions = self.functions(items)
            kept = [k for k in items if all(name in functions for name in self.item(k).get("requires") or {})]
            if len(kept) == len(items):
                return functions, {name for k in items for name in self.held(k)}
            items = kept

    def held(self, key):
        """What an item holds for breakdowns: nothing where a need for fuel takes it."""
        item = self.item(key)
        fuel = [need for need, amount_ in self.demanded.items() if self.c["needs"][need]["rule"] == "fuel" and amount_ > 0]
        return {} if any(need in (item.get("meets") or {}) for need in fuel) else item.get("holds") or {}

    def repairs(self, key, possible):
        """Repairs worth beginning that some kit allows, the one that saves most first, as dictionaries."""
        attributes = {name: str(value) for name, value in self.attributes.items()}
        functions, stocks = possible
        found = []
        for name, repair in (self.failures[key].get("repairs") or {}).items():
            if SKILLS.index(repair.get("skill", "anyone")) > SKILLS.index(self.rider["repair_skill"]):
                continue
            each = [(self.mean(key, leg), self.spared(key, repair, leg)) for leg in self.legs]
            benefit, dread = (sum(mean * part[at] for mean, part in each) for at in (0, 1))
            needs, uses = defaultdict(int), defaultdict(int)
            holes = False
            for source, into, add in ((repair.get("needs"), needs, False), (repair.get("uses"), uses, True)):
                for text, count in (source or {}).items():
                    filled = fill(text, attributes)
                    holes |= filled is None
                    into[filled] = into[filled] + count if add else max(into[filled], count)
            if benefit <= 0 or holes or not set(needs) <= functions or not set(uses) <= stocks:
                continue
            found.append({"benefit": benefit, "dread": dread, "needs": needs, "uses": uses, "repair": repair})
        return sorted(found, key=lambda way: -way["benefit"])

    def gains(self, kit):
        """Shares of each failure's repairs, with stocks that reach as far as they do: by iteration until still."""
        possible = self.possible()
        there = self.functions(kit)

        def has(name):
            direct = sum((self.item(k).get("provides") or {}).get(name, 0) * n for k, n in kit.items())
            return direct or (1 if name in there else 0)

        carried = defaultdict(int)
        for key, count in kit.items():
            for name, units in self.held(key).items():
                carried[name] += units * count
        faults = []
        for key in self.failures:
            ways = self.repairs(key, possible)
            for way in ways:
                way["able"] = all(has(n) >= c for n, c in way["needs"].items()) and all(
                    carried[n] >= c for n, c in way["uses"].items())
            faults.append((key, sum(self.mean(key, leg) for leg in self.legs), ways))
        names = sorted({name for _, _, ways in faults for way in ways for name in way["uses"]})
        fills = dict.fromkeys(names, 1.0)
        for _ in range(1000):
            shares = [shared(ways, fills) for _, _, ways in faults]
            sources = {name: [] for name in names}
            for (_, mean, ways), own in zip(faults, shares):
                for name in names:
                    met = 0.0
                    for way, share in zip(ways, own):
                        if way["able"] and name in way["uses"]:
                            sources[name].append((mean * (1 - met), way["uses"][name]))
                            break
                        met += share
            after = {name: reach(sources[name], carried[name]) for name in names}
            still = max((abs(after[n] - fills[n]) for n in names), default=0.0) <= 1e-13
            fills = after
            if still:
                break
        shares = [shared(ways, fills) for _, _, ways in faults]
        saved = relief = 0.0
        for (_, _, ways), own in zip(faults, shares):
            for way, share in zip(ways, own):
                saved += share * (way["benefit"] - way["dread"])
                relief += share * way["dread"]
        return saved, relief, self.fall_hours(kit, faults, shares)

    def fall_hours(self, kit, faults, shares):
        model = self.c["model"]
        kg = self.mass(kit) / 1000
        total = 0.0
        for leg in self.legs:
            broken = 0.0
            for (key, _, ways), own in zip(faults, shares):
                left = self.cost(key, leg)[0]
                for way, share in zip(ways, own):
                    spared, dread = self.spared(key, way["repair"], leg)
                    left -= share * (spared - dread)
                broken += self.modifier(key) * amount(self.failures[key]["rate"].get("per_fall")) * left
            total += self.falls(leg) * (amount(model["hours_per_fall"]) + broken)
        return total * amount(model["load_sensitivity"]) / (amount(self.bike["mass"]) / 1000) * kg

    # Weight, money, packing

    def mass(self, kit):
        return sum(amount(self.item(k)["mass"]) * n for k, n in kit.items())

    def riding_hours(self, kit):
        speed, strain = by_surface(self.prices["speed_kmh"]), by_surface(self.prices["strain"])
        hard = sum(d / v * e for leg in self.legs for d, v, e in zip(by_surface(leg["km"]), speed, strain) if v > 0)
        moved = amount(self.bike["mass"]) + amount(self.rider["mass"]) + amount(self.rider.get("passenger"))
        moved += sum(amount(self.c["bags"][bag]["mass"]) for bag in self.own_bags)
        return amount(self.prices["weight"]) * hard / moved * self.mass(kit)

    def meets(self, key, need):
        part = (self.item(key).get("meets") or {}).get(need)
        if part is None:
            return 0.0
        if not isinstance(part, dict):
            return amount(part)
        coldest = min(amount(leg["lowest"]) for leg in self.legs) + (2.0 if sum(leg["nights"] for leg in self.legs) >= 2 else 0.0)
        graded = self.c["needs"][need]["rule"] == "sleep warmth" and self.s["trip"]["style"] == "camping"
        if graded and "down_to" in part and amount(part["down_to"]) > coldest:
            return 0.0
        return amount(part["amount"])

    def money_hours(self, kit):
        days = sum(amount(leg["days"]) for leg in self.legs)
        nights = sum(leg["nights"] for leg in self.legs)
        total = 0.0
        for key, count in kit.items():
            bought = max(0, count - self.owned[key])
            if bought == 0:
                continue
            item = self.item(key)
            serves = (self.prices.get("service") or {}).get(item["kind"])
            served = float(str(serves).split()[0]) if serves is not None else 0.0
            used = nights if item["kind"] in NIGHTLY else days
            share = min(1.0, used / served) if served > 0 else 1.0
            if self.is_owned_already(key):
                share = 1.0
            total += self.hours_of(amount(item["price"])) * share * amount(self.prices.get("buying", 1)) * bought
        return total

    def is_owned_already(self, key):
        """Do owned things do all that this one does?"""
        if self.owned[key] > 0:
            return False
        item = self.item(key)
        own = [(k, n) for k, n in self.owned.items() if k not in self.never and k in self.c["items"] and n > 0
               and any(self.fits(k, bag) for bag in self.all_bags)]
        provides = item.get("provides") or {}
        needs = [need for need in self.demanded if self.meets(key, need) > 0]
        if not provides and not needs:
            return False
        given = lambda name: sum((self.item(k).get("provides") or {}).get(name, 0) * n for k, n in own)
        return (all(given(name) >= n for name, n in provides.items())
                and all(sum(self.meets(k, need) * n for k, n in own) >= self.demanded[need] - 1e-9 * max(1, self.demanded[need]) for need in needs)
                and all(any(stock in self.held(k) for k, _ in own) for stock in self.held(key)))

    def wheels(self, bags):
        """Kilograms on the front and on the rear wheel, by moments about the rear contact patch."""
        base = amount(self.bike["wheelbase"])
        fill = round(amount(self.bike.get("tank")) / 1000 * LAST_TENTH * 1000) / 1000
        bike = amount(self.bike["mass"]) / 1000 + fill
        for part in self.s.get("done") or []:
            entry = self.c["preparations"].get(part)
            if entry and entry["type"] == "fitted" and part not in (self.bike.get("fitted") or []) and self.applies(entry):
                bike += amount(entry.get("mass")) / 1000
        masses = [(bike, amount(self.bike["front_share"]) * base), (amount(self.rider["mass"]) / 1000, amount(self.bike["rider_x"]))]
        if self.rider.get("passenger"):
            masses.append((amount(self.rider["passenger"]) / 1000, amount(self.bike["passenger_x"])))
        for bag in self.all_bags:
            entry = self.c["bags"][bag]
            own = amount(entry["mass"]) if bag in self.own_bags else 0.0
            masses.append(((own + self.mass(bags.get(bag, {}))) / 1000, amount(entry["ahead"])))
        front = sum(mass * ahead for mass, ahead in masses) / base
        return front, sum(mass for mass, _ in masses) - front


def shared(ways, fills):
    """Best repair first, each takes what its scarcest stock still reaches for."""
    open_, rest, shares = 1.0, dict(fills), []
    for way in ways:
        part = max(0.0, min([open_] + [rest[name] for name in way["uses"]])) if way["able"] else 0.0
        open_ -= part
        for name in way["uses"]:
            rest[name] -= part
        shares.append(part)
    return shares


def reach(sources, units):
    """E[min(U, units)] / E[U] of a compound Poisson demand U, by its probabilities (Panjer's recursion)."""
    sources = [(mean, each) for mean, each in sources if mean > 0]
    demand = sum(mean * each for mean, each in sources)
    if demand <= 0:
        return 1.0
    p = [math.exp(-sum(mean for mean, _ in sources))]
    for n in range(1, units):
        p.append(sum(mean * each * p[n - each] for mean, each in sources if each <= n) / n)
    met, below = 0.0, 0.0
    for n in range(units):
        below += p[n]
        met += 1 - below
    return min(1.0, met / demand)


class Check:
    """Compares figures and remembers what differs."""

    def __init__(self, name):
        self.name, self.compared, self.wrong = name, 0, []

    def same(self, what, claimed, found, tolerance=1e-6):
        self.compared += 1
        if claimed is None or abs(claimed - found) > tolerance * max(1.0, abs(found)):
            self.wrong.append(f"{self.name}: {what}: the answer says {claimed}, worked out again {found}")

    def at_most(self, what, found, limit):
        self.compared += 1
        if found > limit + 1e-6 * max(1.0, abs(limit)):
            self.wrong.append(f"{self.name}: {what}: {found} above {limit}")


def demanded(answer):
    return {need["id"]: need["demanded"] for need in answer["needs"]}


def bags_of(answer):
    """By bag, how many of each thing."""
    return {bag["id"]: {item["id"]: item["count"] for item in bag["items"]} for bag in answer["bags"]}


def of_bags(check, trip, bags):
    for bag, items in bags.items():
        entry = trip.c["bags"][bag]
        check.at_most(f"room of {bag}, mL", sum(amount(trip.item(k)["volume"]) * n for k, n in items.items()), trip.usable(bag))
        check.at_most(f"load of {bag}, g", trip.mass(items), amount(entry["max_load"]))
        for key in items:
            if not trip.fits(key, bag):
                check.wrong.append(f"{check.name}: {key} does not go into {bag}")


def of_wheels(check, trip, bags, load):
    front, rear = trip.wheels(bags)
    loaded = load["loaded"]
    # The answer has loads to the gram.
    check.same("front wheel, kg", loaded["front_g"] / 1000, round(front, 3), 1.1e-5)
    check.same("rear wheel, kg", loaded["rear_g"] / 1000, round(rear, 3), 1.1e-5)
    check.at_most("front tyre, kg", front, LOAD_INDEX[trip.bike["front_load_index"]])
    check.at_most("rear tyre, kg", rear, LOAD_INDEX[trip.bike["rear_load_index"]])
    check.at_most("everything, kg", front + rear, amount(trip.bike["max_mass"]) / 1000)


def single(check, catalogue, scenario, answer):
    trip = Trip(catalogue, scenario, scenario["riders"][0])
    trip.demanded = demanded(answer)
    bags = bags_of(answer)
    kit = defaultdict(int)
    for items in bags.values():
        for key, count in items.items():
            kit[key] += count
    of_bags(check, trip, bags)
    of_wheels(check, trip, bags, answer["loads"][0])
    check.same("mass of the kit, g", answer["totals"]["mass_g"], trip.mass(kit))
    check.same("volume, mL", answer["totals"]["volume_ml"], sum(amount(trip.item(k)["volume"]) * n for k, n in kit.items()))
    spent = sum(amount(trip.item(k)["price"]) * max(0, n - trip.owned[k]) for k, n in kit.items())
    check.same("to buy", answer["totals"]["to_buy"], spent)
    for need in answer["needs"]:
        carried = sum(trip.meets(k, need["id"]) * n for k, n in kit.items())
        check.same(f"carried for {need['id']}", need["carried"], carried)
        check.at_most(f"demanded of {need['id']}", need["demanded"], carried)
    saved, relief, falls = trip.gains(kit)
    terms = answer["figures"]["terms"]
    check.same("hours lost with nothing aboard", answer["figures"]["hours_lost_empty"], trip.hours_empty())
    check.same("hours saved", terms["saved_h"], saved)
    check.same("dread saved", terms["dread_saved_h"], relief)
    check.same("hours of riding with the weight", terms["riding_h"], trip.riding_hours(kit))
    check.same("hours of falls by weight", terms["falls_h"], falls)
    check.same("hours for money", terms["money_h"], trip.money_hours(kit))
    check.same("hours of packing", terms["packing_h"], amount(trip.prices["thing"]) * sum(kit.values()))


def group(check, catalogue, scenario, answer):
    empty = 0.0
    for at, (rider, card) in enumerate(zip(scenario["riders"], answer["riders"])):
        trip = Trip(catalogue, scenario, rider)
        trip.demanded = {}
        bags = bags_of(card)
        bags = {bag: {key.split(" of ")[0] if key not in catalogue["items"] else key: n for key, n in items.items()} for bag, items in bags.items()}
        of_bags(check, trip, bags)
        of_wheels(check, trip, bags, card["load"] if "load" in card else answer["loads"][at])
        empty += trip.hours_empty()
    check.same("hours lost with nothing aboard", answer["figures"]["hours_lost_empty"], empty)


def main(program, scenarios):
    catalogue = read_catalogue()
    failed = 0
    for path in scenarios:
        scenario = yaml.load(Path(path).read_text(), Loader)
        alone = len(scenario["riders"]) == 1
        run = subprocess.run([program, "pack" if alone else "split", path, "--format", "json"], capture_output=True, text=True, check=False)
        if run.returncode != 0:
            print(f"{path}: no answer: {run.stderr}")
            failed += 1
            continue
        check = Check(Path(path).stem)
        (single if alone else group)(check, catalogue, scenario, json.loads(run.stdout))
        print(f"{path}: {check.compared} figures worked out again, {len(check.wrong)} differ")
        for line in check.wrong:
            print("  " + line)
        failed += len(check.wrong)
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], sys.argv[2:]))

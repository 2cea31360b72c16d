#!/usr/bin/env python3
"""Random cellar years, reckoned by absolute amounts: cellar_years.py write YEARS SEED OUT.jsonl
                                                   cellar_years.py compare YEARS SEED LOTS.json

Shares nothing with vatwright but the form of an export. The book carries accounts per litre and joins them by volume;
this reckons how many grams are in which vessel. `write` makes an export of readings, additions, water, joins, parts
drawn off, new readings of volumes, slips that are withdrawn, and entries that come late; `compare` reads what
'vatwright book lots --format json' made of it, and ends with status 1 where they differ.
"""
import hashlib
import json
import random
import sys

ACID, PVPP = "acid added", "treated with"


class Vessel:
    def __init__(self, litres):
        self.litres, self.grams, self.silent = litres, {}, {}  # by account; not in them: nobody said anything

    def states(self, account, per_litre):
        self.grams[account], self.silent[account] = per_litre * self.litres, []


def figure(value, unit):
    return {"value": value, "unit": unit}


def account_json(account, per_litre):
    if account == ACID:
        return figure(per_litre, "g/L as tartaric acid")
    return {"value": {"PVPP": per_litre * 1000}, "unit": "mg/L"}


class Year:
    def __init__(self, number, seed):
        self.r, self.name, self.events, self.vessels = random.Random(f"{seed} {number}"), f"y{number}", [], {}
        self.slips = set()
        for i in range(self.r.randint(2, 4)):
            self.begin(f"{self.name}-T{i}")
        for i in range(self.r.randint(6, 14)):
            self.r.choice([self.add, self.add, self.water, self.join, self.join, self.draw, self.read, self.slip])(i)

    def tell(self, kind, payload):
        self.events.append((kind, payload))

    def full(self):
        return sorted(name for name, vessel in self.vessels.items() if vessel.litres > 1)

    def begin(self, name):
        vessel = self.vessels[name] = Vessel(float(self.r.randint(300, 9000)))
        readings = {"volume": figure(vessel.litres, "L"), "pH": figure(3.4, "pH")}
        for account, most in ((ACID, 2.0), (PVPP, 0.3)):
            if self.r.random() < 0.7:
                per_litre = round(self.r.uniform(0, most), 3)
                readings[account] = account_json(account, per_litre)
                vessel.states(account, per_litre)
        self.tell("measured", {"lot": name, "readings": readings})

    def add(self, _):
        if not self.full():
            return
        name = self.r.choice(self.full())
        vessel = self.vessels[name]
        account, per_litre, for_litres = self.r.choice([ACID, PVPP]), round(self.r.uniform(0.01, 0.5), 3), vessel.litres * self.r.uniform(0.8, 1.2)
        self.tell("done", {"calculation": "made.up", "lot": name, "for": for_litres,
                           "enters": {account: account_json(account, per_litre)}})
        vessel.silent.setdefault(account, [name])
        vessel.grams[account] = vessel.grams.get(account, 0) + per_litre * for_litres

    def water(self, _):
        if not self.full():
            return
        name = self.r.choice(self.full())
        litres = self.vessels[name].litres * self.r.uniform(0, 0.03)
        self.tell("done", {"calculation": "made.up", "lot": name, "poured": litres})
        self.vessels[name].litres += litres

    def into(self, name, parts):
        made = Vessel(sum(parts.values()))
        for account in (ACID, PVPP):
            if not any(account in self.vessels[part].silent for part in parts):
                continue
            made.grams[account], made.silent[account] = 0.0, []
            for part, litres in sorted(parts.items()):
                vessel = self.vessels[part]
                if account in vessel.silent:
                    made.grams[account] += vessel.grams[account] * litres / vessel.litres
                    made.silent[account] += [who for who in vessel.silent[account] if who not in made.silent[account]]
            made.silent[account] += [part for part in sorted(parts)
                                     if account not in self.vessels[part].silent and part not in made.silent[account]]
        for part, litres in parts.items():
            vessel = self.vessels[part]
            for account in vessel.grams:
                vessel.grams[account] *= 1 - litres / vessel.litres
            vessel.litres -= litres
        self.vessels[name] = made
        self.tell("done", {"calculation": "made.up", "lot": "", "volumes": {part: -litres for part, litres in parts.items()},
                           "makes": [name], "leaves": {name: {"volume": figure(made.litres, "L") | {"from": "booked"}}}})

    def join(self, i):
        if len(self.full()) < 2:
            return
        parts = self.r.sample(self.full(), self.r.randint(2, min(3, len(self.full()))))
        self.into(f"{self.name}-B{i}", {part: self.vessels[part].litres * self.r.choice([0.25, 0.5, 1.0]) for part in parts})

    def draw(self, i):
        if self.full():
            part = self.r.choice(self.full())
            self.into(f"{self.name}-R{i}", {part: self.vessels[part].litres * self.r.uniform(0.1, 0.9)})

    def read(self, _):
        if not self.full():
            return
        name = self.r.choice(self.full())
        vessel = self.vessels[name]
        litres = vessel.litres * self.r.uniform(0.95, 1.02)
        self.tell("measured", {"lot": name, "readings": {"volume": figure(litres, "L")}})
        vessel.grams = {account: grams * litres / vessel.litres for account, grams in vessel.grams.items()}
        vessel.litres = litres

    def slip(self, _):
        if self.full():
            self.slips.add(len(self.events))
            self.tell("done", {"calculation": "made.up", "lot": self.r.choice(self.full()), "poured": 100.0, "for": 1.0,
                               "enters": {ACID: account_json(ACID, 9.0)}})


def write(years, seed, out):
    number, previous = 0, "0" * 64

    def put(kind, at, payload):
        nonlocal number, previous
        number += 1
        text = json.dumps(payload, separators=(",", ":"))
        head = [previous, str(number), kind, at, at, "", text]
        hashed = hashlib.sha256("\n".join(head).encode()).hexdigest()
        out.write(json.dumps({"entry": number, "kind": kind, "at": at, "entered": at, "who": "", "previous": previous,
                              "hash": hashed}, separators=(",", ":"))[:-1] + ',"payload":' + text + "}\n")
        previous = hashed
        return number

    for y in range(years):
        year = Year(y, seed)
        order = list(range(len(year.events)))
        for i in range(len(order) - 1):  # some come late
            if year.r.random() < 0.1:
                order[i], order[i + 1] = order[i + 1], order[i]
        for i in order:
            kind, payload = year.events[i]
            # Years one after the other, the events of a year by the minute.
            total = y * 60 + i
            at = f"{2000 + total // 483840}-{1 + total // 40320 % 12:02d}-{1 + total // 1440 % 28:02d}T{total // 60 % 24:02d}:{total % 60:02d}:00+02:00"
            entry = put(kind, at, payload)
            if i in year.slips:
                put("withdrawn", at, {"corrects": entry, "why": "a slip"})


def near(ours, theirs):
    return abs(ours - theirs) <= 1e-8 * max(abs(ours), abs(theirs), 1e-3)


def compare(years, seed, lots):
    wrong, compared = [], 0
    for y in range(years):
        for name, vessel in Year(y, seed).vessels.items():
            facts = lots[name]["facts"]
            if not near(facts["volume"]["value"], vessel.litres) and vessel.litres > 1e-3:
                wrong.append(f"{name}: volume {facts['volume']['value']}, reckoned {vessel.litres}")
            if vessel.litres < 1e-3:
                continue
            for account in (ACID, PVPP):
                compared += 1
                said = facts.get(account)
                if (said is None) != (account not in vessel.silent):
                    wrong.append(f"{name}: {account} is {said}, reckoned {vessel.grams.get(account)}")
                elif said is not None:
                    value = said["value"] if account == ACID else said["value"].get("PVPP", 0) / 1000
                    if not near(value, vessel.grams[account] / vessel.litres):
                        wrong.append(f"{name}: {account} {value}, reckoned {vessel.grams[account] / vessel.litres}")
                    if sorted(said.get("not stated by", [])) != sorted(vessel.silent[account]):
                        wrong.append(f"{name}: {account} not stated by {said.get('not stated by')}, reckoned {vessel.silent[account]}")
    print(f"{compared} accounts compared, {len(wrong)} differ")
    print("\n".join(wrong[:20]))
    return 1 if wrong or not compared else 0


if sys.argv[1] == "write":
    with open(sys.argv[4], "w", encoding="utf-8") as file:
        write(int(sys.argv[2]), sys.argv[3], file)
else:
    with open(sys.argv[4], encoding="utf-8") as file:
        sys.exit(compare(int(sys.argv[2]), sys.argv[3], json.load(file)["lots"]))

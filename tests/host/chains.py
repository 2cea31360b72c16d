#!/usr/bin/python3
"""Random chains of steps on two lots and a blend of both, and the books of it kept anew: chains.py PROGRAM [N].

From the sheet come only the masses that were ordered. What they make of volume, sulfur dioxide, potassium,
acid, sugar and treatments is reckoned here as amounts in a tank: molar masses by periodictable, litres and
grams added up. Sugar takes up 0.62 L/kg in a must (common practice, no source), which is held to 3 % of the growth.
"""
import json
import random
import subprocess
import sys
import tempfile
from pathlib import Path

from periodictable import formula

program, count = sys.argv[1], int(sys.argv[2]) if len(sys.argv) > 2 else 100
METABISULFITE = formula("K2S2O5").mass
SULFUR_DIOXIDE, POTASSIUM = 2 * formula("SO2").mass / METABISULFITE, 2 * formula("K").mass / METABISULFITE
PLAIN = ("PVPP", "tannin", "activated carbon", "chitosan")  # of what a dose is counted in 'treated with'


class Tank:
    """Litres, and grams of each thing in them."""

    def __init__(self, litres, **grams):
        self.litres, self.grams = litres, dict(grams)

    def add(self, what, grams):
        self.grams[what] = self.grams.get(what, 0) + grams

    def part(self, litres):
        return Tank(litres, **{what: grams * litres / self.litres for what, grams in self.grams.items()})

    def join(self, other):
        joined = Tank(self.litres + other.litres, **self.grams)
        for what, grams in other.grams.items():
            joined.add(what, grams)
        return joined


def new_lot(dice):
    litres = round(10 ** dice.uniform(2.5, 4.5))
    read = {"total SO2": dice.randint(10, 80), "potassium": dice.randint(700, 1500), "sugar": dice.randint(150, 200),
            "tartaric acid": round(dice.uniform(2, 5), 1)}
    in_grams = {"total SO2": 1e-3, "potassium": 1e-3, "sugar": 1, "tartaric acid": 1}
    tank = Tank(litres, **{what: value * in_grams[what] * litres for what, value in read.items()})
    text = (f"{{stage: must, ethanol: 0 % vol, volume: {litres} L, pH: {dice.uniform(3.1, 3.7):.2f}, "
            f"titratable acidity: {read['tartaric acid'] + dice.uniform(2.6, 3.4):.1f} g/L as tartaric acid, malic acid: 2.5 g/L, "
            f"free SO2: {read['total SO2'] // 3} mg/L, total SO2: {read['total SO2']} mg/L, "
            f"potassium: {read['potassium']} mg/L, sugar: {read['sugar']} g/L, tartaric acid: {read['tartaric acid']} g/L}}")
    return tank, text


def new_step(dice, lot):
    """A step as a recipe says it, and the name of what its addition brings."""
    kind = dice.choice(("sulfite", "acid", "plain", "plain", "sugar", "rack"))
    if kind == "sulfite":
        return f"sulfite.addition: {{lot: {lot}, add: {dice.randint(20, 60)} mg/L, add as: SO2}}", "sulfite"
    if kind == "acid":
        return f"acid.addition: {{lot: {lot}, add: {dice.uniform(0.3, 2):.2f} g/L}}", "tartaric acid"
    if kind == "plain":
        substance = dice.choice(PLAIN)
        return f"cellar.dose: {{lot: {lot}, substance: {substance}, dose: {dice.randint(5, 40)} g/hL}}", substance
    if kind == "sugar":
        return f"sugar.enrichment: {{lot: {lot}, target potential alcohol: {dice.uniform(12, 13.5):.1f} % vol}}", "sugar"
    return f"cellar.racking: {{lot: {lot}, lees: {dice.uniform(0.5, 4):.1f} L, losses: 1 L}}", "rack"


def keep(tank, what, step):
    if what == "rack":
        return tank.part(step["results"]["racked volume"]["value"])
    for addition in step["additions"]:
        amount = addition["amount"]
        grams = amount["value"] * {"mg": 1e-3, "g": 1, "kg": 1000}[amount["unit"]]
        if what == "sulfite":
            tank.add("total SO2", grams * SULFUR_DIOXIDE)
            tank.add("potassium", grams * POTASSIUM)
        elif what == "sugar":
            tank.add("sucrose", grams)
            tank.litres += 0.62e-3 * grams
        else:
            tank.add(what, grams)
            if what == "tartaric acid":
                tank.add("acid added", grams)
    return tank


def near(found, wanted, part, what):
    if abs(found - wanted) > part * abs(wanted) + 1e-9:
        sys.exit(f"{what}: the sheet has {found}, the books {wanted}\n{recipe}")


UNITS = {"mg/L": 1e-3, "g/L": 1, "g/L as tartaric acid": 1, "L": 1, "hL": 100}


def compare(tank, after, where):
    def said(key):
        return after[key]["value"] * UNITS[after[key]["unit"]]

    grown = tank.grams.get("sucrose", 0) * 0.62e-3
    # Atomic weights differ between tables in the fifth figure; the rest is what is not known of the growth.
    loose = 3e-5 + 0.03 * grown / tank.litres
    near(said("volume"), tank.litres, loose, f"{where}: volume")
    # The law counts the acidity that a titration gains, within a thousandth or two of the acid's equivalents.
    for key, more in (("total SO2", 0), ("potassium", 0), ("tartaric acid", 0), ("acid added", 2e-3)):
        if tank.grams.get(key):
            near(said(key), tank.grams[key] / tank.litres, 2 * loose + more, f"{where}: {key}")
    # One gram of sucrose becomes as much of the two sugars that are read, and the water that splits it.
    split = 2 * formula("C6H12O6").mass / formula("C12H22O11").mass
    sugar = tank.grams["sugar"] + split * tank.grams.get("sucrose", 0)
    near(said("sugar"), sugar / tank.litres, 2 * loose, f"{where}: sugar")
    held = after.get("treated with", {"value": {}, "unit": "mg/L"})
    for substance in PLAIN:
        wanted = tank.grams.get(substance, 0) / tank.litres
        near(held["value"].get(substance, 0) * UNITS[held["unit"]], wanted, 2 * loose, f"{where}: {substance}")


folder = Path(tempfile.mkdtemp())
ordered = 0
for seed in range(count):
    dice = random.Random(seed)
    tanks, lots = {}, ""
    for lot in ("A", "B"):
        tanks[lot], text = new_lot(dice)
        lots += f"  {lot}: {text}\n"
    steps = []
    for _ in range(dice.randint(2, 7)):
        lot = dice.choice("AB")
        steps.append((lot, *new_step(dice, lot)))
    # What is taken for the blend is less than what racking leaves.
    taken = {lot: round(tank.litres * dice.uniform(0.2, 0.7)) for lot, tank in tanks.items()}
    joined = ", ".join(f"{lot}: {litres} L" for lot, litres in taken.items())
    recipe = (f"recipe: a chain\ndemo data: invented\nlots:\n{lots}steps:\n" + "".join(f"  - {s[1]}\n" for s in steps) +
              f"  - blend.mix: {{lots: {{{joined}}}, into: AB}}\n")
    file = folder / "chain.yaml"
    file.write_text(recipe)
    run = subprocess.run([program, "run", file, "--format", "json"], capture_output=True, text=True)
    if run.returncode not in (0, 1):
        sys.exit(f"{run.stderr}\n{recipe}")
    sheet = json.loads(run.stdout)
    for (lot, _, what), step in zip(steps, sheet["steps"]):
        tanks[lot] = keep(tanks[lot], what, step)
        ordered += len(step["additions"])
    after = {lot: states["after"] for lot, states in sheet["lots"].items()}
    blend = tanks["A"].part(taken["A"]).join(tanks["B"].part(taken["B"]))
    compare(blend, after["AB"], f"seed {seed}: the blend")
    for lot in "AB":
        compare(tanks[lot].part(tanks[lot].litres - taken[lot]), after[lot], f"seed {seed}: lot {lot}")
    file.unlink()
folder.rmdir()
if ordered < count:
    sys.exit(f"only {ordered} additions in {count} chains")
print(f"{count} chains, {ordered} additions: the books agree")

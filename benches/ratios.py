"""Prints the table of ratios that stands in benches/measured.md, in one run.

usage: python3 benches/ratios.py [SECONDS]      (numpy, PuLP and ortools from PyPI; a release build is made first)

Times are seconds of processor time, so that other work on the machine hardly shows.

SECONDS is the limit for each solve (60 if left out). What took all of it is marked: the ratio is then a bound.
"""

import json
import os
import pathlib
import random
import subprocess
import sys
import tempfile
import time

import pulp
from ortools.linear_solver import pywraplp

ROOT = pathlib.Path(__file__).resolve().parent.parent
PROGRAM = ROOT / "target/release/fardel"
SCENARIOS = ["day-ride", "five-day-loop", "high-country-week", "two-up-road"]
LIMIT = float(sys.argv[1]) if len(sys.argv) > 1 else 60.0


def row(*cells):
    print("| " + " | ".join(cells) + " |", flush=True)


def used():
    """Processor time of all finished children."""
    times = os.times()
    return times.children_user + times.children_system


def seconds(value):
    return f"{value:.2f} s" if value < 10 else f"{value:.0f} s"


def rehearsal(folder):
    party = folder / "party.json"
    subprocess.run(
        ["cargo", "bench", "--quiet", "--bench", "rehearse"],
        check=True, capture_output=True, cwd=ROOT, env={**os.environ, "FARDEL_PARTY": str(party)},
    )
    scenario, kit = ROOT / "scenarios/five-day-loop.yaml", folder / "kit.json"
    subprocess.run([PROGRAM, "pack", scenario, "--format", "json", "--out", kit], check=True)

    def ridden(trips):
        start = used()
        run = [PROGRAM, "rehearse", scenario, "--kit", kit, "--trips", str(trips), "--format", "json"]
        out = subprocess.run(run, check=True, capture_output=True, env={**os.environ, "RAYON_NUM_THREADS": "1"}).stdout
        return used() - start, json.loads(out)["hours_lost"]

    (short, _), (long, lost) = ridden(1000), ridden(10_001_000)
    own = 10_000_000 / (long - short)
    script = ROOT / "benches/numpy_rehearsal.py"
    other = json.loads(subprocess.run([sys.executable, script, party, "400000"], check=True, capture_output=True).stdout)
    apart = abs(lost["mean"] - other["mean"]) / (lost["standard_error"] ** 2 + other["error"] ** 2) ** 0.5
    row("rehearsal, five-day loop, one thread", f"{own:,.0f} trips/s", f"numpy: {other['trips_per_second']:,.0f} trips/s",
        f"{own / other['trips_per_second']:.0f}", f"mean hours {apart:.1f} standard errors apart")


def packed(scenario, folder):
    """The program from file to verified answer."""
    start = used()
    own = ["--catalogues", folder / "catalogue"] if (folder / "catalogue").is_dir() else []
    run = subprocess.run(
        [PROGRAM, "pack", scenario, *own, "--format", "json", "--time-limit", str(LIMIT)], capture_output=True
    )
    took = used() - start
    return took, json.loads(run.stdout)["proof"] if run.returncode == 0 else None


def exported(scenario, folder):
    """The model as a plain Python model."""
    file = folder / "model.mps"
    own = ["--catalogues", folder / "catalogue"] if (folder / "catalogue").is_dir() else []
    subprocess.run([PROGRAM, "export-model", scenario, *own, "--mps", file, "--force"], check=True, capture_output=True)
    return pulp.LpProblem.fromMPS(file, sense=pulp.LpMinimize)[1]


def by_cbc(model):
    """PuLP with CBC; reading the model is not counted, writing it for CBC is, for PuLP cannot do without."""
    start = used()
    status = model.solve(pulp.PULP_CBC_CMD(msg=False, timeLimit=LIMIT, threads=1, gapRel=0.0))
    took = used() - start
    value = pulp.value(model.objective)
    return took, None if value is None or status != pulp.LpStatusOptimal else -value


def by_scip(model):
    """SCIP through OR-Tools; only solving is counted."""
    solver = pywraplp.Solver.CreateSolver("SCIP")
    columns = {}
    for variable in model.variables():
        make = solver.IntVar if variable.cat == pulp.LpInteger else solver.NumVar
        most = solver.infinity() if variable.upBound is None else variable.upBound
        columns[variable.name] = make(variable.lowBound or 0.0, most, variable.name)
    for row in model.constraints.values():
        least = -row.constant if row.sense >= 0 else -solver.infinity()
        most = -row.constant if row.sense <= 0 else solver.infinity()
        own = solver.Constraint(least, most)
        for variable, coefficient in row.items():
            own.SetCoefficient(columns[variable.name], coefficient)
    for variable, coefficient in model.objective.items():
        solver.Objective().SetCoefficient(columns[variable.name], coefficient)
    solver.Objective().SetMinimization()
    solver.SetTimeLimit(int(LIMIT * 1000))
    exact = pywraplp.MPSolverParameters()
    exact.SetDoubleParam(exact.RELATIVE_MIP_GAP, 0.0)
    start = time.process_time()
    status = solver.Solve(exact)
    took = time.process_time() - start
    solved = status in (pywraplp.Solver.OPTIMAL, pywraplp.Solver.FEASIBLE)
    return took, -solver.Objective().Value() if solved else None


def against(name, scenario, folder):
    """The program against both, from the same file."""
    own, proof = packed(scenario, folder)
    model = exported(scenario, folder)
    if proof is None:
        shown, best = f"no kit in {seconds(own)}", "no kit"
    else:
        proven = "" if proof["proven_optimal"] else f" (gap {proof['relative_gap'] * 100:.2f} %)"
        shown, best = seconds(own) + proven, f"{proof['objective_h']:.6f} h"
    for what, solve in (("CBC", by_cbc), ("SCIP", by_scip)):
        other, value = solve(model)
        beyond = " (limit)" if other >= LIMIT * 0.98 else ""
        found = "no kit" if value is None else f"{value:.6f} h"
        row(name, shown, f"{what}: {seconds(other)}{beyond}", f"{other / own:.1f}", f"{best} against {found}")


def synthetic(count, folder):
    """A world of `count` items and a quarter as many failures, made by chance but always the same."""
    chance = random.Random(count)
    failures = count // 4
    lines = ["functions:"] + [f"  f{at}: {{ name: f{at} }}" for at in range(count * 2 // 3)]
    lines += ["stocks:"] + [f"  s{at}: {{ name: s{at}, unit: unit }}" for at in range(count // 3)]
    lines += ["systems: { all: { name: all, basis: from memory } }", "items:"]
    for at in range(count):
        gives = f"provides: [f{chance.randrange(count * 2 // 3)}, f{chance.randrange(count * 2 // 3)}]"
        holds = f"holds: {{ s{chance.randrange(count // 3)}: {chance.randint(1, 4)} }}"
        what = gives if at % 3 else holds
        lines.append(
            f"  i{at}: {{ name: i{at}, kind: tool, mass: {chance.randint(20, 900)} g, volume: {chance.randint(20, 900)} mL, "
            f"longest: 100 mm, price: {chance.randint(1, 60)} USD, at_most: 2, {what}, basis: from memory }}"
        )
    lines += ["bags:"] + [
        f"  b{at}: {{ name: b{at}, volume: {max(10, count // 12)} L, packing: 0.9, mass: 1 kg, max_load: {max(8, count // 20)} kg, "
        "longest: 400 mm, access: quick, weatherproof: true, side: centre, ahead: 200 mm, out: 0 mm, height: 700 mm, "
        "price: 1 USD, basis: from memory }" for at in range(3)
    ]
    lines.append(
        "bikes: { b: { name: b, mass: 150 kg, max_mass: 900 kg, front_share: 0.5, wheelbase: 1450 mm, front_load_index: 85, "
        "rear_load_index: 85, tank: 12 L, consumption: { sealed: 4 L, gravel: 4 L, track: 4 L, rough: 4 L }, rider_x: 600 mm, "
        "passenger_x: 250 mm, basis: from memory } }"
    )
    lines.append("failures:")
    for at in range(failures):
        lines.append(
            f"  e{at}: {{ name: e{at}, system: all, outcome: stops, rate: {{ per_1000_km: {{ gravel: {chance.uniform(0.005, 0.3):.4f} }}, "
            "worth_events: 0.5, basis: from memory }, repairs: {"
        )
        for repair in range(3):
            needs = ", ".join(f"f{chance.randrange(count * 2 // 3)}" for _ in range(chance.randint(1, 3)))
            uses = f"uses: {{ s{chance.randrange(count // 3)}: {chance.randint(1, 2)} }}, " if chance.random() < 0.5 else ""
            lines.append(
                f"    r{repair}: {{ name: r{repair}, grade: field, needs: [{needs}], {uses}time: {chance.randint(10, 90)} min, "
                f"restores: {chance.uniform(0.6, 1):.2f}, skill: anyone, basis: from memory }},"
            )
        lines.append("  } }")
    lines.append(
        "model: { falls_per_1000_km: { sealed: 0, gravel: 1, track: 1, rough: 1 }, riding_skill: { novice: 1, intermediate: 1, "
        "advanced: 1, expert: 1 }, load_sensitivity: 1, hours_per_fall: 0.2 h, basis: from memory }"
    )
    (folder / "catalogue").mkdir(exist_ok=True)
    (folder / "catalogue/world.yaml").write_text("\n".join(lines), encoding="utf-8")
    trip = folder / "trip.yaml"
    trip.write_text(
        "name: synthetic\ntrip: { style: none, legs: [{ name: l, days: 1, km: { gravel: 1000 }, hours_to_help: 12 h }] }\n"
        "riders: [{ name: r, bike: b, riding_skill: expert, repair_skill: expert, mass: 80 kg, bags: [b0, b1, b2] }]\n"
        f"limits: {{ kit_mass: {count // 10} kg }}\n",
        encoding="utf-8",
    )
    return trip


def main():
    subprocess.run(["cargo", "build", "--release", "--quiet"], check=True, cwd=ROOT)
    row("what", "fardel", "the other", "ratio", "agreement")
    row("---", "---:", "---:", "---:", "---")
    with tempfile.TemporaryDirectory() as name:
        rehearsal(pathlib.Path(name))
    for scenario in SCENARIOS:
        with tempfile.TemporaryDirectory() as name:
            against(scenario, ROOT / "scenarios" / f"{scenario}.yaml", pathlib.Path(name))
    for count in (200, 600, 2000):
        with tempfile.TemporaryDirectory() as name:
            folder = pathlib.Path(name)
            against(f"synthetic, {count} items", synthetic(count, folder), folder)


main()

"""Solves the exported models with a general-purpose solver from PyPI and compares with the program's own answers.

usage: reference.py PROGRAM SCENARIO ...
"""

import json
import pathlib
import subprocess
import sys
import tempfile

import highspy

TOLERANCE = 1e-6


def solved(path):
    """The best value of the model in a file, always as hours to be maximised."""
    solver = highspy.Highs()
    solver.setOptionValue("output_flag", False)
    solver.setOptionValue("mip_rel_gap", 0.0)
    solver.setOptionValue("mip_abs_gap", 1e-9)
    for tolerance in ("mip_feasibility_tolerance", "primal_feasibility_tolerance"):
        solver.setOptionValue(tolerance, 1e-9)
    if solver.readModel(str(path)) != highspy.HighsStatus.kOk:
        sys.exit(f"{path}: cannot be read")
    solver.run()
    if solver.getModelStatus() != highspy.HighsModelStatus.kOptimal:
        sys.exit(f"{path}: {solver.modelStatusToString(solver.getModelStatus())}")
    value = solver.getInfo().objective_function_value
    return -value if path.suffix == ".mps" else value


def checked(program, scenario, folder):
    files = [folder / f"{scenario.stem}.{kind}" for kind in ("lp", "mps")]
    subprocess.run(
        [program, "export-model", scenario, "--lp", files[0], "--mps", files[1]],
        check=True,
        stdout=subprocess.DEVNULL,
    )
    packed = subprocess.run(
        [program, "pack", scenario, "--format", "json"], check=True, capture_output=True
    )
    proof = json.loads(packed.stdout)["proof"]
    values = [solved(path) for path in files]
    print(f"{scenario.stem}: {values[0]:.9f} (LP), {values[1]:.9f} (MPS), {proof['objective_h']:.9f} packed")
    slack = TOLERANCE * max(1.0, abs(values[0]))
    if abs(values[0] - values[1]) > slack:
        return "the two files differ"
    # Kits that did not go into the bags make the packed one poorer than the model's best, never better.
    if proof["objective_h"] > values[0] + slack:
        return "the packed kit is better than the best"
    exact = proof["proven_optimal"] and proof["stow_rounds"] == 0
    if exact and abs(proof["objective_h"] - values[0]) > slack:
        return "the packed kit is not the best"
    if not exact and values[0] > proof["bound_h"] + slack and proof["stow_rounds"] == 0:
        return "the bound does not hold"
    return None


def main(program, scenarios):
    broken = False
    with tempfile.TemporaryDirectory() as folder:
        for scenario in scenarios:
            fault = checked(program, pathlib.Path(scenario), pathlib.Path(folder))
            if fault:
                print(f"{scenario}: {fault}", file=sys.stderr)
                broken = True
    sys.exit(1 if broken else 0)


main(sys.argv[1], sys.argv[2:])

"""Jobs on a cluster come to what a single machine makes of them. Run by pytest with FARDEL naming the binary."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from dask.distributed import Client, LocalCluster

from fardel_batch import (
    Program,
    defect,
    inlined,
    on_dask,
    parts_of,
    partitions,
    read_jobs,
    run_partition,
    write_rows,
)

ROOT = Path(__file__).resolve().parents[2]
TINY = ROOT / "tests" / "cli" / "tiny"
BINARY = os.environ.get("FARDEL", str(ROOT / "target" / "debug" / "fardel"))
OPTIONS = ("--brief", "--catalogues", str(TINY / "catalogue"))
PROGRAM = Program((BINARY,), OPTIONS)


def jobs(count: int) -> list[str]:
    """Trips of the tiny world, from too little to plenty, and now and then what is no job."""
    text = (TINY / "trip.yaml").read_text(encoding="utf-8")
    lines = []
    for at in range(count):
        job: dict[str, Any] = {"id": f"job {at}", "scenario_text": text, "hours_to_help": f"{1 + at % 13} h"}
        job["limits.kit_mass"] = f"{2 + at % 7 * 0.5} kg"
        if at % 211 == 7:
            job = {"id": f"job {at}", "scenario": "no-such.yaml"}
        lines.append("nonsense" if at % 397 == 11 else "" if at % 401 == 13 else json.dumps(job))
    return lines


def alone(lines: list[str]) -> list[str]:
    """What a single machine makes of them."""
    command = [BINARY, "batch", "-", "--quiet", *OPTIONS]
    run = subprocess.run(command, input="\n".join(lines), capture_output=True, text=True, check=True)
    return run.stdout.splitlines()


@pytest.fixture(scope="module")
def client() -> Iterator[Client]:
    """Two workers on this machine."""
    with LocalCluster(n_workers=2, threads_per_worker=1, dashboard_address=None) as cluster, Client(cluster) as client:
        yield client


def test_a_killed_worker_changes_nothing(client: Client) -> None:
    lines = jobs(2000)
    victim = next(iter(client.run(os.getpid).values()))
    rows: list[str] = []
    for row in on_dask(client, PROGRAM, lines):
        rows.append(row)
        if len(rows) == 900:
            os.kill(victim, signal.SIGKILL)
    assert rows == alone(lines)
    ids = [json.loads(row)["id"] for row in rows]
    assert len(ids) == sum(bool(line) for line in lines)
    assert len(set(ids) - {None}) == sum(id_ is not None for id_ in ids)
    assert {json.loads(row)["status"] for row in rows} == {"answered", "no_kit", "bad_input"}
    assert victim not in client.run(os.getpid).values()


@pytest.mark.parametrize("size", [1, 7, 64, 500])
def test_the_size_of_partitions_changes_nothing(client: Client, size: int) -> None:
    lines = jobs(120)
    assert list(on_dask(client, PROGRAM, lines, size)) == alone(lines)


def poisoned(folder: Path) -> Program:
    """The binary, but it dies of jobs that hold these words, after the rows of those before them."""
    script = folder / "poisoned.py"
    script.write_text(
        "import os, subprocess, sys\n"
        "lines = sys.stdin.read().splitlines(keepends=True)\n"
        "bad = [at for at, line in enumerate(lines) if 'poison' in line]\n"
        "good = lines[: bad[0]] if bad else lines\n"
        "run = subprocess.run(sys.argv[1:], input=''.join(good), capture_output=True, text=True, check=True)\n"
        "sys.stdout.write(run.stdout + ('{\"id\":\"torn' if bad else ''))\n"
        "sys.stdout.flush()\n"
        "if bad and 'poison 3' in lines[bad[0]]: sys.exit(3)\n"
        "if bad: os.kill(os.getpid(), 9)\n",
        encoding="utf-8",
    )
    return Program((sys.executable, str(script), BINARY), OPTIONS)


def test_a_job_that_the_program_dies_of_is_a_row(client: Client, tmp_path: Path) -> None:
    lines = jobs(60)
    expected = alone(lines)
    for at, word in [(0, "poison 3"), (31, "poison 9"), (32, "poison 3"), (59, "poison 9")]:
        lines[at] = json.dumps({"id": word + str(at), "scenario": "x"})
        jobs_before = sum(bool(line) for line in lines[:at])
        expected[jobs_before] = defect(lines[at], at + 1, "the program ended " + ("with status 3" if "3" in word else "by signal 9"))
    assert list(on_dask(client, poisoned(tmp_path), lines, 20)) == expected
    assert json.loads(expected[0])["status"] == "defect"


def test_a_program_that_hangs_or_is_not_there(tmp_path: Path) -> None:
    lines = [json.dumps({"id": "slow", "scenario": "x"})]
    hanging = Program((sys.executable, "-c", "import time; time.sleep(60)"), (), 0.5)
    assert run_partition(hanging, lines, 1) == [defect(lines[0], 1, "not finished within 0.5 s")]
    with pytest.raises(FileNotFoundError):
        run_partition(Program((str(tmp_path / "nothing"),)), lines, 1)


def test_lines_keep_their_numbers() -> None:
    lines = ["", "nonsense", "  ", "nonsense"]
    numbers = [json.loads(row)["line"] for first, part in partitions(lines, 2, 5) for row in run_partition(PROGRAM, part, first)]
    assert numbers == [6, 8]


def test_parquet_and_lines_hold_the_same(tmp_path: Path) -> None:
    import pyarrow
    import pyarrow.parquet

    text = (TINY / "trip.yaml").read_text(encoding="utf-8")
    (tmp_path / "trip.yaml").write_text(text, encoding="utf-8")
    table = [{"id": str(at), "scenario": "trip.yaml", "limits.kit_mass": f"{at + 2} kg" if at else None} for at in range(5)]
    pyarrow.parquet.write_table(pyarrow.Table.from_pylist(table), tmp_path / "jobs.parquet")
    lines = list(inlined(read_jobs(tmp_path / "jobs.parquet"), tmp_path))
    assert all("scenario_text" in json.loads(line) for line in lines)
    rows = run_partition(PROGRAM, [*lines, "nonsense"], 1)
    assert write_rows(tmp_path / "rows.jsonl", rows) == 6
    assert (tmp_path / "rows.jsonl").read_text(encoding="utf-8").splitlines() == rows
    assert write_rows(tmp_path / "rows.parquet", iter(rows)) == 6
    back = pyarrow.parquet.read_table(tmp_path / "rows.parquet").to_pylist()
    assert back == [parts_of(row) for row in rows]
    assert back[5]["line"] == 6 and back[5]["id"] is None
    for row, columns in zip(rows[:5], back):
        assert columns["answer"] in row and json.loads(row)["answer"] == json.loads(columns["answer"])
    assert sorted(path.name for path in tmp_path.iterdir()) == ["jobs.parquet", "rows.jsonl", "rows.parquet", "trip.yaml"]

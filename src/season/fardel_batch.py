"""Jobs of ``fardel batch`` on many machines.

A partition is a run of lines of jobs. A worker gives it to ``fardel batch -`` on standard input and takes the rows from
standard output; it needs the binary and Python, nothing else. Scenarios go along as ``scenario_text`` (see ``inlined``);
a job whose scenario names further files must carry them under ``files``, or the workers must see the same folder. Rows
come back in the order of the jobs, each job once, and are to the byte those of a single machine.

Where the program dies of a job, the rows before it are kept, the job is tried once more alone, and gets a row of its own
with the status ``defect`` if it dies again. Where a worker dies, Dask gives its partitions to another.

On the command line, with Dask on this machine or on a scheduler that runs already:

    python3 src/season/fardel_batch.py jobs.jsonl results.jsonl --brief
    python3 src/season/fardel_batch.py jobs.parquet results.parquet --brief --scheduler tcp://10.0.0.1:8786

The same with other engines (documented, not tested here). In both, jobs that have no readable id count their lines from
the beginning of their partition, and with ``pipe`` nothing isolates a job that the program dies of: the task fails.

    Ray Data:  ray.data.read_text("jobs.jsonl").map_batches(
                   lambda part: {"row": run_partition(Program(), list(part["text"]), 1)}, batch_size=50)
    Spark:     spark.sparkContext.textFile("jobs.jsonl").pipe("fardel batch - --quiet --brief --workers 1")

Ten million packs, on paper. Measured on the first 400 jobs of the season of seed 1, short answers, a release build: 0.25 s
of processor a job, 4.4 kB a job, 10.5 kB a row. Everything below is reckoned from these three figures; nothing of it was run.

    processor   10,000,000 x 0.25 s = 2.5 million s = 690 hours of one core; 11 machines of 64 cores take an hour.
    bytes       44 GB of jobs, 105 GB of rows; whole answers of the shipped trips are 112 to 163 kB, so 1.1 to 1.6 TB.
    tasks       200,000 partitions of 50 jobs, 12.5 s each. At a millisecond a task (common practice, no source) the
                scheduler is busy for 200 s of the hour. Each partition reads the catalogue once, some 0.06 s.
    memory      a worker holds one partition: 0.7 MB of jobs and rows, beside the program. The client holds AHEAD
                partitions for each of 704 threads: 141,000 jobs, 2.1 GB if the oldest of them is the slowest.

What breaks first is the client: all jobs and rows pass through one process, 41 MB a second for an hour. Beyond that, cut
the jobs into a hundred files and run a client for each; nothing is shared between them. Next are long trips: a job of five
days takes ten times as long as one of a day, and the end of the run waits for the last partition, so make partitions
smaller where trips are long. Last, searches that end by the clock: where machines are overloaded, such a job may come out
with another kit that is as good as can be shown in that time; then leave cores free or give --gap.
"""

from __future__ import annotations

import argparse
import itertools
import json
import os
import subprocess
import sys
from collections import deque
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

#: Lines of a partition: some seconds of work, so that a scheduler that takes a millisecond for a task is never in the way.
PER_PARTITION = 50
#: Partitions under way for each thread of a worker; what is finished early waits for those before it.
AHEAD = 4
#: Rows that are written to Parquet at a time.
ROW_GROUP = 1000


@dataclass(frozen=True)
class Program:
    """How the binary is called, and how long a partition may take."""

    command: tuple[str, ...] = ("fardel",)
    options: tuple[str, ...] = ("--brief",)
    seconds: float | None = None

    def run(self, lines: list[str], first_line: int) -> tuple[list[str], str]:
        """Rows of the lines that were finished, in order, and why there are no more; empty if there is no reason."""
        arguments = ["batch", "-", "--quiet", "--workers", "1", "--first-line", str(first_line), *self.options]
        given = "".join(line + "\n" for line in lines).encode()
        process = subprocess.Popen(
            [*self.command, *arguments], stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE
        )
        try:
            out, err = process.communicate(given, timeout=self.seconds)
            why = "" if process.returncode == 0 else ended(process.returncode, err)
        except subprocess.TimeoutExpired:
            process.kill()
            out, _ = process.communicate()
            why = f"not finished within {self.seconds:g} s" if self.seconds else "not finished"
        # A row that was cut off is none.
        whole = out[: out.rfind(b"\n") + 1].decode()
        return whole.split("\n")[:-1], why


def ended(status: int, err: bytes) -> str:
    """How a process ended, in words, with the end of what it said."""
    how = f"by signal {-status}" if status < 0 else f"with status {status}"
    said = err.decode(errors="replace").strip()[-500:]
    return f"the program ended {how}" + (f": {said}" if said else "")


def is_job(line: str) -> bool:
    """Blank lines are none."""
    return bool(line.strip())


def defect(line: str, number: int, why: str) -> str:
    """The row of a job that the program dies of."""
    try:
        found = json.loads(line)
        id_ = found.get("id") if isinstance(found, dict) else None
    except ValueError:
        id_ = None
    head: dict[str, Any] = {"id": None if id_ is None else str(id_)}
    if id_ is None:
        head["line"] = number
    row = head | {"status": "defect", "errors": [why], "answer": None}
    return json.dumps(row, ensure_ascii=False, separators=(",", ":"))


def run_partition(program: Program, lines: list[str], first_line: int) -> list[str]:
    """A row for every job among the lines; the first has this number."""
    jobs = [(first_line + at, line) for at, line in enumerate(lines) if is_job(line)]
    rows: list[str] = []
    while len(rows) < len(jobs):
        left = jobs[len(rows) :]
        # Numbers must hold, so blank lines go along.
        begin = left[0][0]
        got, why = program.run(lines[begin - first_line :], begin)
        if len(got) > len(left):
            raise RuntimeError(f"{len(got)} rows for {len(left)} jobs")
        rows += got
        if len(rows) == len(jobs):
            break
        number, line = jobs[len(rows)]
        alone, why_alone = program.run([line], number)
        rows.append(alone[0] if len(alone) == 1 else defect(line, number, why_alone or why or "no row came"))
    return rows


def partitions(lines: Iterable[str], size: int = PER_PARTITION, first_line: int = 1) -> Iterator[tuple[int, list[str]]]:
    """Runs of lines with the number of their first."""
    lines = iter(lines)
    while part := list(itertools.islice(lines, size)):
        yield first_line, part
        first_line += len(part)


def on_dask(client: Any, program: Program, lines: Iterable[str], size: int = PER_PARTITION, first_line: int = 1) -> Iterator[str]:
    """Rows from a Dask cluster, in the order of the jobs; only some partitions are under way at a time."""
    threads = sum(client.nthreads().values()) or 1
    waiting: deque[Any] = deque()
    parts = partitions(lines, size, first_line)
    for first, part in parts:
        waiting.append(client.submit(run_partition, program, part, first, pure=False))
        if len(waiting) >= AHEAD * threads:
            yield from waiting.popleft().result()
    while waiting:
        yield from waiting.popleft().result()


def inlined(lines: Iterable[str], folder: Path) -> Iterator[str]:
    """Jobs with the texts of their scenarios in the place of the names. What cannot be read stays, and gets its row."""
    for line in lines:
        try:
            job = json.loads(line)
            text = (folder / job["scenario"]).read_text(encoding="utf-8")
        except (ValueError, KeyError, TypeError, OSError):
            yield line
            continue
        del job["scenario"]
        yield json.dumps(job | {"scenario_text": text}, ensure_ascii=False)


def read_jobs(path: Path) -> Iterator[str]:
    """Lines of jobs; of Parquet, a line for each row, with a key for each column that is not null."""
    if path.suffix == ".parquet":
        import pyarrow.parquet

        for batch in pyarrow.parquet.ParquetFile(path).iter_batches(batch_size=ROW_GROUP):
            for row in batch.to_pylist():
                yield json.dumps({key: value for key, value in row.items() if value is not None}, ensure_ascii=False)
    else:
        with path.open(encoding="utf-8", errors="surrogateescape", newline="\n") as file:
            for line in file:
                yield line.removesuffix("\n")


def parts_of(row: str) -> dict[str, Any]:
    """Columns of a row; the answer stays the text that it is."""
    # Within a text of the row these quotes would be escaped.
    head, _, answer = row.partition(',"answer":')
    columns: dict[str, Any] = json.loads(head + "}")
    answer = answer.removesuffix("}")
    return {"id": None, "line": None} | columns | {"answer": None if answer == "null" else answer}


def write_rows(path: Path, rows: Iterable[str]) -> int:
    """Writes rows to a new file, which gets its name when it is whole; how many there were."""
    part = path.with_name(path.name + ".part")
    count = 0
    if path.suffix == ".parquet":
        import pyarrow
        import pyarrow.parquet

        text = pyarrow.string()
        columns = [("id", text), ("line", pyarrow.int64()), ("status", text), ("errors", pyarrow.list_(text)), ("answer", text)]
        schema = pyarrow.schema(columns)
        rows = iter(rows)
        with pyarrow.parquet.ParquetWriter(part, schema, compression="zstd") as writer:
            while group := list(itertools.islice(rows, ROW_GROUP)):
                writer.write_table(pyarrow.Table.from_pylist([parts_of(row) for row in group], schema=schema))
                count += len(group)
    else:
        with part.open("w", encoding="utf-8", newline="\n") as file:
            for row in rows:
                file.write(row + "\n")
                count += 1
    os.replace(part, path)
    return count


def main(arguments: list[str] | None = None) -> int:
    """The command line; see the head of this file."""
    parser = argparse.ArgumentParser(description="Work off jobs of `fardel batch` on a Dask cluster.")
    parser.add_argument("jobs", type=Path, help="JSON Lines or .parquet")
    parser.add_argument("results", type=Path, help="JSON Lines or .parquet; a new file")
    parser.add_argument("--program", default="fardel", help="the binary, as the workers find it")
    parser.add_argument("--brief", action="store_true", help="short answers")
    parser.add_argument("--scheduler", help="address of a scheduler; a cluster on this machine if left out")
    parser.add_argument("--workers", type=int, help="of the cluster on this machine")
    parser.add_argument("--partition", type=int, default=PER_PARTITION, help="jobs given to a worker at a time")
    parser.add_argument("--seconds", type=float, help="longest that a partition may take")
    own = parser.parse_args(arguments)
    if own.results.exists():
        parser.error(f"{own.results} is there already; choose another name")
    from dask.distributed import Client, LocalCluster

    program = Program((own.program,), ("--brief",) if own.brief else (), own.seconds)
    lines = inlined(read_jobs(own.jobs), own.jobs.parent)
    cluster = own.scheduler or LocalCluster(n_workers=own.workers, threads_per_worker=1, dashboard_address=None)
    with Client(cluster) as client:
        count = write_rows(own.results, on_dask(client, program, lines, own.partition))
    print(f"{count} rows", file=sys.stderr)
    return 0


if __name__ == "__main__":
    sys.exit(main())

#!/usr/bin/env python3
"""Compares answers in JSON of an older program with those of a newer one, figure by figure.

usage: compare_answers.py OLD_DIR NEW_DIR [TABLE]

Both folders hold files of the same names (NAME.json). Every leaf of an old answer must stand in the new one, at the
same path or where the table says (columns command, old, new, kind, why). In paths `[]` is any place in a list; a path
that ends in a dot stands for everything below. Kinds: `moved` (also renamed, or there twice before), `gone` (dropped),
`null` (dropped, and must have been null), `null or moved`, `raised` (of the version). Numbers may differ by 1e-12,
relatively. Prints every difference and the counts; the exit status is 1 where there is any.
"""

import csv
import json
import pathlib
import re
import sys

SAME = 1e-12
TABLE = pathlib.Path(__file__).parent.parent / "tests" / "answers" / "v3-to-v4.csv"


def leaves(value, path=""):
    """Paths and values of everything that has no parts."""
    if isinstance(value, dict) and value:
        for name, part in value.items():
            yield from leaves(part, f"{path}.{name}" if path else name)
    elif isinstance(value, list) and value:
        for place, part in enumerate(value):
            yield from leaves(part, f"{path}[{place}]")
    else:
        yield path, value


def at(document, path):
    """What stands at a path, and whether anything does; below null there is null."""
    for name, place in re.findall(r"([^.\[\]]+)|\[(\d+)\]", path):
        if document is None:
            return None, True
        try:
            document = document[int(place)] if place else document[name]
        except (KeyError, IndexError, TypeError):
            return None, False
    return document, True


class Table:
    """Where figures of old answers stand in new ones."""

    def __init__(self, path):
        with open(path, newline="", encoding="utf-8") as file:
            self.rows = [(self.pattern(row["old"]), row) for row in csv.DictReader(file)]
        self.used = set()

    @staticmethod
    def pattern(old):
        places = re.escape(old).replace(r"\[\]", r"\[(\d+)\]")
        return re.compile(places + (".*" if old.endswith(".") else ""))

    def row(self, command, path):
        """The row for a path, and the path in new answers."""
        for number, (pattern, row) in enumerate(self.rows):
            match = pattern.fullmatch(path)
            if match is None or row["command"] != "*" and command not in row["command"].split():
                continue
            self.used.add(number)
            places = iter(match.groups())
            new = re.sub(r"\[\]", lambda _: f"[{next(places)}]", row["new"])
            if row["old"].endswith("."):
                new += path[len(row["old"]) :]
            return row["kind"], new
        return "same", path


def equal(old, new):
    if isinstance(old, bool) or isinstance(new, bool) or not isinstance(old, (int, float)):
        return old == new and type(old) is type(new)
    if not isinstance(new, (int, float)):
        return False
    return abs(old - new) <= SAME * max(abs(old), abs(new))


def differences(old, new, table):
    """Every difference of two answers in words, and how many leaves were compared."""
    command, found, compared = old.get("command", ""), [], 0
    for path, value in leaves(old):
        kind, there = table.row(command, path)
        if value == [] and (kind, there) == ("same", path):
            # Where members of the list have gone, an empty one has gone as well.
            kind, there = table.row(command, f"{path}[0]")
            there = there.rpartition("[0]")[0]
        if kind == "null or moved":
            kind = "null" if value is None else "moved"
        if kind == "null" and value is not None:
            found.append(f"{path}: {value!r} is dropped")
        if kind == "raised" and not new.get(path, 0) > value:
            found.append(f"{path}: it is not raised")
        if kind not in ("same", "moved"):
            continue
        compared += 1
        other, stands = at(new, there)
        if not stands:
            found.append(f"{path}: nothing at {there}")
        elif not equal(value, other):
            found.append(f"{path}: {value!r} before, {other!r} now at {there}")
    return found, compared


def main():
    if len(sys.argv) not in (3, 4):
        sys.exit(__doc__)
    old_folder, new_folder = (pathlib.Path(name) for name in sys.argv[1:3])
    table = Table(sys.argv[3] if len(sys.argv) == 4 else TABLE)
    files = different = total = 0
    for path in sorted(old_folder.glob("*.json")):
        other = new_folder / path.name
        if not path.read_text(encoding="utf-8").strip():
            continue
        if not other.exists():
            print(f"{path.name}: not among the new answers")
            different += 1
            continue
        old, new = (json.loads(file.read_text(encoding="utf-8")) for file in (path, other))
        found, compared = differences(old, new, table)
        files, total, different = files + 1, total + compared, different + len(found)
        for line in found:
            print(f"{path.name}: {line}")
    unused = [row["old"] for number, (_, row) in enumerate(table.rows) if number not in table.used]
    print(f"{files} answers, {total} figures and texts compared, {different} different")
    if unused:
        print(f"rows of the table that nothing met: {', '.join(unused)}")
    sys.exit(1 if different else 0)


if __name__ == "__main__":
    main()

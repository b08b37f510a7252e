#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Does every number in data/ say where it comes from, and is every source used?

    tools/check_sources.py [ROOT]

Prints each fault as file:line:column: error: text and exits 1; else one line of summary.
"""
import pathlib
import re
import sys
import tomllib

STATUSES = ("READ", "FROM MEMORY", "DERIVED")
# Keys that hold words or a choice; every other key of a record is a number with its source.
WORDS = {"id", "name", "kind", "condition", "process", "sees", "class", "how",
         "holder", "spool", "viewed", "note"}
# Keys that hold neither: a flag, a list of ids.
PLAIN = {"dark", "hazards"}
# Tables whose records are quoted whole, and the keys of their numbers.
QUOTED = {"glass": {"b", "c_um2"},
          "reciprocity": {"exponent", "coefficient", "calculated", "corrected"},
          "hazard": set()}
KINDS = ("roll", "sheet", "paper", "integral")
VIEWED = ("same face", "opposite face")
SOURCE_KEYS = {"title", "edition", "page"}
SOURCE_ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
ADDRESS = re.compile(r"https?:|www\.|\.(com|org|net|info)\b")
# How code and documents name a source: "<id> in data/sources.toml", perhaps over a line's end.
MENTION = re.compile(r"([a-z0-9]+(?:-[a-z0-9]+)*)\s+(?://\s*)?in\s+(?://\s*)?data/sources\.toml")


class Data:
    """One TOML file: its records and where each key stands in the text."""

    def __init__(self, path, root):
        self.name = path.relative_to(root).as_posix()
        text = path.read_text(encoding="utf-8")
        self.records = tomllib.loads(text)
        self.lines = text.splitlines()
        self.places = {}  # (table, number or id, key) -> line, counted from 1
        seen = {}
        record = ()
        for number, line in enumerate(self.lines, 1):
            if found := re.match(r"\s*\[\[(\w+)\]\]", line):
                seen[found[1]] = seen.get(found[1], -1) + 1
                record = (found[1], seen[found[1]])
            elif found := re.match(r"\s*\[(\w+)\.([^\]]+)\]", line):
                record = (found[1], found[2].strip().strip('"'))
            elif found := re.match(r"\s*([\w-]+)\s*=", line):
                self.places.setdefault((*record, found[1]), number)
                continue
            else:
                continue
            self.places[(*record, None)] = number

    def place(self, record, key=None, guilty=None):
        line = self.places.get((*record, key)) or self.places.get((*record, None), 1)
        column = self.lines[line - 1].find(guilty or key or "[") if self.lines else 0
        return f"{self.name}:{line}:{max(column, 0) + 1}"


def one_of(values):
    return " or ".join(f"'{value}'" for value in values)


def check(root):
    """All faults under `root`, and the summary of what was checked."""
    faults = []
    files = {}
    for path in sorted((root / "data").glob("*.toml")):
        try:
            files[path.name] = Data(path, root)
        except tomllib.TOMLDecodeError as error:
            where = re.search(r"line (\d+), column (\d+)", str(error))
            at = f"{where[1]}:{where[2]}" if where else "1:1"
            faults.append(f"data/{path.name}:{at}: error: not TOML 1.0: {error}")
    if faults or "sources.toml" not in files:
        if not faults:
            faults.append("data/sources.toml:1:1: error: no such file")
        return faults, ""

    sources = files["sources.toml"]
    known = check_sources(sources, faults)
    used = set()
    named = {key: {entry.get("id") for entry in files[f"{key}s.toml"].records.get(key, [])}
             if f"{key}s.toml" in files else set() for key in ("holder", "spool")}
    numbers = 0
    for file in files.values():
        if file is not sources:
            numbers += check_records(file, known, used, named, faults)
    check_lenses(root, known, used, faults)
    check_mentions(root, known, used, faults)
    for source in known:
        if source not in used:
            faults.append(f"{sources.place(('source', source), None, source)}: error: "
                          f"source '{source}' is used by no number and no test")
    return faults, f"data: {numbers} numbers from {len(known)} sources, each with its status"


def check_sources(file, faults):
    known = file.records.get("source", {})
    for table in file.records:
        if table != "source":
            faults.append(f"{file.name}:1:1: error: '{table}' is not a source")
    for source, entry in known.items():
        record = ("source", source)
        if not SOURCE_ID.fullmatch(source):
            faults.append(f"{file.place(record, None, source)}: error: source id '{source}' is not "
                          "lower-case words joined by dashes")
        if not entry.get("title"):
            faults.append(f"{file.place(record, None, source)}: error: source '{source}' has no "
                          "title")
        for key, value in entry.items():
            if key not in SOURCE_KEYS:
                faults.append(f"{file.place(record, key)}: error: unknown key '{key}', a source "
                              "has title, edition and page")
            elif ADDRESS.search(str(value)):
                faults.append(f"{file.place(record, key)}: error: {key} holds an address, name "
                              "the work in words")
    return known


def check_lenses(root, known, used, faults):
    """A prescription is quoted whole: its file names one source."""
    for path in sorted((root / "data" / "lenses").glob("*.toml")):
        lens = Data(path, root)
        source = lens.records.get("source")
        used.add(source)
        if source not in known:
            faults.append(f"{lens.name}:1:1: error: no source '{source}' in data/sources.toml")


def check_whole(file, record, entry, known, used, faults):
    """A record quoted whole has one source and status. Returns its numbers."""
    numbers = [value for key, value in entry.items() if key in QUOTED[record[0]]]
    whole = {"value": numbers, "source": entry.get("source"), "status": entry.get("status")}
    check_number(file, record, "source", {k: v for k, v in whole.items() if v is not None},
                 known, used, faults)
    return sum(len(value) if isinstance(value, list) else 1 for value in numbers)


def check_records(file, known, used, named, faults):
    """Checks one file of records; returns how many numbers it holds."""
    numbers = 0
    for table, records in file.records.items():
        if table in QUOTED:
            numbers += sum(check_whole(file, (table, index), entry, known, used, faults)
                           for index, entry in enumerate(records))
            continue
        if not isinstance(records, list):
            faults.append(f"{file.name}:1:1: error: '{table}' is not a list of records")
            continue
        ids = set()
        for index, entry in enumerate(records):
            record = (table, index)
            identity = entry.get("id")
            for key in ("id", "name"):
                if not isinstance(entry.get(key), str) or not entry[key]:
                    faults.append(f"{file.place(record)}: error: {table} without '{key}'")
            if identity in ids:
                faults.append(f"{file.place(record, 'id', identity)}: error: second {table} "
                              f"'{identity}'")
            ids.add(identity)
            for key, value in entry.items():
                if key in PLAIN:
                    continue
                if key in WORDS:
                    check_word(file, record, key, value, named, faults)
                elif key == "transfers":
                    if type(value) is not int or value not in (0, 1):
                        faults.append(f"{file.place(record, key)}: error: transfers is {value}, "
                                      "needed 0 or 1")
                else:
                    numbers += 1
                    check_number(file, record, key, value, known, used, faults)
    return numbers


def check_word(file, record, key, value, named, faults):
    if not isinstance(value, str):
        faults.append(f"{file.place(record, key)}: error: '{key}' is not text")
    elif key in named and value not in named[key]:
        faults.append(f"{file.place(record, key, value)}: error: no {key} '{value}' in "
                      f"data/{key}s.toml")
    elif key in ("kind", "viewed"):
        allowed = KINDS if key == "kind" else VIEWED
        if value not in allowed:
            faults.append(f"{file.place(record, key, value)}: error: {key} is '{value}', needed "
                          f"{one_of(allowed)}")


def check_number(file, record, key, value, known, used, faults):
    if not isinstance(value, dict):
        faults.append(f"{file.place(record, key)}: error: '{key}' has no source and no status")
        return
    for part in ("value", "source", "status"):
        if part not in value:
            faults.append(f"{file.place(record, key)}: error: '{key}' has no {part}")
    for part in value:
        if part not in ("value", "source", "status"):
            faults.append(f"{file.place(record, key, part)}: error: unknown key '{part}', a number "
                          "has value, source and status")
    source, status = value.get("source"), value.get("status")
    if source is not None:
        used.add(source)
        if source not in known:
            faults.append(f"{file.place(record, key, source)}: error: no source '{source}' in "
                          "data/sources.toml")
    if status is not None and status not in STATUSES:
        faults.append(f"{file.place(record, key, str(status))}: error: status is '{status}', "
                      f"needed {one_of(STATUSES)}")
    if source == "memory" and status == "READ":
        faults.append(f"{file.place(record, key, status)}: error: READ from memory")


def check_mentions(root, known, used, faults):
    """Sources that code, tests and documents name must exist, and count as used."""
    for folder in ("src", "tests", "bench", "docs"):
        for path in sorted((root / folder).rglob("*")):
            if path.suffix not in (".cpp", ".hpp", ".md"):
                continue
            text = path.read_text(encoding="utf-8")
            for found in MENTION.finditer(text):
                used.add(found[1])
                if found[1] not in known:
                    line = text.count("\n", 0, found.start()) + 1
                    column = found.start() - text.rfind("\n", 0, found.start())
                    name = path.relative_to(root).as_posix()
                    faults.append(f"{name}:{line}:{column}: error: no source '{found[1]}' in "
                                  "data/sources.toml")


def main(arguments):
    root = pathlib.Path(arguments[0] if arguments else pathlib.Path(__file__).parent.parent)
    faults, summary = check(root.resolve())
    for fault in faults:
        print(fault, file=sys.stderr)
    if faults:
        return 1
    print(summary)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))

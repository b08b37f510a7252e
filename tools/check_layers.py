#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Do the rooms under src/ include downward only, and keep each library to its own room?

    tools/check_layers.py [ROOT]

Prints each fault as file:line:column: error: text and exits 1; else one line of summary.
"""
import pathlib
import re
import sys

GROUND = {"quantity"}
STUDIES = {"optics", "transport", "timer", "exposure", "lighttrap", "evidence"}
PHYSICS = GROUND | STUDIES | {"files", "solid", "parts"}
BELOW_CONVERSION = PHYSICS | {"survey", "catalogue"}
BELOW_DOCUMENTS = BELOW_CONVERSION | {"conversion"}
BELOW_FACES = BELOW_DOCUMENTS | {"documents"}

# The rooms from the ground up, and the rooms whose headers each may include besides its own.
MAY_INCLUDE = {
    "quantity": set(),
    "files": GROUND,
    "survey": GROUND | {"files"},
    "catalogue": GROUND | {"files"},
    "solid": GROUND,
    **{study: GROUND for study in sorted(STUDIES)},
    "parts": PHYSICS - {"parts"},
    "conversion": BELOW_CONVERSION,
    "documents": BELOW_DOCUMENTS,
    "cli": BELOW_FACES | {"workbench"},  # one of its commands opens it
    "workbench": BELOW_FACES,
}

# Libraries that one room knows for all.
LIBRARIES = [
    ("geometry kernel", "solid", re.compile(r".*\.hxx$|(TopoDS|TopExp|BRep|Geom|gp_)\w*")),
    ("TOML parser", "files", re.compile(r"toml(\+\+|\.hpp|/)")),
    ("optimiser", "transport", re.compile(r"nlopt")),
    ("ray kernel", "lighttrap", re.compile(r"embree")),
    ("drawing library", "documents", re.compile(r"(cairo|pango)")),
    ("circuit simulator", "timer", re.compile(r"ngspice/")),
    ("sound-file library", "survey", re.compile(r"sndfile")),
]

LONGEST = 400  # lines in a file
INCLUDE = re.compile(r'\s*#\s*include\s*(["<])([^">]+)[">]')


def include_fault(room, quoted, header):
    """What is wrong with `header` included by a file of `room`; empty when nothing is."""
    for library, home, pattern in LIBRARIES:
        if pattern.match(header) and room != home:
            return f"'{header}' is the {library}, which only src/{home} may include"
    if not quoted:
        return ""
    target = header.split("/")[0]
    if "/" not in header:
        return f"'{header}' does not name its room, write \"{room}/{header}\""
    if target not in MAY_INCLUDE:
        return f"'{header}' is in no room of src/"
    if target == room or target in MAY_INCLUDE[room]:
        return ""
    allowed = [name for name in MAY_INCLUDE if name in MAY_INCLUDE[room]]
    return (f"'{room}' includes '{header}', but may include only "
            f"{', '.join([*allowed, room])}")


def check(root):
    """All faults under `root`, and the summary of what was checked."""
    faults = []
    includes = rooms = 0
    for folder in sorted(path for path in (root / "src").iterdir() if path.is_dir()):
        files = sorted(path for path in folder.rglob("*") if path.suffix in (".cpp", ".hpp"))
        if files and folder.name not in MAY_INCLUDE:
            faults.append(f"src/{folder.name}:1:1: error: '{folder.name}' is no known room")
            continue
        rooms += bool(files)
        for path in files:
            name = path.relative_to(root).as_posix()
            for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
                found = INCLUDE.match(line)
                if not found:
                    continue
                includes += 1
                if fault := include_fault(folder.name, found[1] == '"', found[2]):
                    faults.append(f"{name}:{number}:{found.start(1) + 1}: error: {fault}")
    for folder in ("src", "tests", "bench", "tools"):
        for path in sorted((root / folder).rglob("*")):
            if path.suffix not in (".cpp", ".hpp", ".py"):
                continue
            length = len(path.read_text(encoding="utf-8").splitlines())
            if length > LONGEST:
                faults.append(f"{path.relative_to(root).as_posix()}:{LONGEST + 1}:1: error: "
                              f"{length} lines, needed {LONGEST} or fewer: it holds two ideas")
    return faults, f"layers: {includes} includes in {rooms} rooms point downward"


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

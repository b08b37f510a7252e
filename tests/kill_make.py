#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Kills `backfit make` at moments spread over its whole run; the folder must stay whole.

    kill_make.py BACKFIT

Two plans of one camera are made in turn into one folder, so that the new result differs from the
old one. After each kill the folder is absent or holds exactly what one of the two gives when it is
left alone, and it is never the older one again once the newer one stood there. At the end an
undisturbed run must leave no unfinished sibling behind.
"""
import pathlib
import random
import shutil
import subprocess
import sys
import tempfile
import time

EXAMPLE = pathlib.Path(__file__).resolve().parent.parent / "examples/kestrel"
EVEN_KILLS = 48
LATE_KILLS = 16
THICKNESSES = ("3.0 mm", "3.1 mm")


def contents(folder: pathlib.Path) -> dict[str, bytes]:
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


def start(program: str, plan: pathlib.Path, folder: pathlib.Path) -> subprocess.Popen:
    return subprocess.Popen([program, "make", str(plan), "-o", str(folder)],
                            stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)


def plans(scratch: pathlib.Path) -> list[pathlib.Path]:
    shutil.copytree(EXAMPLE, scratch / "plans")
    paths = []
    for thickness in THICKNESSES:
        text = (EXAMPLE / "kestrel-4x5.conversion.toml").read_text(encoding="utf-8")
        changed = text.replace("[back]\n", f'[back]\nplate_thickness = "{thickness}"\n')
        paths.append(scratch / "plans" / f"{thickness[0]}{thickness[2]}.conversion.toml")
        paths[-1].write_text(changed, encoding="utf-8")
    return paths


def fault_after_kills(program: str, scratch: pathlib.Path) -> str:
    """What went wrong, or nothing."""
    both = plans(scratch)
    references = []
    begin = time.monotonic()
    for number, plan in enumerate(both):
        folder = scratch / f"reference{number}"
        if start(program, plan, folder).wait() != 0:
            return "make fails when it is left alone"
        references.append(contents(folder))
    length = (time.monotonic() - begin) / len(both)
    if references[0] == references[1]:
        return "the two plans give the same folder"
    listed = (scratch / "reference0/contents.txt").read_text().splitlines()
    if {line.split(" ", 1)[1] for line in listed} | {"contents.txt"} != references[0].keys():
        return "contents.txt does not list the files"

    chance = random.Random(20)
    # Spread evenly over the run, and some more where it writes; mixed, so that early and late kills
    # meet every state of the folder.
    moments = [1.1 * (k + chance.random()) / EVEN_KILLS for k in range(EVEN_KILLS)]
    moments += [0.8 + 0.25 * (k + chance.random()) / LATE_KILLS for k in range(LATE_KILLS)]
    chance.shuffle(moments)
    folder = scratch / "made"
    killed = absent = replaced = 0
    before: dict[str, bytes] = {}
    for turn, moment in enumerate(moments):
        wanted = references[turn % 2]
        running = start(program, both[turn % 2], folder)
        started = time.monotonic()
        try:
            running.wait(timeout=length * moment)
            # The machine was busier when the references were made.
            length = min(length, time.monotonic() - started)
        except subprocess.TimeoutExpired:
            killed += 1
        running.kill()
        running.wait()
        after = contents(folder) if folder.exists() else {}
        if after not in (before, wanted):
            return f"kill {turn}: the folder is neither the old nor the new one: {sorted(after)}"
        absent += not after
        replaced += after == wanted != before
        before = after
    if killed < EVEN_KILLS / 2:
        return f"only {killed} of {len(moments)} runs were still at work when they were killed"
    if start(program, both[0], folder).wait() != 0 or contents(folder) != references[0]:
        return "after the kills an undisturbed run does not make the folder whole"
    known = {"plans", "made", "reference0", "reference1"}
    left = sorted(p.name for p in scratch.iterdir() if p.name not in known)
    if left:
        return f"left behind: {left}"
    print(f"{killed} of {len(moments)} runs killed at work over {length:.2f} s, "
          f"folder absent after {absent}, replaced by {replaced}, else the old one")
    return ""


def main() -> int:
    with tempfile.TemporaryDirectory() as scratch:
        fault = fault_after_kills(sys.argv[1], pathlib.Path(scratch))
    if fault:
        print(fault)
    return 1 if fault else 0


if __name__ == "__main__":
    sys.exit(main())

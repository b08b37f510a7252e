#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Kills `backfit make` at moments spread over its whole run; the folder must stay whole.

    kill_make.py BACKFIT

After each kill the folder is absent, or holds exactly what a run that was left alone makes. At the
end such a run must leave no unfinished sibling behind.
"""
import pathlib
import random
import subprocess
import sys
import tempfile
import time

ROOT = pathlib.Path(__file__).resolve().parent.parent
CONVERSION = ROOT / "examples/kestrel/kestrel-4x5.conversion.toml"
KILLS = 48


def contents(folder: pathlib.Path) -> dict[str, bytes]:
    return {str(p.relative_to(folder)): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}


def start(program: str, folder: pathlib.Path) -> subprocess.Popen:
    return subprocess.Popen([program, "make", str(CONVERSION), "-o", str(folder)],
                            stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)


def main() -> int:
    program = sys.argv[1]
    chance = random.Random(20)
    with tempfile.TemporaryDirectory() as scratch:
        folder = pathlib.Path(scratch) / "made"
        reference_folder = pathlib.Path(scratch) / "reference"
        begin = time.monotonic()
        if start(program, reference_folder).wait() != 0:
            print("make fails when it is left alone")
            return 1
        length = time.monotonic() - begin
        reference = contents(reference_folder)
        killed = absent = 0
        moments = list(range(KILLS))
        chance.shuffle(moments)  # so that later kills also meet an older result
        for k in moments:
            running = start(program, folder)
            time.sleep(length * 1.1 * (k + chance.random()) / KILLS)
            killed += running.poll() is None
            running.kill()
            running.wait()
            if not folder.exists():
                absent += 1
            elif contents(folder) != reference:
                print(f"kill {k}: the folder is neither whole nor absent: {sorted(contents(folder))}")
                return 1
        if killed < KILLS / 2:
            print(f"only {killed} of {KILLS} runs were still at work when they were killed")
            return 1
        if start(program, folder).wait() != 0 or contents(folder) != reference:
            print("after the kills an undisturbed run does not make the folder whole")
            return 1
        left = [p.name for p in pathlib.Path(scratch).iterdir() if p not in (folder, reference_folder)]
        if left:
            print(f"left behind: {left}")
            return 1
        print(f"{killed} of {KILLS} runs killed at work, folder absent after {absent}, else whole")
    return 0


if __name__ == "__main__":
    sys.exit(main())

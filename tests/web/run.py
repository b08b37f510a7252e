#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Runs the page's tests in Chromium.

    tests/web/run.py PROGRAM FOLDER [SCRIPT]

PROGRAM is backfit; in FOLDER the libraries that the tests drive the browser with are installed by
npm, as package-lock.json names them. Exits 77, which ctest counts as skipped, with a sentence why,
where there is no Chromium, no node from 18 on, or no way to install the libraries. With SCRIPT that is
run beside them instead of the tests.
"""
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

HERE = Path(__file__).resolve().parent
SKIPPED = 77


def skip(why: str) -> None:
    print(f"skipped: {why}; tools/setup.sh check installs it")
    sys.exit(SKIPPED)


def main() -> int:
    program, folder = Path(sys.argv[1]).resolve(), Path(sys.argv[2]).resolve()
    chromium = shutil.which("chromium") or shutil.which("chromium-browser")
    if not chromium:
        skip("the page's tests need Chromium")
    node = shutil.which("node")
    version = subprocess.run([node, "--version"], capture_output=True, text=True, check=False).stdout if node else ""
    if int((re.match(r"v(\d+)", version) or [0, 0])[1]) < 18:
        skip("the page's tests need node from version 18 on")
    folder.mkdir(parents=True, exist_ok=True)
    lock = HERE / "package-lock.json"
    done = folder / "installed-lock.json"
    if not done.exists() or done.read_bytes() != lock.read_bytes():
        npm = shutil.which("npm")
        if not npm:
            skip("the page's tests need npm")
        for name in ("package.json", "package-lock.json", ".npmrc"):
            shutil.copy(HERE / name, folder / name)
        installed = subprocess.run([npm, "ci", "--ignore-scripts"], cwd=folder, capture_output=True, text=True, check=False)
        if installed.returncode != 0:
            print(installed.stderr[-2000:])
            skip("npm can't install the libraries of the page's tests")
        shutil.copy(lock, done)
    # Modules are looked up from the file's own folder: the tests run beside what is installed.
    for test in HERE.glob("*.mjs"):
        shutil.copy(test, folder / test.name)
    environment = dict(os.environ, BACKFIT=str(program), CHROMIUM=chromium, EXAMPLES=str(HERE.parent.parent / "examples"))
    if len(sys.argv) > 3:
        script = Path(shutil.copy(sys.argv[3], folder))
        return subprocess.run([node, str(script)], env=environment, check=False).returncode
    tests = sorted(str(p) for p in folder.glob("*_test.mjs"))
    return subprocess.run([node, "--test", "--test-concurrency=1", "--test-reporter=spec", *tests], env=environment, check=False).returncode


if __name__ == "__main__":
    sys.exit(main())

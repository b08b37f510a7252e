#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Was web/dist built from what stands in web/?

    tests/web/bundle_is_fresh.py FOLDER

Compares the fingerprint that the build left with one of the sources. Where node can run the build
(20.19, or 22.12 on), builds the page anew in FOLDER as well and compares every byte.
"""
import hashlib
import json
import re
import shutil
import subprocess
import sys
from pathlib import Path

WEB = Path(__file__).resolve().parent.parent.parent / "web"
REMEDY = "build the page anew: cd web && npm ci && npm run build"


def fingerprint() -> str:
    names = ["build.mjs", "package-lock.json", "package.json", "tsconfig.json"]
    names += [f"src/{p.name}" for p in (WEB / "src").iterdir()]
    total = hashlib.sha256()
    for name in sorted(names):
        total.update(f"{name}\n".encode() + (WEB / name).read_bytes())
    return total.hexdigest()


def can_build() -> bool:
    node, npm = shutil.which("node"), shutil.which("npm")
    if not node or not npm:
        return False
    version = subprocess.run([node, "--version"], capture_output=True, text=True, check=False).stdout
    major, minor = (int(n) for n in re.match(r"v(\d+)\.(\d+)", version).groups())
    return (major, minor) >= (22, 12) or (major == 20 and minor >= 19)


def main() -> int:
    if json.loads((WEB / "dist/BUILD.json").read_text())["sources"] != fingerprint():
        print(f"web/dist was built from other sources; {REMEDY}")
        return 1
    if not can_build():
        print("the fingerprints agree; without node from 20.19 on the page isn't built anew")
        return 0
    folder = Path(sys.argv[1]).resolve()
    shutil.rmtree(folder / "src", ignore_errors=True)
    folder.mkdir(parents=True, exist_ok=True)
    for name in ("build.mjs", "package-lock.json", "package.json", "tsconfig.json", ".npmrc"):
        shutil.copy(WEB / name, folder / name)
    shutil.copytree(WEB / "src", folder / "src")
    if subprocess.run(["npm", "ci"], cwd=folder, capture_output=True, check=False).returncode != 0:
        print("the fingerprints agree; npm can't install the build's libraries here")
        return 0
    subprocess.run(["node", "build.mjs"], cwd=folder, check=True)
    fresh = {p.name: p.read_bytes() for p in (folder / "dist").iterdir()}
    kept = {p.name: p.read_bytes() for p in (WEB / "dist").iterdir()}
    unlike = sorted(n for n in fresh.keys() | kept.keys() if fresh.get(n) != kept.get(n))
    if unlike:
        print(f"web/dist differs from a fresh build in {', '.join(unlike)}; {REMEDY}")
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())

#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Holds the README against the program: its commands run and print what it shows, every option it
names exists, and every option that exists is named.

A block of the README that starts with a line "$ command" is run from the top of the tree; the rest of
the block is the expected output, standard error and output together. A line "..." stands for any
number of lines. The commands that build and test are not run here: they run this. With --update the
blocks are written anew; read the difference.
"""
import os
import re
import shlex
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
NOT_RUN = ("make check",)


def blocks(text: str):
    """(line number, command, expected lines) of each block with a command."""
    for match in re.finditer(r"^```\w*\n\$ (.+)\n((?:.*\n)*?)```$", text, re.M):
        yield text[: match.start()].count("\n") + 2, match.group(1), match.group(2).splitlines()


def matches(expected: list[str], found: list[str]) -> bool:
    if not expected:
        return not found
    if expected[0] == "...":
        return any(matches(expected[1:], found[i:]) for i in range(len(found) + 1))
    return bool(found) and expected[0].rstrip() == found[0].rstrip() and matches(expected[1:], found[1:])


def run(program: str, command: str, scratch: str) -> list[str]:
    shown = []
    if command == "make demo":  # what it runs last, which make prints
        makefile = (ROOT / "Makefile").read_text(encoding="utf-8")
        last = re.search(r"^\tbuild/release/(backfit make .+)$", makefile, re.M)[1]
        command = last.replace("$(EXAMPLE)", re.search(r"^EXAMPLE = (.+)$", makefile, re.M)[1])
        shown = ["build/release/" + command]
    words = shlex.split(command)
    if words[0] != "backfit":
        return ["not a backfit command"]
    if "-o" in words:
        words[words.index("-o") + 1] = f"{scratch}/{words[words.index('-o') + 1]}"
    done = subprocess.run([program, *words[1:]], cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
                          text=True, check=False)
    output = done.stdout.replace(scratch + "/", "")
    return shown + output.splitlines()


def options(program: str) -> set[str]:
    found = set()
    overview = subprocess.run([program, "--help"], capture_output=True, text=True, check=False).stdout
    for command in re.findall(r"^  ([a-z]+) ", overview, re.MULTILINE):
        text = subprocess.run([program, command, "--help"], capture_output=True, text=True, check=False).stdout
        found |= {f"{command} {o}" for o in re.findall(r"(?<![\w-])(--?[a-z][a-z-]*)", text)
                  if o not in ("-h", "--help", "--help-all")}
    return found


def update(program: str) -> None:
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    with tempfile.TemporaryDirectory() as scratch:
        for _, command, expected in list(blocks(text)):
            found = [] if command in NOT_RUN else run(program, command, scratch)
            if found and not matches(expected, found):
                old = "\n".join([f"$ {command}", *expected]) + "\n```"
                text = text.replace(old, "\n".join([f"$ {command}", *found]) + "\n```")
    (ROOT / "README.md").write_text(text, encoding="utf-8")


def main() -> int:
    program = os.environ.get("BACKFIT", str(ROOT / "build/release/backfit"))
    if sys.argv[1:] == ["--update"]:
        update(program)
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    faults = []
    with tempfile.TemporaryDirectory() as scratch:
        for line, command, expected in blocks(readme):
            if command in NOT_RUN:
                continue
            found = run(program, command, scratch)
            if not matches(expected, found):
                faults.append(f"README.md:{line}: error: '{command}' prints something else:\n" + "\n".join(found))
    table = re.findall(r"^\| `backfit (\w+)[^|]*\|", readme, re.M)
    named = set()
    for row in re.findall(r"^\| `backfit .*$", readme, re.M):
        command = row.split("`")[1].split()[1]
        named |= {f"{command} {o}" for o in re.findall(r"(?<![\w-])(--?[a-z][a-z-]*)", row)}
    real = options(program)
    faults += [f"README.md: error: the option '{o}' is named but does not exist" for o in sorted(named - real)]
    faults += [f"README.md: error: the option '{o}' exists but is not named" for o in sorted(real - named)]
    print("\n".join(faults) if faults else f"README: its commands and {len(real)} options are as it says, {len(table)} commands")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())

#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Runs whole commands and compares everything they print, their exit status and their files.

    run_cases.py BACKFIT [--update] [CASE ...]

BACKFIT is the program. Without CASE every tests/cases/*.case is run. --update rewrites what the
cases expect by what was found: read the difference before you keep it.

A case is a list of steps, done from top to bottom in a new folder. A line that starts with # or
is empty says something to the reader. Every other line is one of:

    start NAME           copies the files of examples/NAME here
    replace FILE         puts the text of the + lines below in the place of the - lines' text,
                         which must stand in FILE exactly once
    append FILE          adds the + lines below
    write FILE           makes FILE of the + lines below
    bytes FILE HEX ...   adds bytes
    halve FILE           cuts FILE in the middle
    rubbish FILE MB      makes FILE of that many million bytes
    folder NAME          makes a folder
    remove FILE          removes FILE
    keep FROM TO         copies a file or folder; "tree:" as below
    run backfit ...      runs the program; below it what to expect: `status N`, `out` and `err`,
                         each of these two with the whole text in | lines; a status not named is
                         0, a text not named is empty
    files                expects exactly the files in the | lines below
    text FILE            expects FILE to hold the | lines below
    same A B             expects two files or folders to hold the same bytes; "tree:" before a
                         name starts at the top of the source tree
    known REASON         the case is known to fail; it counts as a failure once it passes
"""
import difflib
import os
import pathlib
import shlex
import shutil
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parent.parent
BLOCK_MARKS = "+-|"
LONGEST_RUN = 300  # seconds: none hangs, though a sanitizer makes the longest ten times slower


class Wrong(Exception):
    """A case that is itself wrong: says where."""


def block_text(block):
    """The text of block lines without their marks."""
    return "".join((line[2:] if line[1:2] == " " else line[1:]) + "\n" for line in block)


def block_lines(text):
    if text and not text.endswith("\n"):
        raise Wrong(f"the text lacks a newline at its end: {text[-60:]!r}")
    return ["| " + line if line else "|" for line in text.split("\n")[:-1]]


def difference(what, expected, found):
    if expected == found:
        return []
    return [f"{what}:"] + list(difflib.unified_diff(
        expected.splitlines(), found.splitlines(), "expected", "found", lineterm="", n=2))


def bytes_under(path):
    """Bytes by name of a folder's files; of a single file under its own name."""
    if path.is_file():
        return {"": path.read_bytes()}
    return {p.relative_to(path).as_posix(): p.read_bytes()
            for p in sorted(path.rglob("*")) if p.is_file()}


class Case:
    """One case file: `lines` is what it says, `now` what it would say by what was found."""

    def __init__(self, path, program, update):
        self.path, self.program, self.update = path, program, update
        self.lines = path.read_text(encoding="utf-8").splitlines()
        self.now, self.faults, self.known = [], [], ""
        self.at = 0

    def block(self, marks):
        begin = self.at
        while self.at < len(self.lines) and self.lines[self.at][:1] in tuple(marks):
            self.at += 1
        return self.lines[begin:self.at]

    def path_of(self, name):
        if name.startswith("tree:"):
            return ROOT / name.removeprefix("tree:")
        path = (self.folder / name).resolve()
        if self.folder not in path.parents:
            raise Wrong(f"{name} lies outside the case's folder")
        path.parent.mkdir(parents=True, exist_ok=True)
        return path

    def run(self):
        with tempfile.TemporaryDirectory(prefix="backfit-case-") as folder:
            self.folder = pathlib.Path(folder).resolve() / "work"
            self.folder.mkdir()
            while self.at < len(self.lines):
                line = self.lines[self.at]
                self.at += 1
                self.now.append(line)
                if not line or line.startswith("#"):
                    continue
                word, _, rest = line.partition(" ")
                step = getattr(self, "do_" + word, None)
                if step is None:
                    raise Wrong(f"line {self.at}: there is no step '{word}'")
                try:
                    step(*([rest] if word in ("known", "run") else shlex.split(rest)))
                except (Wrong, TypeError, OSError) as error:
                    raise Wrong(f"line {self.at}: {line}: {error}") from error
        if self.update and not self.known:
            self.path.write_text("\n".join(self.now) + "\n", encoding="utf-8")
            return []
        if self.known:
            return [] if self.faults else [f"passes, though it is known to fail: {self.known}"]
        return self.faults

    def do_known(self, reason):
        self.known = reason

    def do_start(self, name):
        shutil.copytree(ROOT / "examples" / name, self.folder, dirs_exist_ok=True)

    def do_replace(self, name):
        block = self.block("+-")
        self.now += block
        old = block_text([b for b in block if b[0] == "-"]).removesuffix("\n")
        new = block_text([b for b in block if b[0] == "+"]).removesuffix("\n")
        path = self.path_of(name)
        text = path.read_text(encoding="utf-8")
        if not old or text.count(old) != 1:
            raise Wrong(f"the text to replace stands there {text.count(old) if old else 0} times")
        path.write_text(text.replace(old, new), encoding="utf-8")

    def do_append(self, name):
        block = self.block("+")
        self.now += block
        with open(self.path_of(name), "a", encoding="utf-8") as file:
            file.write(block_text(block))

    def do_write(self, name):
        self.path_of(name).unlink(missing_ok=True)
        self.do_append(name)

    def do_bytes(self, name, *numbers):
        with open(self.path_of(name), "ab") as file:
            file.write(bytes.fromhex(" ".join(numbers)))

    def do_halve(self, name):
        path = self.path_of(name)
        content = path.read_bytes()
        path.write_bytes(content[:len(content) // 2])

    def do_rubbish(self, name, megabytes):
        with open(self.path_of(name), "wb") as file:
            for _ in range(int(megabytes)):
                file.write(b"rubbish \n\xff" * 100000)

    def do_folder(self, name):
        self.path_of(name).mkdir()

    def do_remove(self, name):
        self.path_of(name).unlink()

    def do_keep(self, source, target):
        source, target = self.path_of(source), self.path_of(target)
        (shutil.copytree if source.is_dir() else shutil.copy)(source, target)

    def do_run(self, command):
        expected = {"status": "0", "out": "", "err": ""}
        while self.at < len(self.lines):
            word, _, rest = self.lines[self.at].partition(" ")
            if word not in expected:
                break
            self.at += 1
            expected[word] = rest if word == "status" else block_text(self.block("|"))
        words = shlex.split(command)
        if words[:1] != ["backfit"]:
            raise Wrong("a command starts with backfit")
        done = subprocess.run([self.program, *words[1:]], cwd=self.folder, stdin=subprocess.DEVNULL,
                              capture_output=True, timeout=LONGEST_RUN, check=False)
        found = {"status": str(done.returncode)}
        for name, text in (("out", done.stdout), ("err", done.stderr)):
            found[name] = text.decode("utf-8", errors="backslashreplace")
        for name, text in found.items():
            self.faults += difference(f"{command}: {name}", expected[name], text)
        self.now.append(f"status {found['status']}")
        for name in ("out", "err"):
            self.now += [name, *block_lines(found[name])] if found[name] else []

    def compare_block(self, what, found):
        self.faults += difference(what, block_text(self.block("|")), found)
        self.now += block_lines(found)

    def do_files(self):
        names = sorted(p.relative_to(self.folder).as_posix()
                       for p in self.folder.rglob("*") if not p.is_dir())
        self.compare_block("files", "".join(name + "\n" for name in names))

    def do_text(self, name):
        self.compare_block(name, self.path_of(name).read_text(encoding="utf-8"))

    def do_same(self, a, b):
        if self.update and b.startswith("tree:"):
            shutil.copy(self.path_of(a), self.path_of(b))
        first, second = bytes_under(self.path_of(a)), bytes_under(self.path_of(b))
        for name in sorted(first.keys() | second.keys()):
            if first.get(name) != second.get(name):
                self.faults.append(f"{a} and {b} differ in {name or 'their bytes'}")


def main(arguments):
    update = "--update" in arguments
    program, *names = [a for a in arguments if a != "--update"]
    paths = [pathlib.Path(n) for n in names] or sorted((ROOT / "tests/cases").glob("*.case"))
    failed = 0
    for path in paths:
        try:
            faults = Case(path, os.path.abspath(program), update).run()
        except (Wrong, subprocess.TimeoutExpired) as error:
            faults = [str(error)]
        if faults:
            failed += 1
            print("\n".join([f"--- {path.name}", *faults]))
    print(f"{len(paths) - failed} of {len(paths)} cases hold")
    return 1 if failed or not paths else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))

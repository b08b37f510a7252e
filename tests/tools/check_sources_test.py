# SPDX-License-Identifier: MIT
"""tools/check_sources.py finds each fault that is planted in a copy of small good data."""
import pathlib
import subprocess
import sys
import tempfile
import unittest

PROJECT = pathlib.Path(__file__).resolve().parents[2]
SCRIPT = PROJECT / "tools" / "check_sources.py"

GOOD = {
    "data/sources.toml": """\
[source.gauge-notes]
title = "Notes on gauges"

[source.memory]
title = "From memory"

[source.worked-example]
title = "A worked example"
page = "12"
""",
    "data/films.toml": """\
[[film]]
id = "sheet-a"
name = "sheet A"
kind = "sheet"
width = { value = "100.4 mm ± 0.4", source = "memory", status = "FROM MEMORY" }
holder = "holder-a"
viewed = "opposite face"
transfers = 0

[[film]]
id = "roll-b"
name = "roll B"
kind = "roll"
frames = { value = 12, source = "gauge-notes", status = "READ" }
""",
    "data/holders.toml": """\
[[holder]]
id = "holder-a"
name = "holder A"
depth = { value = "0.197 in ± 0.007", source = "gauge-notes", status = "DERIVED" }
""",
    "tests/gauge_test.cpp": """\
// Truth: worked-example in data/sources.toml, page 12, READ: 3.
// Truth: gauge-notes
// in data/sources.toml.
""",
}


def run(root):
    return subprocess.run([sys.executable, SCRIPT, root], capture_output=True, text=True)


class CheckSources(unittest.TestCase):
    def result_of(self, name=None, old="", new=""):
        """Runs the script on the good data with `old` replaced by `new` in one file."""
        with tempfile.TemporaryDirectory() as folder:
            root = pathlib.Path(folder)
            for path, text in GOOD.items():
                if path == name:
                    self.assertEqual(text.count(old), 1, "the fault must be planted once")
                    text = text.replace(old, new)
                (root / path).parent.mkdir(exist_ok=True)
                (root / path).write_text(text, encoding="utf-8")
            return run(root)

    def assert_fault(self, message, name, old, new):
        result = self.result_of(name, old, new)
        self.assertEqual(result.stderr, f"{message}\n")
        self.assertEqual(result.stdout, "")
        self.assertEqual(result.returncode, 1)

    def test_good_data_gives_one_line(self):
        result = self.result_of()
        self.assertEqual(result.stderr, "")
        self.assertEqual(result.stdout, "data: 3 numbers from 3 sources, each with its status\n")
        self.assertEqual(result.returncode, 0)

    def test_the_projects_own_data_is_sound(self):
        result = run(PROJECT)
        self.assertEqual(result.stderr, "")
        self.assertEqual(result.returncode, 0)

    def test_number_without_status(self):
        self.assert_fault("data/films.toml:5:1: error: 'width' has no status",
                          "data/films.toml", ', status = "FROM MEMORY"', "")

    def test_number_without_source(self):
        self.assert_fault("data/films.toml:14:1: error: 'frames' has no source",
                          "data/films.toml", 'value = 12, source = "gauge-notes"', "value = 12")

    def test_number_without_value(self):
        self.assert_fault("data/holders.toml:4:1: error: 'depth' has no value",
                          "data/holders.toml", 'value = "0.197 in ± 0.007", ', "")

    def test_bare_quantity(self):
        self.assert_fault("data/holders.toml:5:1: error: 'slot' has no source and no status",
                          "data/holders.toml", 'status = "DERIVED" }\n',
                          'status = "DERIVED" }\nslot = "0.012 in"\n')

    def test_bare_number(self):
        self.assert_fault("data/films.toml:15:1: error: 'sheets' has no source and no status",
                          "data/films.toml", 'status = "READ" }\n',
                          'status = "READ" }\nsheets = 25\n')

    def test_unknown_part_of_a_number(self):
        self.assert_fault("data/films.toml:14:48: error: unknown key 'page', a number has value, "
                          "source and status", "data/films.toml", 'source = "gauge-notes"',
                          'source = "gauge-notes", page = "3"')

    def test_unknown_source(self):
        self.assert_fault("data/films.toml:14:34: error: no source 'gauge-noted' in "
                          "data/sources.toml", "data/films.toml", "gauge-notes", "gauge-noted")

    def test_unknown_status(self):
        self.assert_fault("data/films.toml:14:58: error: status is 'SEEN', needed 'READ' or "
                          "'FROM MEMORY' or 'DERIVED'", "data/films.toml", '"READ"', '"SEEN"')

    def test_read_from_memory(self):
        self.assert_fault("data/films.toml:5:66: error: READ from memory",
                          "data/films.toml", '"FROM MEMORY"', '"READ"')

    def test_source_without_use(self):
        self.assert_fault("data/sources.toml:11:9: error: source 'idle' is used by no number and "
                          "no test", "data/sources.toml", 'page = "12"\n',
                          'page = "12"\n\n[source.idle]\ntitle = "Idle"\n')

    def test_source_whose_test_is_gone(self):
        self.assert_fault("data/sources.toml:7:9: error: source 'worked-example' is used by no "
                          "number and no test", "tests/gauge_test.cpp", "worked-example in data",
                          "worked example, data")

    def test_test_that_names_no_source(self):
        result = self.result_of("tests/gauge_test.cpp", "worked-example", "worked-exemple")
        self.assertIn("tests/gauge_test.cpp:1:11: error: no source 'worked-exemple' in "
                      "data/sources.toml\n", result.stderr)
        self.assertEqual(result.returncode, 1)

    def test_source_without_title(self):
        self.assert_fault("data/sources.toml:4:9: error: source 'memory' has no title",
                          "data/sources.toml", 'title = "From memory"\n', "")

    def test_source_with_an_unknown_key(self):
        self.assert_fault("data/sources.toml:9:1: error: unknown key 'pages', a source has title, "
                          "edition and page", "data/sources.toml", "page =", "pages =")

    def test_source_with_an_address(self):
        self.assert_fault("data/sources.toml:2:1: error: title holds an address, name the work in "
                          "words", "data/sources.toml", "Notes on gauges", "www.example.org")

    def test_source_id_with_capitals(self):
        result = self.result_of("data/sources.toml", "[source.memory]", "[source.Memory]")
        self.assertIn("data/sources.toml:4:9: error: source id 'Memory' is not lower-case words "
                      "joined by dashes\n", result.stderr)

    def test_two_films_of_one_id(self):
        self.assert_fault("data/films.toml:11:7: error: second film 'sheet-a'",
                          "data/films.toml", "roll-b", "sheet-a")

    def test_film_without_id(self):
        self.assert_fault("data/films.toml:10:1: error: film without 'id'",
                          "data/films.toml", 'id = "roll-b"\n', "")

    def test_unknown_holder(self):
        self.assert_fault("data/films.toml:6:11: error: no holder 'holder-z' in data/holders.toml",
                          "data/films.toml", '"holder-a"', '"holder-z"')

    def test_unknown_kind(self):
        self.assert_fault("data/films.toml:13:9: error: kind is 'disc', needed 'roll' or 'sheet' "
                          "or 'paper' or 'integral'", "data/films.toml", '"roll"', '"disc"')

    def test_unknown_face(self):
        self.assert_fault("data/films.toml:7:11: error: viewed is 'either', needed 'same face' or "
                          "'opposite face'", "data/films.toml", "opposite face", "either")

    def test_too_many_transfers(self):
        self.assert_fault("data/films.toml:8:1: error: transfers is 2, needed 0 or 1",
                          "data/films.toml", "transfers = 0", "transfers = 2")

    def test_broken_toml(self):
        result = self.result_of("data/films.toml", 'name = "sheet A"', 'name = "sheet A')
        self.assertRegex(result.stderr, r"^data/films\.toml:3:\d+: error: not TOML 1\.0: ")
        self.assertEqual(result.returncode, 1)


if __name__ == "__main__":
    unittest.main()

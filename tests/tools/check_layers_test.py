# SPDX-License-Identifier: MIT
"""tools/check_layers.py finds each wrong include that is planted in a small tree of rooms."""
import pathlib
import subprocess
import sys
import tempfile
import unittest

SCRIPT = pathlib.Path(__file__).resolve().parents[2] / "tools" / "check_layers.py"


class CheckLayers(unittest.TestCase):
    def result_of(self, files):
        with tempfile.TemporaryDirectory() as folder:
            root = pathlib.Path(folder)
            (root / "src").mkdir()
            for path, text in files.items():
                (root / path).parent.mkdir(parents=True, exist_ok=True)
                (root / path).write_text(text, encoding="utf-8")
            return subprocess.run([sys.executable, SCRIPT, root], capture_output=True, text=True)

    def assert_sound(self, files, summary):
        result = self.result_of(files)
        self.assertEqual(result.stderr, "")
        self.assertEqual(result.stdout, f"layers: {summary} point downward\n")
        self.assertEqual(result.returncode, 0)

    def assert_fault(self, message, path, include):
        result = self.result_of({path: f"#pragma once\n{include}\n"})
        self.assertEqual(result.stderr, f"{path}:2:{include.index('#include') + 10}: "
                         f"error: {message}\n")
        self.assertEqual(result.stdout, "")
        self.assertEqual(result.returncode, 1)

    def test_downward_includes_are_sound(self):
        self.assert_sound({
            "src/quantity/a.hpp": "#include <vector>\n",
            "src/quantity/a.cpp": '#include "quantity/a.hpp"\n',
            "src/files/a.cpp": '#include "quantity/a.hpp"\n#include <toml++/toml.h>\n',
            "src/survey/a.cpp": '#include "files/a.hpp"\n',
            "src/solid/a.cpp": '#include <TopoDS_Shape.hxx>\n#include <gp_Pnt.hxx>\n',
            "src/optics/a.cpp": '#include "quantity/a.hpp"\n',
            "src/parts/a.cpp": '#include "solid/a.hpp"\n#include "optics/a.hpp"\n',
            "src/conversion/a.cpp": '#include "parts/a.hpp"\n#include "catalogue/a.hpp"\n',
            "src/documents/a.cpp": '#include "conversion/a.hpp"\n#include <cairo.h>\n',
            "src/cli/a.cpp": '#include "documents/a.hpp"\n',
        }, "15 includes in 9 rooms")

    def test_ground_floor_looking_up(self):
        self.assert_fault("'quantity' includes 'files/a.hpp', but may include only quantity",
                          "src/quantity/a.hpp", '#include "files/a.hpp"')

    def test_siblings(self):
        self.assert_fault("'survey' includes 'catalogue/a.hpp', but may include only quantity, "
                          "files, survey", "src/survey/a.hpp", '#include "catalogue/a.hpp"')
        self.assert_fault("'exposure' includes 'optics/a.hpp', but may include only quantity, "
                          "exposure", "src/exposure/a.hpp", '#include "optics/a.hpp"')
        self.assert_fault("'workbench' includes 'cli/a.hpp', but may include only quantity, files, "
                          "survey, catalogue, solid, evidence, exposure, lighttrap, optics, timer, "
                          "transport, parts, conversion, documents, workbench",
                          "src/workbench/a.hpp", '#include "cli/a.hpp"')

    def test_study_that_reads_files(self):
        self.assert_fault("'timer' includes 'files/a.hpp', but may include only quantity, timer",
                          "src/timer/a.cpp", '#include "files/a.hpp"')

    def test_solid_that_reads_files(self):
        self.assert_fault("'solid' includes 'files/a.hpp', but may include only quantity, solid",
                          "src/solid/a.cpp", ' #include "files/a.hpp"')

    def test_parts_that_know_the_survey(self):
        result = self.result_of({"src/parts/a.hpp": '#include "survey/a.hpp"\n'})
        self.assertIn("'parts' includes 'survey/a.hpp'", result.stderr)

    def test_documents_looking_up(self):
        result = self.result_of({"src/documents/a.hpp": '#include "cli/a.hpp"\n'})
        self.assertIn("'documents' includes 'cli/a.hpp'", result.stderr)

    def test_header_without_its_room(self):
        self.assert_fault("'lens.hpp' does not name its room, write \"optics/lens.hpp\"",
                          "src/optics/lens.cpp", '#include "lens.hpp"')

    def test_unknown_rooms(self):
        self.assert_fault("'helpers/a.hpp' is in no room of src/",
                          "src/optics/a.hpp", '#include "helpers/a.hpp"')
        result = self.result_of({"src/helpers/a.hpp": "#pragma once\n"})
        self.assertEqual(result.stderr, "src/helpers:1:1: error: 'helpers' is no known room\n")

    def test_libraries_outside_their_room(self):
        for header, library, home in [
                ("TopoDS_Shape.hxx", "geometry kernel", "solid"),
                ("BRepPrimAPI_MakeBox.hxx", "geometry kernel", "solid"),
                ("gp_Pnt.hxx", "geometry kernel", "solid"),
                ("toml++/toml.h", "TOML parser", "files"),
                ("toml.hpp", "TOML parser", "files"),
                ("cairo/cairo-pdf.h", "drawing library", "documents"),
                ("cairo.h", "drawing library", "documents"),
                ("pango/pangocairo.h", "drawing library", "documents")]:
            self.assert_fault(f"'{header}' is the {library}, which only src/{home} may include",
                              "src/parts/a.cpp", f"#include <{header}>")

    def test_file_of_two_ideas(self):
        self.assert_sound({"src/optics/a.cpp": "\n" * 400}, "0 includes in 1 rooms")
        for path in ("src/optics/a.cpp", "tests/optics/a_test.cpp", "tools/a.py"):
            result = self.result_of({path: "\n" * 401})
            self.assertEqual(result.stderr, f"{path}:401:1: error: 401 lines, needed 400 or fewer: "
                             "it holds two ideas\n")


if __name__ == "__main__":
    unittest.main()

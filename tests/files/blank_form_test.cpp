// SPDX-License-Identifier: MIT
#include "files/blank_form.hpp"

#include <gtest/gtest.h>

#include "sample_record.hpp"

namespace backfit {
namespace {

std::vector<FormLine> lines() {
  Bracket b;
  return form_lines([&](Fields& fields) { describe(fields, b); });
}

TEST(BlankForm, ShowsEachKeyWithItsMeaningAndExample) {
  EXPECT_EQ(blank_form("b.schema.json", "A bracket.", lines()),
            "#:schema ./b.schema.json\n"
            "# A bracket.\n"
            "\n"
            "# what it is; like \"left bracket\"\n"
            "name = \"\"\n"
            "# how it shines; like \"dull\" or \"bright\"\n"
            "# finish = \"\"\n"
            "# a width; like \"73.0 mm ± 0.1\"\n"
            "# caliper = \"\"\n"
            "# a height; like \"73.0 mm ± 0.1\"\n"
            "# ruler = \"\"\n"
            "# a mark; like \"73.0 mm ± 0.1\"\n"
            "# engraved = \"\"\n"
            "# a depth; like \"73.0 mm ± 0.1\"\n"
            "# bare = \"\"\n"
            "# how many; like 2\n"
            "# count = 2\n"
            "# whether it is the left one; like true\n"
            "# left = false\n"
            "# times; like [\"1 s\", \"2 s\"]\n"
            "# times = [\"\"]\n"
            "\n"
            "# A hole (leave out if there is none)\n"
            "# [[holes]]\n"
            "# right of the middle; like \"1.0 mm ± 0.1\"\n"
            "# x = \"\"\n"
            "\n"
            "# Spare holes (leave out if there is none)\n"
            "# [spare]\n"
            "# right of the middle; like \"1.0 mm ± 0.1\"\n"
            "# x = \"\"\n");
}

TEST(BlankForm, AsksForWhatIsRequiredOnly) {
  const ReadBracket r(blank_form("b.schema.json", "A bracket.", lines()));
  EXPECT_EQ(r.message(),
            "b.toml:5:8: error: 'name' is not filled in: what it is\n"
            "  5 | name = \"\"\n"
            "    |        ^~\n"
            "    = help: write it like \"left bracket\"\n");
}

}  // namespace
}  // namespace backfit

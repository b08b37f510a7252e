// SPDX-License-Identifier: MIT
#include "files/drafts.hpp"

#include <gtest/gtest.h>

namespace backfit {
namespace {

TEST(Drafts, StandInForTheirFileHoweverItsPathIsSpelt) {
  Drafts drafts;
  drafts.put("folder/a.toml", "x = 1\n");
  Diagnostics diagnostics;
  const auto source = read_source("folder/inner/../a.toml", drafts, diagnostics);
  ASSERT_NE(source, nullptr);
  EXPECT_EQ(source->text(), "x = 1\n");
  EXPECT_EQ(source->path(), "folder/inner/../a.toml");  // as its owner spells it
  EXPECT_EQ(read_source("folder/b.toml", drafts, diagnostics), nullptr);
  ASSERT_EQ(diagnostics.list().size(), 1U);
  EXPECT_EQ(diagnostics.list()[0].text, "there is no file 'folder/b.toml'");
}

TEST(Drafts, AreHeldToTheLimitsOfFiles) {
  Drafts drafts;
  drafts.put("a.toml", std::string(1024 * 1024 + 1, ' '));
  drafts.put("b.toml", "x = \"\xFF\"\n");
  Diagnostics diagnostics;
  EXPECT_EQ(read_source("a.toml", drafts, diagnostics), nullptr);
  EXPECT_EQ(read_source("b.toml", drafts, diagnostics), nullptr);
  ASSERT_EQ(diagnostics.list().size(), 2U);
  EXPECT_EQ(diagnostics.list()[0].text,
            "'a.toml' holds 1.0 MB; a file of this kind has less than 1 MB");
  EXPECT_EQ(diagnostics.list()[1].text, "byte 0xFF is not UTF-8 text");
}

}  // namespace
}  // namespace backfit

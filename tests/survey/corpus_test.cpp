// SPDX-License-Identifier: MIT
// Every input that ever hurt, and the examples, through every reader.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <iterator>

#include "../fuzz/read_everything.hpp"

namespace backfit {
namespace {

TEST(Corpus, HurtsNoMore) {
  int files = 0;
  for (const char* folder : {"tests/corpus", "examples"}) {
    const auto root = std::filesystem::path(BACKFIT_SOURCE_DIR) / folder;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(root)) {
      if (!entry.is_regular_file()) continue;
      SCOPED_TRACE(entry.path().filename());
      std::ifstream in(entry.path(), std::ios::binary);
      read_everything({std::istreambuf_iterator<char>(in), {}});
      ++files;
    }
  }
  EXPECT_GE(files, 8);
}

}  // namespace
}  // namespace backfit

// SPDX-License-Identifier: MIT
// The demo conversion, as its files stand or with some of their text changed.
#pragma once
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <utility>
#include <vector>

#include "conversion/read_conversion.hpp"
#include "conversion/report.hpp"

namespace backfit {

using Edits = std::vector<std::pair<std::string, std::string>>;

// A copy of the example with each first text replaced by the second, in a folder of its own that
// is removed at the end.
class Kestrel {
 public:
  Kestrel(const std::string& from, const std::string& to) : Kestrel(Edits{{from, to}}) {}
  explicit Kestrel(const Edits& edits = {}) {
    const std::filesystem::path root = BACKFIT_SOURCE_DIR;
    const auto* test = testing::UnitTest::GetInstance()->current_test_info();
    folder_ = std::filesystem::temp_directory_path() /
              (std::string("backfit-") + test->test_suite_name() + "-" + test->name() +
               std::to_string(count_++));
    std::filesystem::create_directories(folder_);
    Edits left = edits;
    for (const char* name : {"kestrel.camera.toml", "kestrel-4x5.conversion.toml"}) {
      std::ifstream in(root / "examples" / "kestrel" / name);
      std::string text{std::istreambuf_iterator<char>(in), {}};
      std::erase_if(left, [&](const auto& edit) {
        const std::size_t at = text.find(edit.first);
        if (at == std::string::npos) return false;
        text.replace(at, edit.first.size(), edit.second);
        return true;
      });
      std::ofstream(folder_ / name) << text;
    }
    EXPECT_TRUE(left.empty()) << "nothing reads: " << left.front().first;
    const auto catalogue = read_catalogue(root / "data", diagnostics);
    if (!catalogue) return;
    if (auto assembly =
            assemble(folder_ / "kestrel-4x5.conversion.toml", *catalogue, diagnostics)) {
      report = report_on(std::move(*assembly), Scope::with_simulation);
    }
  }
  Kestrel(const Kestrel&) = delete;
  Kestrel& operator=(const Kestrel&) = delete;
  ~Kestrel() { std::filesystem::remove_all(folder_); }

  const Finding* finding(std::string_view id) const {
    for (const Finding& f : report->findings) {
      if (f.id == id) return &f;
    }
    return nullptr;
  }

  Diagnostics diagnostics;
  std::optional<Report> report;

 private:
  static inline int count_ = 0;
  std::filesystem::path folder_;
};

}  // namespace backfit

// SPDX-License-Identifier: MIT
// What the tests of documents share: bytes as files, and what independent PDF programs say of them.
#pragma once
#include <gtest/gtest.h>
#include <sys/wait.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

#include "documents/document.hpp"

namespace backfit::paper {

inline const std::filesystem::path font_folder =
    std::filesystem::path(BACKFIT_SOURCE_DIR) / "data" / "fonts";

inline Document blank_document() { return Document(font_folder, {"Title", "Camera", "Foot"}); }

// A folder of this test's own, beside the test program.
inline std::filesystem::path scratch() {
  const auto* test = testing::UnitTest::GetInstance()->current_test_info();
  auto folder = std::filesystem::read_symlink("/proc/self/exe").parent_path() /
                "documents_scratch" / (std::string(test->test_suite_name()) + "." + test->name());
  std::filesystem::create_directories(folder);
  return folder;
}

inline std::string file(const std::string& name, const std::string& bytes) {
  const std::filesystem::path path = scratch() / name;
  std::ofstream(path, std::ios::binary) << bytes;
  return path.string();
}

inline std::string bytes_of(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

// What `command` prints on both outputs. Fails the test when it does not exit with 0: a
// missing program is a failure, never a skipped test.
inline std::string said(const std::string& command) {
  FILE* pipe = popen((command + " 2>&1").c_str(), "r");
  std::string text;
  for (int c = std::fgetc(pipe); c != EOF; c = std::fgetc(pipe)) text += static_cast<char>(c);
  const int status = pclose(pipe);
  EXPECT_TRUE(WIFEXITED(status) && WEXITSTATUS(status) == 0) << command << ": " << text;
  return text;
}

// The text of all pages, or of one counted from 1, in reading order.
inline std::string text_in(const std::string& pdf_file, int page = 0) {
  const std::string one = std::to_string(page);
  const std::string pages = page > 0 ? "-f " + one + " -l " + one + " " : "";
  return said("pdftotext -enc UTF-8 " + pages + pdf_file + " -");
}

inline std::size_t count(const std::string& text, const std::string& word) {
  std::size_t n = 0;
  for (auto at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) ++n;
  return n;
}

}  // namespace backfit::paper

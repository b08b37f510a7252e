// SPDX-License-Identifier: MIT
// What the tests of documents share: bytes as files, and what independent PDF programs say of them.
#pragma once
#include <gtest/gtest.h>
#include <sys/wait.h>

#include <cmath>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

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

// The grey values of one page of `pdf`, rendered by pdftoppm at 100 pixels a millimetre, in a band
// that starts at (x, y) on the page; summed across the band.
inline std::vector<int> rendered_band(const std::string& pdf, PagePoint start, Length width,
                                      Length height, bool down, int page = 1) {
  const auto pixels = [](Length l) { return static_cast<int>(std::lround(l / (0.01 * mm))); };
  const int w = pixels(width), h = pixels(height);
  const std::string image = (scratch() / "band").string();
  const std::string one = std::to_string(page);
  said("pdftoppm -r 2540 -gray -f " + one + " -l " + one + " -singlefile -x " +
       std::to_string(pixels(start.x)) + " -y " + std::to_string(pixels(start.y)) + " -W " +
       std::to_string(w) + " -H " + std::to_string(h) + " " + pdf + " " + image);
  const std::string head = "P5\n" + std::to_string(w) + " " + std::to_string(h) + "\n255\n";
  const std::string pgm = bytes_of(image + ".pgm");
  EXPECT_EQ(pgm.substr(0, head.size()), head);
  std::vector<int> sums(static_cast<std::size_t>(down ? h : w), 0);
  for (std::size_t i = head.size(); i < pgm.size(); ++i) {
    const std::size_t p = i - head.size(), column = p % static_cast<std::size_t>(w);
    sums.at(down ? p / static_cast<std::size_t>(w) : column) += static_cast<unsigned char>(pgm[i]);
  }
  return sums;
}

// Middles of the dark runs, in millimetres from the start of the band.
inline std::vector<double> ticks_mm(const std::vector<int>& sums, int white) {
  std::vector<double> result;
  for (std::size_t i = 0, start = 0; i <= sums.size(); ++i) {
    const bool dark = i < sums.size() && sums[i] < white / 2;
    const bool was_dark = i > 0 && sums[i - 1] < white / 2;
    if (dark && !was_dark) start = i;
    if (!dark && was_dark) result.push_back(static_cast<double>(start + i) / 2 / 100);
  }
  return result;
}

}  // namespace backfit::paper

// SPDX-License-Identifier: MIT
// A text file as its owner sees it: lines and columns to point at.
#pragma once
#include <filesystem>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace backfit {

// The whole text of one file. Lines count from 1; a column is a code point, counted from 1.
class SourceText {
 public:
  SourceText(std::filesystem::path path, std::string text);
  const std::filesystem::path& path() const { return path_; }
  const std::string& text() const { return text_; }
  std::size_t line_count() const { return starts_.size(); }
  // Line `number` without its line ending; empty outside the file.
  std::string_view line(std::size_t number) const;

 private:
  std::filesystem::path path_;
  std::string text_;
  std::vector<std::size_t> starts_;
};

// A stretch of code points on one line of one file; no source when it comes from nowhere.
struct Place {
  std::shared_ptr<const SourceText> source;
  std::size_t line = 1, column = 1, length = 1;
  explicit operator bool() const { return source != nullptr; }
};

// The stretch of `length` code points from `line` and `column` on, cut to what that line holds; at
// least one code point, which may be the one after the line's end.
Place place_within(std::shared_ptr<const SourceText> source, std::size_t line, std::size_t column,
                   std::size_t length);

// Code points in valid UTF-8 `text`.
std::size_t code_points(std::string_view text);
// `count` code points of valid UTF-8 `text` after its first `begin`; fewer where it ends.
std::string_view code_point_slice(std::string_view text, std::size_t begin, std::size_t count);
// Byte offset of the first byte that isn't UTF-8, or npos.
std::size_t first_invalid_utf8(std::string_view text);

}  // namespace backfit

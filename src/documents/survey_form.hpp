// SPDX-License-Identifier: MIT
// The survey of a camera as a form to print, fill in beside the camera, and type in afterwards.
#pragma once
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "files/blank_form.hpp"

namespace backfit {

// What the form's sketches show: a key, its table's path, and the letter in the sketch.
struct SketchLetter {
  std::string_view path, key, letter;
};
std::vector<SketchLetter> sketch_letters();

// The letter that the form's sketches give to what the key `key` of the table `path` asks for;
// empty when they don't show it.
std::string sketch_letter(std::string_view path, std::string_view key);

// A PDF of A4 pages: how to measure, two sketches with letters, and a line to write on for each
// key of `lines`, several where a table may be repeated.
std::string survey_form(const std::vector<FormLine>& lines,
                        const std::filesystem::path& font_folder);

}  // namespace backfit

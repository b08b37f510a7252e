// SPDX-License-Identifier: MIT
#include "documents/build_words.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "documents/millimetres.hpp"
#include "files/source.hpp"
#include "quantity/notation.hpp"

namespace backfit::paper {

std::string sides(const FrameSize& size) {
  return fmt::format("{} × {}", fixed(size.width / mm, 1), fixed(size.height / mm, 1));
}

std::string within(const Measured<Length>& measured) {
  const int decimals = measured.half_width < 0.095 * mm ? 2 : 1;
  std::string value = fixed(measured.value / mm, decimals);
  if (measured.half_width == 0 * mm) return value;
  return fmt::format("{} ± {}", value, fixed(measured.half_width / mm, decimals));
}

std::string engraved(Length distance) {
  return distance >= metre ? in_mm(distance / (metre / mm), 2) + " m" : in_mm(distance, 0) + " mm";
}

std::string place_mm(Length place) {
  const std::string text = fixed(abs(place) / mm, 2);
  return place < 0 * mm && text != "0.00" ? "−" + text : text;
}

std::string sentence(std::string text) {
  if (text.empty()) return text;
  if (text.front() >= 'a' && text.front() <= 'z')
    text.front() = static_cast<char>(text.front() - 32);
  if (text.back() != '.') text += '.';
  return text;
}

std::string counted(std::size_t count, const std::string& what) {
  return fmt::format("{} {}{}", count, what, count == 1 ? "" : "s");
}

std::string shortened(const std::string& text, std::size_t letters) {
  if (code_points(text) <= letters) return text;
  std::size_t end = text.size();
  while (code_points(std::string_view(text).substr(0, end)) >= letters) {
    do {
      --end;
    } while ((static_cast<unsigned char>(text[end]) & 0xc0) == 0x80);  // inside a letter
  }
  return text.substr(0, end) + "…";
}

std::string_view way_of(Length move) { return move < 0 * mm ? "forward" : "back"; }

std::string what_moves(const Camera& camera) {
  return *camera.focusing.moves == LensMotion::standard ? "standard" : "lens";
}

std::string conversion_file(const Assembly& assembly) { return assembly.file.filename().string(); }

std::string camera_file(const Assembly& assembly) {
  return std::filesystem::path(*assembly.plan.camera).filename().string();
}

}  // namespace backfit::paper

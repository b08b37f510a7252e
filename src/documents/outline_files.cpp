// SPDX-License-Identifier: MIT
#include "documents/outline_files.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "solid/xml.hpp"

namespace backfit {
namespace {

struct Box {
  double low_x = 1e9, low_y = 1e9, high_x = -1e9, high_y = -1e9;
};
Box box_of(const FlatOutlines& outlines) {
  Box b;
  for (const auto& outline : outlines) {
    for (const paper::PartPoint& p : outline) {
      b.low_x = std::min(b.low_x, p.x / mm), b.high_x = std::max(b.high_x, p.x / mm);
      b.low_y = std::min(b.low_y, p.y / mm), b.high_y = std::max(b.high_y, p.y / mm);
    }
  }
  return b;
}

// A tenth of a micrometre; "-0.0000" is 0.
std::string number(double value_mm) {
  std::string text = fmt::format("{:.4f}", value_mm);
  return text == "-0.0000" ? "0.0000" : text;
}

}  // namespace

std::string dxf_file(const FlatOutlines& outlines, std::string_view title) {
  std::string text;
  const auto add = [&](int code, std::string_view value) {
    text += fmt::format("{:>3}\n{}\n", code, value);
  };
  const auto point = [&](double x, double y) {
    add(10, number(x));
    add(20, number(y));
    add(30, "0.0");
  };
  const Box b = box_of(outlines);
  // Its age knows no letters beyond ASCII.
  std::string plain(title);
  std::erase_if(plain, [](char c) { return c < ' ' || c > '~'; });
  add(999, plain + ", lengths in millimetres");
  add(0, "SECTION");
  add(2, "HEADER");
  add(9, "$ACADVER");
  add(1, "AC1009");
  add(9, "$EXTMIN");
  point(b.low_x, b.low_y);
  add(9, "$EXTMAX");
  point(b.high_x, b.high_y);
  add(0, "ENDSEC");
  add(0, "SECTION");
  add(2, "TABLES");
  add(0, "TABLE");
  add(2, "LTYPE");
  add(70, "1");
  add(0, "LTYPE");
  add(2, "CONTINUOUS");
  add(70, "0");
  add(3, "Solid line");
  add(72, "65");
  add(73, "0");
  add(40, "0.0");
  add(0, "ENDTAB");
  add(0, "TABLE");
  add(2, "LAYER");
  add(70, "1");
  add(0, "LAYER");
  add(2, "OUTLINE");
  add(70, "0");
  add(62, "7");
  add(6, "CONTINUOUS");
  add(0, "ENDTAB");
  add(0, "ENDSEC");
  add(0, "SECTION");
  add(2, "ENTITIES");
  for (const auto& outline : outlines) {
    add(0, "POLYLINE");
    add(8, "OUTLINE");
    add(66, "1");
    point(0, 0);
    add(70, "1");
    for (const paper::PartPoint& p : outline) {
      add(0, "VERTEX");
      add(8, "OUTLINE");
      point(p.x / mm, p.y / mm);
    }
    add(0, "SEQEND");
    add(8, "OUTLINE");
  }
  add(0, "ENDSEC");
  add(0, "EOF");
  return text;
}

std::string svg_outline_file(const FlatOutlines& outlines, std::string_view title) {
  constexpr double edge_mm = 2;
  const Box b = box_of(outlines);
  const double width = b.high_x - b.low_x + 2 * edge_mm, height = b.high_y - b.low_y + 2 * edge_mm;
  std::string text = fmt::format(
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
      "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"{0}mm\" "
      "height=\"{1}mm\" viewBox=\"0 0 {0} {1}\">\n<title>{2}</title>\n",
      number(width), number(height), escaped(title));
  text += "<path fill=\"none\" stroke=\"#000000\" stroke-width=\"0.1\" d=\"";
  for (const auto& outline : outlines) {
    char command = 'M';
    for (const paper::PartPoint& p : outline) {
      text += fmt::format("{}{} {}", command, number(p.x / mm - b.low_x + edge_mm),
                          number(b.high_y - p.y / mm + edge_mm));
      command = 'L';
    }
    text += "Z";
  }
  return text + "\"/>\n</svg>\n";
}

}  // namespace backfit

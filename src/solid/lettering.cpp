// SPDX-License-Identifier: MIT
#include "solid/lettering.hpp"

#include <array>
#include <cassert>
#include <cctype>
#include <string>

namespace backfit {
namespace {

// Nodes of a letter in a box one wide and two high: corners, the middles of its sides, its centre.
struct Node {
  double x, y;
};
constexpr std::array<Node, 9> nodes = {
    {{0, 2}, {0.5, 2}, {1, 2}, {0, 1}, {0.5, 1}, {1, 1}, {0, 0}, {0.5, 0}, {1, 0}}};

// Each letter's strokes as pairs of nodes: 0 1 2 over 3 4 5 over 6 7 8.
struct Drawn {
  char letter;
  std::string_view strokes;
};
constexpr Drawn drawn[] = {{'0', "02 25 58 86 63 30"},
                           {'1', "32 25 58"},
                           {'2', "02 25 35 36 68"},
                           {'3', "02 25 45 58 86"},
                           {'4', "03 35 25 58"},
                           {'5', "20 03 35 58 86"},
                           {'6', "20 03 36 68 85 53"},
                           {'7', "02 25 58"},
                           {'8', "02 25 58 86 63 30 35"},
                           {'9', "53 30 02 25 58 86"},
                           {'A', "63 30 02 25 58 35"},
                           {'B', "02 25 58 86 17 45"},
                           {'C', "20 03 36 68"},
                           {'D', "02 25 58 86 17"},
                           {'E', "20 03 36 68 34"},
                           {'F', "20 03 36 34"},
                           {'G', "20 03 36 68 85 54"},
                           {'H', "03 36 25 58 35"},
                           {'I', "02 17 68"},
                           {'J', "25 58 86 63"},
                           {'K', "03 36 42 48"},
                           {'L', "03 36 68"},
                           {'M', "03 36 04 42 25 58"},
                           {'N', "03 36 04 48 25 58"},
                           {'O', "02 25 58 86 63 30"},
                           {'P', "36 30 02 25 53"},
                           {'Q', "02 25 58 86 63 30 48"},
                           {'R', "36 30 02 25 53 48"},
                           {'S', "20 03 35 58 86"},
                           {'T', "02 17"},
                           {'U', "03 36 68 85 52"},
                           {'V', "03 36 64 42"},
                           {'W', "03 36 64 48 85 52"},
                           {'X', "04 42 46 48"},
                           {'Y', "04 42 47"},
                           {'Z', "02 24 46 68"},
                           {'-', "35"},
                           {'/', "24 46"},
                           {'+', "35 14 47"},
                           {'*', "04 42 46 48"}};

std::string_view strokes_of_letter(char letter) {
  const char capital = static_cast<char>(std::toupper(static_cast<unsigned char>(letter)));
  for (const Drawn& d : drawn) {
    if (d.letter == capital) return d.strokes;
  }
  return {};
}

// One byte a letter: "×" as X, "±" as +, "°" and all else beyond ASCII as a space.
std::string in_plain_letters(std::string_view text) {
  std::string plain;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto byte = static_cast<unsigned char>(text[i]);
    if (byte < 0x80) {
      plain += text[i];
      continue;
    }
    if (text.substr(i, 2) == "×") plain += 'X';
    if (text.substr(i, 2) == "±") plain += '+';
    const bool first = (byte & 0xC0) == 0xC0;
    if (first && text.substr(i, 2) != "×" && text.substr(i, 2) != "±") plain += ' ';
  }
  return plain;
}

}  // namespace

std::vector<std::vector<OutlineCorner>> strokes_of(std::string_view text,
                                                   const Lettering& lettering) {
  assert(lettering.stroke > Length{} && lettering.height >= 6 * lettering.stroke);
  const Length w = lettering.stroke;
  // Middle lines of the strokes: half a stroke inside the letter's box.
  const Length wide = 0.62 * lettering.height - w, high = lettering.height - w;
  std::vector<std::vector<OutlineCorner>> outlines;
  Length left;
  for (const char letter : in_plain_letters(text)) {
    const std::string_view strokes = strokes_of_letter(letter);
    for (std::size_t i = 0; i + 1 < strokes.size(); i += 3) {
      const auto node = [&](char c) { return nodes[static_cast<std::size_t>(c - '0')]; };
      const Node a = node(strokes[i]), b = node(strokes[i + 1]);
      const Length ax = left + w / 2 + a.x * wide, ay = w / 2 + a.y / 2 * high;
      const Length bx = left + w / 2 + b.x * wide, by = w / 2 + b.y / 2 * high;
      const Length length = hypot(bx - ax, by - ay);
      const double ex = (bx - ax) / length, ey = (by - ay) / length;
      // Ends drawn in from the node, so that upright and level strokes keep a gap; slanted ones run
      // into their neighbours.
      const bool slanted = a.x != b.x && a.y != b.y;
      const Length in = slanted ? 1.1 * w : 0.65 * w;
      const auto corner = [&](Length along, double side) {
        return OutlineCorner{ax + ex * along - side * ey * (w / 2),
                             ay + ey * along + side * ex * (w / 2)};
      };
      outlines.push_back(
          {corner(in, -1), corner(length - in, -1), corner(length - in, 1), corner(in, 1)});
    }
    left += lettering.advance();
  }
  return outlines;
}

Solid engraved(const Solid& body, const std::vector<std::vector<OutlineCorner>>& outlines,
               Length low, Length high) {
  std::vector<Solid> cutters;
  cutters.reserve(outlines.size());
  for (const std::vector<OutlineCorner>& outline : outlines) {
    cutters.push_back(prism(outline, low, high));
  }
  return difference_of(body, cutters);
}

}  // namespace backfit

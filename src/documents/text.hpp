// SPDX-License-Identifier: MIT
// How words look on paper and how much room they take: one family, two weights, four sizes.
#pragma once
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "quantity/quantity.hpp"

struct _cairo;  // cairo_t. NOLINT(bugprone-reserved-identifier)

namespace backfit::paper {

inline constexpr Length point = inch / 72;

// Black first. The accent is dark enough to read as black from a black-and-white printer, and
// nothing is told by colour alone.
enum class Ink { black, grey, accent, white };

enum class Align { left, centre, right };

// What a reader program for the blind announces a text as.
enum class Role { paragraph, title, heading };

struct TextStyle {
  Length size = 9 * point;
  bool bold = false;
  Ink ink = Ink::black;
  Align align = Align::left;
  Role role = Role::paragraph;
};
inline constexpr TextStyle title_text{.size = 18 * point, .bold = true, .role = Role::title};
inline constexpr TextStyle heading_text{.size = 12 * point, .bold = true, .role = Role::heading};
inline constexpr TextStyle body_text{};
inline constexpr TextStyle strong_text{.bold = true};
inline constexpr TextStyle small_text{.size = 7.5 * point};

// Paper between two lines of a text, beside the family's own line height.
constexpr Length line_gap(const TextStyle& style) { return 0.14 * style.size; }

// Of a laid-out text; `baseline` is that of the first line, below the top.
struct TextSize {
  Length width, height, baseline;
};

// DejaVu Sans and its bold, and no other font: the system's fonts and the user's font settings
// are never read. Copies share the same fonts. Bytes that are not UTF-8 print as U+FFFD; a
// letter that the family lacks prints as a box with its number.
class Fonts {
 public:
  // Reads DejaVuSans.ttf and DejaVuSans-Bold.ttf in `folder`. Throws std::runtime_error, naming
  // the file, when one of them is missing or is no font.
  explicit Fonts(const std::filesystem::path& folder);

  // The room `text` takes: wrapped at `width`, or on one line for each '\n' without a width.
  // A word wider than `width` is broken. Requires width > 0.
  TextSize size(std::string_view text, const TextStyle& style,
                std::optional<Length> width = std::nullopt) const;

  // The lines that `text` is wrapped into at `width`. Requires width > 0.
  std::vector<std::string> lines(std::string_view text, const TextStyle& style, Length width) const;

  // Draws `text` with its upper left corner at the origin of `cairo`, whose unit must be 1 mm.
  void draw(_cairo* cairo, std::string_view text, const TextStyle& style,
            std::optional<Length> width) const;

 private:
  struct Set;
  std::shared_ptr<const Set> set_;
};

}  // namespace backfit::paper

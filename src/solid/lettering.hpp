// SPDX-License-Identifier: MIT
// Words as straight strokes, to engrave into a flat face.
#pragma once
#include <string_view>
#include <vector>

#include "solid/solid.hpp"

namespace backfit {

// Letters as high as `height`, made of strokes `stroke` wide; capitals and figures on one width.
struct Lettering {
  Length height, stroke;
  // From one letter to the next, and the width of a line of `letters`.
  Length advance() const { return 0.62 * height + 2.2 * stroke; }
  Length width(std::size_t letters) const {
    return letters == 0 ? Length{} : static_cast<double>(letters) * advance() - 2.2 * stroke;
  }
};
// Strokes an eighth as wide as the letters are high.
inline Lettering lettering_for(Length height) { return {height, height / 8}; }

// The strokes of one line of `text` in the plane z = 0, its lower left corner in the origin, each a
// convex outline of four corners. Upright and level strokes keep a gap from each other, slanted
// ones overlap: none merely touch, which the kernel does not like. Small letters are drawn as
// capitals; a letter that has no drawing, as any beyond ASCII save "×", "±" and "°", leaves a
// space. Requires stroke > 0 and height >= 6 stroke.
std::vector<std::vector<OutlineCorner>> strokes_of(std::string_view text,
                                                   const Lettering& lettering);

// `body` with `outlines` cut into it from z = low to z = high. Each lies in the plane z = 0.
Solid engraved(const Solid& body, const std::vector<std::vector<OutlineCorner>>& outlines,
               Length low, Length high);

}  // namespace backfit

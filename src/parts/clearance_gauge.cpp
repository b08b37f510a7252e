// SPDX-License-Identifier: MIT
#include "parts/clearance_gauge.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>
#include <string>
#include <utility>

#include "parts/printing.hpp"
#include "solid/lettering.hpp"

namespace backfit {
namespace {

constexpr Length overshoot = 1 * mm;

// One hole after the other along x: as wide as the widest, with walls between.
Length pitch(const ClearanceGauge& g) { return g.peg + 2 * g.gaps.back() + g.wall; }
Length word_room(const ClearanceGauge& g) { return g.letters + g.wall; }

struct Plan {
  Length width, depth, square_y, round_y, word_y;
};
// Rows from the front: round holes, words, square holes.
Plan plan_of(const ClearanceGauge& g) {
  const Length hole = g.peg + 2 * g.gaps.back();
  Plan p;
  p.width = static_cast<double>(g.gaps.size()) * pitch(g) + g.wall;
  p.round_y = g.wall + hole / 2;
  p.word_y = g.wall + hole + g.wall / 2;
  p.square_y = g.wall + hole + word_room(g) + hole / 2;
  p.depth = p.square_y + hole / 2 + g.wall;
  return p;
}

Length hole_x(const ClearanceGauge& g, std::size_t k) {
  return g.wall + (g.peg + 2 * g.gaps.back()) / 2 + static_cast<double>(k) * pitch(g);
}

}  // namespace

ClearanceGauge usual_gauge() {
  return {{0.1 * mm, 0.15 * mm, 0.2 * mm, 0.25 * mm, 0.3 * mm, 0.35 * mm, 0.4 * mm, 0.5 * mm}};
}

namespace {

struct Block {
  Solid plain;
  std::vector<std::vector<OutlineCorner>> words;
};
Block block_of(const ClearanceGauge& g) {
  assert(!g.gaps.empty() && g.gaps.front() > Length{} && std::ranges::is_sorted(g.gaps));
  assert(g.peg >= 4 * mm);
  const Plan p = plan_of(g);
  std::vector<Solid> cutters;
  std::vector<std::vector<OutlineCorner>> words;
  for (std::size_t k = 0; k < g.gaps.size(); ++k) {
    const Length size = g.peg + 2 * g.gaps[k], x = hole_x(g, k);
    cutters.push_back(box({x - size / 2, p.square_y - size / 2, -overshoot},
                          {x + size / 2, p.square_y + size / 2, g.height + overshoot}));
    cutters.push_back(
        translated(cylinder(size, -overshoot, g.height + overshoot), {x, p.round_y, {}}));
    const std::string word = std::to_string(std::lround(g.gaps[k] / (0.01 * mm)));
    const Lettering lettering = lettering_for(g.letters);
    const Length left = x - lettering.width(word.size()) / 2;
    for (std::vector<OutlineCorner>& stroke : strokes_of(word, lettering)) {
      for (OutlineCorner& c : stroke) c = {left + c.x, p.word_y + c.y};
      words.push_back(std::move(stroke));
    }
  }
  return {difference_of(box(Point3{}, {p.width, p.depth, g.height}), cutters), std::move(words)};
}

Solid with_words(const ClearanceGauge& g, const Block& block) {
  return engraved(block.plain, block.words, g.height - g.engraving, g.height + overshoot);
}

}  // namespace

Solid gauge_block(const ClearanceGauge& g) { return with_words(g, block_of(g)); }

PieceSet gauge_set(const ClearanceGauge& g) {
  const Block block = block_of(g);
  const Solid peg = gauge_peg(g);
  const Plan p = plan_of(g);
  Piece block_piece{"block",
                    {block.plain},
                    laid(block.plain, BedSide::low_z),
                    laid(with_words(g, block), BedSide::low_z),
                    "as it is read"};
  Piece peg_piece{"peg",
                  {translated(peg, {p.width / 2, -g.peg - 2 * g.wall, {}})},
                  laid(peg, BedSide::low_z),
                  laid(peg, BedSide::low_z),
                  "square end down"};
  const Bounds b = bounds_of(peg_piece.drawn);
  peg_piece.sizes.push_back(
      {"square end",
       g.peg,
       {},
       PieceSize::Shown{PieceView::front, {-g.peg / 2, {}, {}}, {g.peg / 2, {}, {}}}});
  peg_piece.sizes.push_back(
      {"round end, ⌀",
       g.peg,
       {},
       PieceSize::Shown{PieceView::front, {-g.peg / 2, {}, b.high.z}, {g.peg / 2, {}, b.high.z}},
       true});
  return {
      "clearance gauge",
      "Print it before all else, with the printer, the spool and the settings of the parts. The "
      "smallest hole in which the peg slides without force tells the clearance, engraved in "
      "hundredths of a millimetre a side.",
      {std::move(block_piece), std::move(peg_piece)}};
}

Solid gauge_peg(const ClearanceGauge& g) {
  const Length half = g.peg / 2, grip = g.peg / 2 + 2 * mm, end = g.height + 4 * mm;
  // Under 45 degrees from the square to the grip, so that it prints standing.
  return union_of({box({-half, -half, {}}, {half, half, end + 1 * mm}),
                   frustum(half, end - half / 2, 2 * grip, end + (grip - half)),
                   cylinder(2 * grip, end + (grip - half), end + 8 * mm),
                   cylinder(g.peg, end + 7 * mm, 2 * end + 8 * mm)});
}

Volume block_volume(const ClearanceGauge& g) {
  const Plan p = plan_of(g);
  Area area = p.width * p.depth;
  for (const Length gap : g.gaps) {
    const Length size = g.peg + 2 * gap;
    area -= size * size + std::numbers::pi / 4 * (size * size);
  }
  return area * g.height;
}

}  // namespace backfit

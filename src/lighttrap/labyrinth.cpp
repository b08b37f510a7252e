// SPDX-License-Identifier: MIT
#include "lighttrap/labyrinth.hpp"

#include <algorithm>
#include <cassert>
#include <limits>

#include "lighttrap/cells.hpp"
#include "lighttrap/graded.hpp"

namespace backfit {
namespace {

using namespace gap;

// The shortest way inside the gap from `a` in cell `from` to `b` in cell `to` >= from, by a funnel
// between the openings' ends that narrows until it must bend round one.
double taut_string(const Cells& cells, Point a, std::size_t from, Point b, std::size_t to) {
  double length = 0;
  Point apex = a, left = a, right = a;
  std::size_t left_at = from, right_at = from;
  for (std::size_t i = from + 1; i <= to + 1; ++i) {
    const Point new_left = i <= to ? cells.portals[i].left : b;
    const Point new_right = i <= to ? cells.portals[i].right : b;
    std::size_t bend = 0;
    if (turning(apex, right, new_right) >= 0) {
      if (apex == right || turning(apex, left, new_right) < 0) {
        right = new_right;
        right_at = i;
      } else {
        length += distance(apex, left);
        apex = left;
        bend = left_at;
      }
    }
    if (bend == 0 && turning(apex, left, new_left) <= 0) {
      if (apex == left || turning(apex, right, new_left) > 0) {
        left = new_left;
        left_at = i;
      } else {
        length += distance(apex, right);
        apex = right;
        bend = right_at;
      }
    }
    if (bend != 0) {
      left = right = apex;
      left_at = right_at = i = bend;
    }
  }
  return length + distance(apex, b);
}

// The section's outline, counter-clockwise: side k runs from node k to the next, the last one to
// the first. The inner mouth is side `exit`, the outer one the last.
struct Outline {
  std::vector<Point> nodes;
  std::vector<std::size_t> cell;  // of each side, and of the node it starts from
  std::size_t exit = 0;
};

Outline outline_of(const Cells& cells, std::size_t fineness, Cut cut) {
  double way = 0;
  for (const WallPiece& piece : cells.right_walls) {
    way += distance(piece.from, piece.to) / piece.width;
  }
  const double longest = longest_piece(way, cut);
  Outline outline;
  const auto run = [&](const WallPiece& piece, bool backwards) {
    const double length = distance(piece.from, piece.to);
    if (length == 0) return;
    const std::vector<double> places = graded_places(length / piece.width, longest, fineness);
    for (std::size_t i = 0; i + 1 < places.size(); ++i) {
      const double part = places[i] * piece.width / length;
      const Point start = backwards ? piece.to : piece.from;
      const Point end = backwards ? piece.from : piece.to;
      outline.nodes.push_back(i == 0 ? start : start + part * (end - start));
      outline.cell.push_back(piece.cell);
    }
  };
  for (const WallPiece& piece : cells.right_walls) run(piece, false);
  outline.exit = outline.nodes.size();
  outline.nodes.push_back(cells.portals.back().right);
  outline.cell.push_back(cells.count() - 1);
  for (std::size_t i = cells.left_walls.size(); i-- > 0;) run(cells.left_walls[i], true);
  outline.nodes.push_back(cells.portals.front().left);
  outline.cell.push_back(0);
  return outline;
}

// For each two cells, whether a straight ray can cross all the openings between them: none if it
// had to go two opposite ways.
std::vector<std::vector<bool>> straight_ways(const Cells& cells) {
  const std::size_t n = cells.count();
  std::vector<std::vector<bool>> open(n, std::vector<bool>(n, true));
  for (std::size_t from = 0; from < n; ++from) {
    bool clear = true;
    for (std::size_t to = from + 1; to < n; ++to) {
      for (std::size_t i = from + 1; i < to; ++i) {
        const Point a = cells.portals[i].heading, b = cells.portals[to].heading;
        clear = clear && a.x * b.x + a.y * b.y > -0.5;
      }
      open[from][to] = open[to][from] = clear;
    }
  }
  return open;
}

}  // namespace

Exchange exchange_of(const GapProfile& profile, std::size_t fineness, Cut cut) {
  assert(!fault_of(profile) && fineness >= 1);
  const Cells cells = cells_of(profile);
  const Outline outline = outline_of(cells, fineness, cut);
  const std::size_t n = outline.nodes.size();
  assert(n > 0);
  std::vector<double> strings(n * n, 0);
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = i + 1; j < n; ++j) {
      const bool forward = outline.cell[i] <= outline.cell[j];
      const std::size_t a = forward ? i : j, b = forward ? j : i;
      strings[i * n + j] = strings[j * n + i] =
          taut_string(cells, outline.nodes[a], outline.cell[a], outline.nodes[b], outline.cell[b]);
    }
  }
  const auto straight = straight_ways(cells);
  const auto string = [&](std::size_t i, std::size_t j) { return strings[i % n * n + j % n]; };
  const auto seen = [&](std::size_t i, std::size_t j) {
    if (i == j || !straight[outline.cell[i]][outline.cell[j]]) return 0.0;
    const double crossed = string(i, j) + string(i + 1, j + 1);
    const double exchanged = (crossed - string(i + 1, j) - string(i, j + 1)) / 2;
    // Below the strings' rounding the two don't see each other.
    const double rounding = 8 * std::numeric_limits<double>::epsilon() * crossed;
    return exchanged > rounding ? exchanged : 0.0;
  };

  const std::size_t entry = n - 1;
  Exchange x(n - 2);
  // Pieces are numbered from the mouth in, the right walls first; the outline comes back on the
  // left.
  const auto side = [&](std::size_t piece) {
    return piece < outline.exit ? piece : n - 2 - (piece - outline.exit);
  };
  for (std::size_t i = 0; i < x.pieces(); ++i) {
    x.area[i] = string(side(i), side(i) + 1);
    x.entry[i] = seen(side(i), entry);
    x.exit[i] = seen(side(i), outline.exit);
    for (std::size_t j = 0; j < i; ++j) x.mutual(i, j) = x.mutual(j, i) = seen(side(i), side(j));
  }
  x.mouth = string(entry, 0);
  x.direct = seen(entry, outline.exit);
  return x;
}

}  // namespace backfit

// SPDX-License-Identifier: MIT
#include "lighttrap/gloss.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <functional>
#include <numbers>

#include "lighttrap/bore.hpp"
#include "lighttrap/labyrinth.hpp"
#include "lighttrap/pieces.hpp"

namespace backfit {
namespace {

using namespace gap;

// What is left of a ray below this part is dropped.
constexpr double negligible = 1e-18;

// Elevations of a ray over the section's plane, for the even light of a matt surface along a seam.
// What runs nearly along it is mirrored all the way; little of even light, it may be most of what
// comes through. With sinh t as the way along for one in the section, even light has
// 2 / pi / cosh^3 t dt over all t, both ways alike: even steps, which each ray starts elsewhere.
struct Elevations {
  static constexpr std::size_t most = 14;
  static constexpr double step = 1;
  std::size_t count = 0;
  std::array<double, most> cosine{}, weight{}, along{};  // the highest first

  // Twice as far along as a seam of `length` lets through that goes straight by the `section`.
  Elevations(double section, double length) {
    const double last = std::ceil(std::asinh(2 * length / section) / step);
    const double steps = std::min(last, most / 2.0);
    count = 2 * static_cast<std::size_t>(steps);
    // Part of even light beyond the last, which counts as the rest does.
    const double angle = std::asin(1 / std::cosh(steps * step));
    const double beyond = 2 / std::numbers::pi * (angle - std::sin(angle) * std::cos(angle));
    scale_ = 2 / std::numbers::pi * step / (1 - beyond);
  }
  void start(double part) {
    const double near = std::min(part, 1 - part);
    double up = std::exp(near * step), down = std::exp((1 - near) * step);
    for (std::size_t k = 0; k < count; k += 2, up *= each_, down *= each_) {
      set(k, up);
      set(k + 1, down);
    }
  }

 private:
  void set(std::size_t k, double grown) {
    cosine[k] = 2 / (grown + 1 / grown);
    along[k] = (grown - 1 / grown) / 2;
    weight[k] = scale_ * cosine[k] * cosine[k] * cosine[k];
  }
  double scale_ = 1;
  const double each_ = std::exp(step);
};

// The n-th of points that fill the unit cube evenly in as many directions as asked: a Kronecker
// sequence on powers of the root of x^(d+1) = x + 1.
template <std::size_t Directions>
std::array<double, Directions> even_point(std::size_t n, double shift) {
  constexpr double root = Directions == 2 ? 1.32471795724474602596 : 1.22074408460575947536;
  std::array<double, Directions> point{};
  double step = 1;
  for (double& x : point) {
    step /= root;
    x = shift + static_cast<double>(n) * step;
    x -= std::floor(x);
    shift = 1 - shift;
  }
  return point;
}

// The n-th of points that fill the unit length evenly, apart from those.
double even_start(std::size_t n, double shift) {
  const double x = shift + static_cast<double>(n) * (std::numbers::sqrt2 - 1);
  return x - std::floor(x);
}

// Both ways were traced apart: takes their mean, and as each piece's area what it then gives in all
// to pieces and mouths and past the ends, so that no light is lost between them.
void make_reciprocal(Exchange& x, const std::vector<double>& past_ends) {
  for (std::size_t i = 0; i < x.pieces(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      x.mutual(i, j) = x.mutual(j, i) = (x.mutual(i, j) + x.mutual(j, i)) / 2;
    }
  }
  for (std::size_t i = 0; i < x.pieces(); ++i) {
    x.area[i] = x.entry[i] + x.exit[i] + past_ends[i];
    for (std::size_t j = 0; j < x.pieces(); ++j) x.area[i] += x.mutual(i, j);
  }
}

}  // namespace

double mirrored(double cosine, double index) {
  assert(index >= 1 && cosine >= 0 && cosine <= 1);
  const double inside = std::sqrt(index * index - 1 + cosine * cosine);  // index times its cosine
  const double s = (cosine - inside) / (cosine + inside);
  const double p = (index * index * cosine - inside) / (index * index * cosine + inside);
  return index == 1 ? 0 : (s * s + p * p) / 2;
}

namespace {

// Of the elevations that there are.
using Parts = std::array<double, Elevations::most>;

// Along the middle, in units of the outer mouth.
double way_in_gaps(const GapProfile& profile) {
  double way = 0;
  for (const Length arm : profile.arms) way += arm / profile.gap;
  return way;
}

// What faces of some indices mirror of a ray that meets them at `cosine` in the section.
class Mirrors {
 public:
  Mirrors(const std::vector<double>& index_of_wall, const Elevations& elevations)
      : elevations_(elevations) {
    for (const double index : index_of_wall) {
      const auto known = std::ranges::find(indices_, index);
      kind_.push_back(static_cast<std::size_t>(known - indices_.begin()));
      if (known == indices_.end()) indices_.push_back(index);
    }
  }
  void turn(Point direction) {
    x_.clear();
    y_.clear();
    for (const double index : indices_) {
      x_.push_back(at(std::abs(direction.x), index));
      y_.push_back(at(std::abs(direction.y), index));
    }
  }
  const Parts& of(std::size_t wall, bool facing_x) const {
    return (facing_x ? x_ : y_)[kind_[wall]];
  }

 private:
  Parts at(double cosine, double index) const {
    Parts mirror{};
    if (index == 1) return mirror;
    for (std::size_t k = 0; k < elevations_.count; ++k) {
      mirror[k] = mirrored(std::min(1.0, cosine * elevations_.cosine[k]), index);
    }
    return mirror;
  }

  const Elevations& elevations_;
  std::vector<double> indices_;
  std::vector<std::size_t> kind_;
  std::vector<Parts> x_, y_;
};

// A ray's sine from the normal, and its weight among rays that are to be as even light is.
struct Slant {
  double sine = 0, weight = 1;
};

// The n-th of them, by `side` from 0 to 1.
Slant slant(double side, bool some_graze, std::size_t n) {
  if (!some_graze) return {2 * side - 1, 1};
  constexpr double least = 1e-4;
  const double span = -std::log(least);
  double sine = 2 * side - 1, cosine = std::sqrt(1 - sine * sine);
  if (n % 2 == 1) {
    cosine = std::exp(-span * std::abs(sine));
    sine = std::copysign(std::sqrt(1 - cosine * cosine), sine);
  }
  // Densities of the sine: evenly a half; with ln(cosine) even on either side, see above.
  const double grazing = cosine > least ? std::abs(sine) / (2 * span * cosine * cosine) : 0;
  return {sine, 1 / (0.5 + grazing)};
}

// What matt pieces and mouths exchange in a straight line, exactly.
void add_straight(Exchange& x, const Exchange& straight, const std::vector<double>& index_of_wall,
                  const Pieces& pieces) {
  const auto is_matt = [&](std::size_t piece) { return index_of_wall[pieces.wall[piece]] == 1; };
  x.direct += straight.direct;
  for (std::size_t i = 0; i < x.pieces(); ++i) {
    if (!is_matt(i)) continue;
    x.entry[i] += straight.entry[i];
    x.exit[i] += straight.exit[i];
    for (std::size_t j = 0; j < x.pieces(); ++j) {
      if (is_matt(j)) x.mutual(i, j) += straight.mutual(i, j);
    }
  }
}

// With `straight`, the exchange of matt walls, rays that go straight from matt walls or mouths to
// such are left to it, and some of all rays graze. `length` of the seam: what mirrors send along it
// past its ends is lost.
Exchange traced(const GapProfile& profile, const std::vector<double>& index_of_wall,
                const Section& section, const Pieces& pieces, std::size_t rays, double shift,
                const Exchange* straight, Length length, const std::function<bool()>& may_go_on) {
  assert(!fault_of(profile) && rays >= 1 && length > Length{});
  Exchange x(pieces.count);
  x.mouth = section.mouth();
  const double gaps = length / profile.gap;
  Elevations elevations(way_in_gaps(profile), gaps);
  const std::size_t count = elevations.count;
  Mirrors mirrors(index_of_wall, elevations);
  std::vector<double> past_ends(pieces.count, 0);
  const bool some_graze = straight != nullptr;
  const auto left_to_strings = [&](const Hit& hit) {
    return straight != nullptr && (hit.meets != Meets::wall || index_of_wall[hit.wall] == 1);
  };
  const auto sees_gloss = [&](std::size_t piece) {
    for (std::size_t j = 0; j < x.pieces(); ++j) {
      if (index_of_wall[pieces.wall[j]] > 1 && straight->mutual(piece, j) > 0) return true;
    }
    return false;
  };

  // Follows a ray of flux `parts` over the elevations to where it enters walls or leaves.
  const auto follow = [&](std::size_t cell, Point from, Point direction, Parts parts, double flux,
                          bool from_matt, const auto& enter, double& outer, double& inner,
                          double& lost) {
    double path = 0;  // in lengths of the seam
    Parts stays;      // what hasn't passed the ends
    stays.fill(1);
    std::size_t high = 0, low = count;  // elevations that something is left of
    for (bool first = true;; first = false) {
      const Hit hit = section.met_by(cell, from, direction);
      if (first && from_matt && left_to_strings(hit)) return;
      const Point way = hit.at - from;
      path += std::sqrt(way.x * way.x + way.y * way.y) / gaps;
      double arrived = 0, past = 0, sent_on = 0;
      for (std::size_t k = high; k < low; ++k) {
        const double still = std::max(0.0, 1 - path * elevations.along[k]);
        past += parts[k] * (stays[k] - still);
        arrived += parts[k] * still;
        stays[k] = still;
      }
      lost += flux * past;
      if (hit.meets != Meets::wall) {
        (hit.meets == Meets::outer_mouth ? outer : inner) += flux * arrived;
        return;
      }
      const bool facing_x = hit.inward.x != 0;
      const Parts& mirror = mirrors.of(hit.wall, facing_x);
      for (std::size_t k = high; k < low; ++k) {
        parts[k] *= mirror[k];
        sent_on += parts[k] * stays[k];
      }
      enter(pieces.at(hit.wall, hit.along), flux * (arrived - sent_on));
      while (high < low && parts[high] < negligible) ++high;
      while (high < low && (parts[low - 1] < negligible || stays[low - 1] == 0)) --low;
      if (high == low) return;
      (facing_x ? direction.x : direction.y) *= -1;
      cell = hit.cell;
      from = hit.at;
    }
  };

  for (std::size_t w = 0; w < section.walls().size(); ++w) {
    const WallPiece& wall = section.walls()[w];
    const Point in = section.inward(w);
    const Point along = 1 / section.length(w) * (wall.to - wall.from);
    for (std::size_t i = 0; i + 1 < pieces.places[w].size(); ++i) {
      const double start = pieces.places[w][i], width = pieces.places[w][i + 1] - start;
      const std::size_t piece = pieces.first[w] + i;
      if (!may_go_on()) return x;
      if (straight != nullptr && index_of_wall[w] == 1 && !sees_gloss(piece)) continue;
      for (std::size_t n = 0; n < rays; ++n) {
        const auto [place, side] = even_point<2>(n, shift + static_cast<double>(piece) * 0.5545497);
        const auto [sine, weight] = slant(side, some_graze, n);
        const Point direction = sine * along + std::sqrt(1 - sine * sine) * in;
        elevations.start(even_start(n, shift));
        mirrors.turn(direction);
        const Parts& own = mirrors.of(w, in.x != 0);
        Parts parts{};
        for (std::size_t k = 0; k < count; ++k) {
          parts[k] = elevations.weight[k] * (1 - own[k]);
        }
        follow(
            wall.cell, wall.from + (start + place * width) * along, direction, parts,
            weight * width / static_cast<double>(rays), index_of_wall[w] == 1,
            [&](std::size_t other, double flux) { x.mutual(piece, other) += flux; }, x.entry[piece],
            x.exit[piece], past_ends[piece]);
      }
    }
  }
  // The mouths' own exchange; what returns to the outer one is no piece's.
  const std::size_t from_mouth = 16 * rays;
  double returned = 0;
  for (std::size_t n = 0; n < from_mouth; ++n) {
    if (n % 256 == 0 && !may_go_on()) return x;
    const auto [place, side] = even_point<2>(n, shift);
    const double sine = 2 * side - 1, cosine = std::sqrt(1 - sine * sine);
    const Point direction = cosine * section.way_in() + sine * left_of(section.way_in());
    elevations.start(even_start(n, shift));
    mirrors.turn(direction);
    follow(
        0, section.on_mouth(place), direction, elevations.weight,
        x.mouth / static_cast<double>(from_mouth), true, [](std::size_t, double) {}, returned,
        x.direct, returned);
  }
  if (straight != nullptr) add_straight(x, *straight, index_of_wall, pieces);
  make_reciprocal(x, past_ends);
  return x;
}

}  // namespace

Exchange glossy_exchange(const GapProfile& profile, double index, std::size_t fineness,
                         std::size_t rays, double shift, Length length) {
  const Section section(cells_of(profile));
  const std::vector<double> indices(section.walls().size(), index);
  return traced(profile, indices, section, Pieces(section, fineness), rays, shift, nullptr, length,
                [] { return true; });
}

Exchange glossy_exchange(const GapProfile& profile, const SeamWalls& walls, std::size_t fineness,
                         std::size_t rays, double shift, Length length, Cut cut,
                         const std::function<bool()>& may_go_on) {
  const Section section(cells_of(profile));
  std::vector<double> indices;
  for (const WallPiece& wall : section.walls()) {
    indices.push_back(walls.of(wall.arm, wall.right).gloss_index);
  }
  const Exchange straight = exchange_of(profile, fineness, cut);
  Exchange x = traced(profile, indices, section, Pieces(section, fineness, cut), rays, shift,
                      &straight, length, may_go_on);
  return may_go_on() ? x : straight;
}

Exchange glossy_exchange(const Bore& bore, double index, std::size_t fineness, std::size_t rays,
                         double shift) {
  assert(bore.diameter > Length{} && bore.length > Length{} && rays >= 1);
  const double length = 2 * (bore.length / bore.diameter);  // in radii
  const std::vector<double> cuts = graded_places(length, longest_piece(length), fineness);
  Exchange x(cuts.size() - 1);
  x.mouth = std::numbers::pi;
  const auto ring_at = [&](double along) {
    const auto past = std::upper_bound(cuts.begin() + 1, cuts.end() - 1, along);
    return static_cast<std::size_t>(past - cuts.begin()) - 1;
  };
  // In a round hole a ray meets the wall at the same angle each time, and equally far along.
  const auto follow = [&](double along, double step, double mirror, double flux, const auto& enter,
                          double& outer, double& inner) {
    double left = flux;
    while (left > flux * negligible) {
      along += step;
      if (along <= 0 || along >= length) {
        (along <= 0 ? outer : inner) += left;
        return;
      }
      enter(ring_at(along), left * (1 - mirror));
      left *= mirror;
    }
  };
  for (std::size_t i = 0; i < x.pieces(); ++i) {
    const double width = cuts[i + 1] - cuts[i];
    for (std::size_t n = 0; n < rays; ++n) {
      const auto [place, square, round] =
          even_point<3>(n, shift + static_cast<double>(i) * 0.5545497);
      const double turn = std::numbers::pi * round;
      const double sine = std::sqrt(square), cosine = std::sqrt(1 - square);
      const double axial = sine * std::cos(turn), across = sine * std::sin(turn);
      const double step = 2 * cosine * axial / (cosine * cosine + across * across);
      const double mirror = mirrored(cosine, index);
      follow(
          cuts[i] + place * width, step, mirror,
          2 * std::numbers::pi * width / static_cast<double>(rays) * (1 - mirror),
          [&](std::size_t other, double flux) { x.mutual(i, other) += flux; }, x.entry[i],
          x.exit[i]);
    }
  }
  x.direct = x.mouth * view_between_discs(1 * mm, 1 * mm, length * mm);
  const std::size_t from_mouth = 16 * rays;
  double returned = 0;
  for (std::size_t n = 0; n < from_mouth; ++n) {
    const auto [area, square, round] = even_point<3>(n, shift);
    const double turn = 2 * std::numbers::pi * round;
    const double radius = std::sqrt(area), sine = std::sqrt(square), cosine = std::sqrt(1 - square);
    const double out = sine * std::cos(turn);
    // To the wall: radius^2 + 2 radius out t + sine^2 t^2 = 1.
    const double root = std::sqrt(std::max(0.0, out * out * area + square * (1 - area)));
    const double first = square == 0 ? length / cosine : (root - radius * out) / square;
    const double flux = std::numbers::pi / static_cast<double>(from_mouth);
    if (first * cosine >= length) continue;      // straight through: known exactly
    const double at_wall = std::min(1.0, root);  // cosine of the angle to the wall's normal
    const double step = square == 0 ? length : 2 * root / square * cosine;
    const double mirror = mirrored(at_wall, index);
    follow(
        first * cosine, step, mirror, flux * mirror, [](std::size_t, double) {}, returned,
        x.direct);
  }
  make_reciprocal(x, std::vector<double>(x.pieces(), 0));
  return x;
}

}  // namespace backfit

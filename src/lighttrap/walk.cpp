// SPDX-License-Identifier: MIT
#include "lighttrap/walk.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <optional>
#include <vector>

#include "lighttrap/gloss.hpp"
#include "lighttrap/labyrinth.hpp"
#include "lighttrap/pieces.hpp"
#include "quantity/random.hpp"

namespace backfit {
namespace {

using namespace gap;

// A direction, told apart in the section and over it.
struct Heading {
  Point in_plane;        // of length 1
  double elevation = 1;  // cosine of the angle to the plane
};

// Evenly to all sides of `normal`.
Heading spread(Point normal, Random& random) {
  double along = 0, up = 0, square = 0;
  do {
    along = 2 * random.unit() - 1;
    up = 2 * random.unit() - 1;
    square = along * along + up * up;
  } while (square >= 1);
  const double out = std::sqrt(1 - square), elevation = std::sqrt(1 - up * up);
  return {1 / elevation * (out * normal + along * left_of(normal)), elevation};
}

double dot(Point a, Point b) { return a.x * b.x + a.y * b.y; }

}  // namespace

class GapWalks::Walker {
 public:
  Walker(const GapProfile& profile, const Wall& wall, double distortion)
      : section_(cells_of(profile)), pieces_(section_, fineness), wall_(wall) {
    const Exchange x = wall.gloss_index > 1 ? glossy_exchange(profile, wall.gloss_index, fineness,
                                                              1024, 0.5, map_length * profile.gap)
                                            : exchange_of(profile, fineness);
    worth_ = brightness_from_inside(x, wall.reflectance);
    worth_of_all_ = passage(x, wall.reflectance).through;
    Random random(7);
    for (double& worth : worth_) worth *= std::pow(distortion, 2 * random.unit() - 1);
    for (std::size_t i = 0; i <= x.pieces(); ++i) {
      const bool piece = i < x.pieces();
      std::vector<double> sums;
      double sum = 0;
      for (std::size_t j = 0; j < x.pieces(); ++j) {
        sums.push_back(sum += (piece ? x.mutual(i, j) : x.entry[j]) * worth_[j]);
      }
      sums.push_back(sum + (piece ? x.exit[i] : x.direct));
      promising_.push_back(std::move(sums));
    }
  }

  double score(Random& random) const {
    const Point start = section_.on_mouth(random.unit());
    std::vector<Place> open{{0, start, section_.way_in(), worth_.size(), 1}};
    double score = 0;
    while (!open.empty()) {
      const Place from = open.back();
      open.pop_back();
      std::optional<Arrival> arrival = step(from, random);
      if (!arrival) continue;
      if (arrival->hit.meets == Meets::inner_mouth) score += arrival->weight;
      if (arrival->hit.meets != Meets::wall) continue;
      const Hit& hit = arrival->hit;
      const std::size_t piece = pieces_.at(hit.wall, hit.along);
      // How many times what a history is worth this light is, on the average.
      const double times = arrival->weight * worth_[piece] / worth_of_all_;
      int copies = 1;
      double weight = arrival->weight;
      if (times > 2) {
        copies = static_cast<int>(std::min(times, most_copies) + random.unit());
        weight /= std::min(times, most_copies);
      } else if (times < 0.5) {
        if (random.unit() >= times) continue;
        weight /= times;
      }
      for (; copies > 0; --copies) {
        open.push_back({hit.cell, hit.at, hit.inward, piece, weight * wall_.reflectance});
      }
    }
    return score;
  }

 private:
  static constexpr double most_copies = 1e4;
  static constexpr std::size_t fineness = 2;
  // In gaps, of the seam that the map is of: it only leads.
  static constexpr double map_length = 64;
  // Part of the steps that go out evenly, whatever promises more.
  static constexpr double even_part = 0.3;

  // Light about to leave a place, which is on a piece, or on the outer mouth as the last.
  struct Place {
    std::size_t cell;
    Point at, normal;
    std::size_t piece;
    double weight;
  };
  struct Arrival {
    Hit hit;
    double weight;
  };

  // To where the light of `from` goes next; empty if it is lost on the way.
  std::optional<Arrival> step(const Place& from, Random& random) const {
    if (wall_.gloss_index > 1) return mirrored_step(from, random);
    Hit hit;
    if (random.unit() < even_part) {
      hit = section_.met_by(from.cell, from.at, spread(from.normal, random).in_plane);
    } else {
      const std::optional<Hit> aimed = aimed_from(from, random);
      if (!aimed) return std::nullopt;
      hit = *aimed;
    }
    if (hit.meets == Meets::outer_mouth) return Arrival{hit, 0};
    // Both ways of choosing lead to the place that was met: weigh by how often even light does.
    const Point way = hit.at - from.at;
    const double far = std::hypot(way.x, way.y);
    const Point inward = hit.meets == Meets::wall ? hit.inward : -1 * section_.way_out();
    const double even =
        std::abs(dot(way, from.normal)) * std::abs(dot(way, inward)) / (2 * far * far * far);
    const std::vector<double>& sums = promising_[from.piece];
    const std::size_t target =
        hit.meets == Meets::wall ? pieces_.at(hit.wall, hit.along) : worth_.size();
    const double chance =
        (sums[target] - (target == 0 ? 0 : sums[target - 1])) / sums.back() / width_of(target);
    return Arrival{hit, from.weight * even / (even_part * even + (1 - even_part) * chance)};
  }

  double width_of(std::size_t target) const {
    return target == worth_.size() ? section_.inner_mouth() : pieces_.width[target];
  }

  // A place of promise, evenly within its piece; empty if it can't be seen from here.
  std::optional<Hit> aimed_from(const Place& from, Random& random) const {
    const std::vector<double>& sums = promising_[from.piece];
    const auto found = std::upper_bound(sums.begin(), sums.end() - 1, random.unit() * sums.back());
    const auto target = static_cast<std::size_t>(found - sums.begin());
    const double part = random.unit();
    const bool out = target == worth_.size();
    const std::size_t wall = out ? 0 : pieces_.wall[target];
    const double along = out ? 0 : pieces_.start[target] + part * pieces_.width[target];
    const Point aim = out ? section_.on_inner_mouth(part) : section_.on_wall(wall, along);
    const Point way = aim - from.at;
    const double far = std::hypot(way.x, way.y);
    if (!(dot(way, from.normal) > 1e-12 * far)) return std::nullopt;
    const Hit hit = section_.met_by(from.cell, from.at, 1 / far * way);
    const bool arrives =
        out ? hit.meets == Meets::inner_mouth
            : hit.meets == Meets::wall && hit.wall == wall && std::abs(hit.along - along) < 1e-9;
    if (!arrives) return std::nullopt;
    return hit;
  }

  // From inside a wall what the face mirrors back is scattered anew; on the way faces mirror it.
  std::optional<Arrival> mirrored_step(const Place& from, Random& random) const {
    Heading heading = spread(from.normal, random);
    while (from.piece != worth_.size() && is_mirrored(heading, from.normal, random)) {
      heading = spread(from.normal, random);
    }
    Hit hit = section_.met_by(from.cell, from.at, heading.in_plane);
    while (hit.meets == Meets::wall && is_mirrored(heading, hit.inward, random)) {
      (hit.inward.x != 0 ? heading.in_plane.x : heading.in_plane.y) *= -1;
      hit = section_.met_by(hit.cell, hit.at, heading.in_plane);
    }
    return Arrival{hit, from.weight};
  }

  bool is_mirrored(const Heading& heading, Point inward, Random& random) const {
    const double cosine = std::abs(dot(heading.in_plane, inward)) * heading.elevation;
    return random.unit() < mirrored(std::min(1.0, cosine), wall_.gloss_index);
  }

  Section section_;
  Pieces pieces_;
  Wall wall_;
  std::vector<double> worth_;  // of light that has entered each piece: what of it will come out
  double worth_of_all_ = 0;
  // For each piece and, last, the outer mouth: running sums over the pieces, and last the inner
  // mouth, of the light sent there times its worth.
  std::vector<std::vector<double>> promising_;
};

GapWalks::GapWalks(const GapProfile& profile, const Wall& wall, double distortion) {
  assert(!fault_of(profile) && distortion >= 1);
  assert(wall.reflectance > 0 && wall.reflectance <= 1 && wall.gloss_index >= 1);
  walker_ = std::make_unique<const Walker>(profile, wall, distortion);
}
GapWalks::~GapWalks() = default;
GapWalks::GapWalks(GapWalks&&) noexcept = default;

TallyResult GapWalks::through(std::size_t histories, std::uint64_t seed) const {
  assert(histories >= 2);
  Tally tally;
  for (std::size_t i = 0; i < histories; ++i) {
    Random random(seed * 0x9e3779b97f4a7c15 + i);
    tally.add(walker_->score(random));
  }
  return tally.result();
}

}  // namespace backfit

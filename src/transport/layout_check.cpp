// SPDX-License-Identifier: MIT
// The gaps of a layout by small steps, apart from the search and its formulae.
#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "transport/layout.hpp"
#include "transport/layout_model.hpp"

namespace backfit {
namespace {

constexpr int states = 20;
constexpr Length step = 0.25 * mm;

// A point of the film's middle line: how far along, and on which piece of the path.
struct SteppedPoint {
  SectionPoint at;
  Length along;
  std::size_t piece;  // strand i is piece 2 i, the wrap behind it 2 i + 1
};

std::vector<SteppedPoint> stepped(const StripPath& path) {
  std::vector<SteppedPoint> points;
  Length along;
  const auto piece = [&](std::size_t which, Length length, const auto& at) {
    const int count = std::max(1, static_cast<int>(std::ceil(length / step)));
    for (int k = 0; k <= count; ++k) {
      const double t = static_cast<double>(k) / count;
      points.push_back({at(t), along + t * length, which});
    }
    along += length;
  };
  for (std::size_t i = 0; i < path.strands.size(); ++i) {
    const Strand& s = path.strands[i];
    piece(2 * i, s.length(), [&](double t) { return s.from + t * (s.to - s.from); });
    if (i == path.wraps.size()) break;
    const Wrap& w = path.wraps[i];
    if (w.turn > Angle{}) piece(2 * i + 1, w.length(), [&](double t) { return w.at(t); });
  }
  return points;
}

class Gaps {
 public:
  void note(const std::string& a, const std::string& b, Length gap) {
    const auto [it, fresh] = least_.try_emplace({a, b}, gap);
    if (!fresh) it->second = std::min(it->second, gap);
  }
  std::vector<Clearance> sorted() const {
    std::vector<Clearance> all;
    for (const auto& [names, gap] : least_) all.push_back({names.first, names.second, gap});
    std::ranges::stable_sort(all, {}, &Clearance::gap);
    return all;
  }

 private:
  std::map<std::pair<std::string, std::string>, Length> least_;
};

Length wall_gap(const Room& room, SectionPoint p) {
  return std::min({p.x - room.low.x, room.high.x - p.x, p.z - room.low.z, room.high.z - p.z});
}

std::string guide_name(const Layout& layout, std::size_t i) {
  const Guide& g = layout.guides[i];
  const std::string kind = g.motion == Motion::turning ? "roller" : "rail end";
  return kind + " " + std::to_string(i + 1);
}

void note_bodies(const LayoutProblem& p, const Layout& l, Gaps& gaps) {
  const Region light = light_of(p.gate);
  const Region plate = plate_of(p);
  const auto spool = [&](const std::string& name, SectionPoint at) {
    gaps.note(name, "wall", wall_gap(p.room, at) - p.spool.flange);
    gaps.note(name, "light", gap(light, at) - p.spool.flange);
    gaps.note(name, "pressure plate", gap(plate, at) - p.spool.flange);
    for (const Region& r : rails_of(p.gate)) gaps.note(name, "rails", gap(r, at) - p.spool.flange);
    for (const KeepOut& k : p.room.keep_outs) {
      gaps.note(name, k.region.name, gap(k.region, at) - p.spool.flange);
    }
    for (const Region& r : rims_of(p)) gaps.note(name, r.name, gap(r, at) - p.spool.flange);
    for (std::size_t i = 0; i < l.guides.size(); ++i) {
      const Length apart = distance(at, l.guides[i].centre);
      gaps.note(name + "'s full roll", guide_name(l, i), apart - p.spool.full - l.guides[i].radius);
      gaps.note(name + "'s flange", "pin of " + guide_name(l, i),
                apart - p.spool.flange - p.rules.pin);
    }
  };
  spool("supply spool", l.supply);
  spool("take-up spool", l.take_up);
  gaps.note("supply spool", "take-up spool", distance(l.supply, l.take_up) - 2 * p.spool.flange);
  for (std::size_t i = 0; i < l.guides.size(); ++i) {
    const Guide& g = l.guides[i];
    const std::string name = guide_name(l, i);
    // A fixed rail end is an edge of the body itself.
    const bool body = g.rail_end && g.motion == Motion::fixed;
    if (!body) {
      gaps.note(name, "wall", wall_gap(p.room, g.centre) - g.radius);
      for (const Region& r : rims_of(p)) gaps.note(name, r.name, gap(r, g.centre) - g.radius);
    }
    gaps.note(name, "light", gap(light, g.centre) - g.radius);
    if (!g.rail_end) gaps.note(name, "pressure plate", gap(plate, g.centre) - g.radius);
    for (const KeepOut& k : p.room.keep_outs) {
      if (!body) gaps.note(name, k.region.name, gap(k.region, g.centre) - g.radius);
    }
    for (std::size_t j = i + 1; j < l.guides.size(); ++j) {
      gaps.note(name, guide_name(l, j),
                distance(g.centre, l.guides[j].centre) - g.radius - l.guides[j].radius);
    }
  }
}

void note_film(const LayoutProblem& p, const Layout& l, double wound, Gaps& gaps) {
  const Region light = light_of(p.gate);
  const Region plate = plate_of(p);
  const std::vector<Region> rims = rims_of(p);
  const Radii radii = radii_at(p.spool, wound);
  const std::vector<SteppedPoint> points = stepped(film_of(p, l, wound));
  const Length half = p.strip.thickness / 2;
  const std::size_t last = l.guides.size();  // strand that runs on to the take-up roll
  for (const SteppedPoint& f : points) {
    gaps.note("film", "wall", wall_gap(p.room, f.at) - half);
    for (const KeepOut& k : p.room.keep_outs)
      gaps.note("film", k.region.name, gap(k.region, f.at) - half);
    for (const Region& r : rims) gaps.note("film", r.name, gap(r, f.at) - half);
    const bool near_gate = f.piece + 1 >= 2 * l.gate && f.piece <= 2 * l.gate + 1;
    if (!near_gate) {
      gaps.note("film", "light", gap(light, f.at) - half);
      gaps.note("film", "pressure plate", gap(plate, f.at) - half);
    }
    if (f.piece != 0) {
      gaps.note("film", "supply roll", distance(f.at, l.supply) - radii.supply - half);
    }
    if (f.piece != 2 * last) {
      gaps.note("film", "take-up roll", distance(f.at, l.take_up) - radii.take_up - half);
    }
    for (std::size_t i = 0; i < l.guides.size(); ++i) {
      // Guide i lies between strands i and i + 1.
      if (f.piece >= 2 * i && f.piece <= 2 * i + 2) continue;
      gaps.note("film", guide_name(l, i),
                distance(f.at, l.guides[i].centre) - l.guides[i].radius - half);
    }
  }
  for (std::size_t a = 0; a < points.size(); ++a) {
    for (std::size_t b = a + 1; b < points.size(); ++b) {
      // What hangs together round one guide is no meeting.
      if (points[b].piece < points[a].piece + 3) continue;
      if (points[b].along - points[a].along < 12 * mm) continue;
      gaps.note("film", "film", distance(points[a].at, points[b].at) - p.strip.thickness);
    }
  }
}

}  // namespace

std::vector<Clearance> clearances_of(const LayoutProblem& problem, const Layout& layout) {
  Gaps gaps;
  note_bodies(problem, layout, gaps);
  for (int k = 0; k <= states; ++k) {
    note_film(problem, layout, static_cast<double>(k) / states, gaps);
  }
  return gaps.sorted();
}

std::vector<std::string> cut_away(const LayoutProblem& problem, const Layout& layout) {
  std::vector<std::string> names;
  for (const Clearance& c : clearances_of(problem, layout)) {
    for (const KeepOut& k : problem.room.keep_outs) {
      const bool meets = k.removable && k.region.name == c.and_ && c.gap < problem.clear.film;
      if (meets && std::ranges::find(names, c.and_) == names.end()) names.push_back(c.and_);
    }
  }
  std::ranges::sort(names);
  return names;
}

}  // namespace backfit

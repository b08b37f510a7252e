// SPDX-License-Identifier: MIT
#include "documents/winding_scene.hpp"

#include <algorithm>
#include <cassert>
#include <string_view>
#include <vector>

#include "documents/json_numbers.hpp"

namespace backfit {
namespace {

using namespace json;

Json point(SectionPoint p) { return {mm_of(p.x), mm_of(p.z)}; }

Json points(const std::vector<SectionPoint>& list) {
  Json j = Json::array();
  for (const SectionPoint& p : list) j.push_back(point(p));
  return j;
}

Json round_of(SectionPoint centre, Length radius) {
  return {{"centre_mm", point(centre)}, {"radius_mm", mm_of(radius)}};
}

std::vector<SectionPoint> line_of(const StripPath& path) {
  constexpr int pieces = 24;  // of each arc
  std::vector<SectionPoint> line{path.strands.front().from};
  for (std::size_t i = 0; i < path.strands.size(); ++i) {
    line.push_back(path.strands[i].to);
    if (i == path.wraps.size()) break;
    for (int k = 1; k <= pieces; ++k) {
      line.push_back(path.wraps[i].at(static_cast<double>(k) / pieces));
    }
  }
  return line;
}

Json body_of(const PathStudy& s) {
  const LayoutProblem& p = s.design.problem;
  const Length half = p.gate.frame / 2 + p.gate.rail;
  Json j;
  j["room_mm"] = Json::array({point(p.room.low), point(p.room.high)});
  j["wall_mm"] = mm_of(s.design.wall);
  j["plate_mm"] = points({{-half, p.strip.thickness}, {half, p.gate.plate}});
  j["rails_mm"] = Json::array();
  for (const double side : {-1.0, 1.0}) {
    const Length a = side * p.gate.frame / 2;
    const Length b = a + side * p.gate.rail;
    j["rails_mm"].push_back(points({{std::min(a, b), -p.gate.wall}, {std::max(a, b), Length{}}}));
  }
  const SectionPoint edge{p.gate.frame / 2, Length{}};
  const SectionPoint pupil{p.gate.pupil_radius, -p.gate.pupil_distance};
  j["light_mm"] = points({edge, pupil});  // its upper edge; the lower is its mirror image
  j["in_the_way"] = Json::array();
  for (const KeepOut& k : p.room.keep_outs) {
    const bool goes = std::ranges::find(s.cut_away, k.region.name) != s.cut_away.end();
    j["in_the_way"].push_back(
        {{"name", k.region.name}, {"comes_out", goes}, {"corners_mm", points(k.region.corners)}});
  }
  j["guides"] = Json::array();
  for (const Guide& g : s.layout->guides) {
    Json guide = round_of(g.centre, g.radius);
    guide["turning"] = g.motion == Motion::turning;
    j["guides"].push_back(guide);
  }
  j["core_mm"] = mm_of(p.spool.core);
  j["flange_mm"] = mm_of(p.spool.flange);
  return j;
}

Json state_of(const PathStudy& s, std::string_view name, const Radii& radii, double wound,
              double turns) {
  const LayoutProblem& p = s.design.problem;
  const Layout& l = *s.layout;
  const StripPath film =
      laid_strip(supports_of(l, radii), p.strip.thickness).value_or(film_of(p, l, wound));
  const Effort effort = effort_of(p, l, wound);
  Json tensions = Json::array();
  for (const Force t : effort.tensions) tensions.push_back(rounded(t / newton, 2));
  return {{"name", name},
          {"turns", rounded(turns, 3)},
          {"supply", round_of(l.supply, radii.supply)},
          {"take_up", round_of(l.take_up, radii.take_up)},
          {"film_mm", points(line_of(film))},
          {"tensions_n", tensions},
          {"knob_torque_n_mm", rounded(effort.torque / newton_mm, 1)}};
}

}  // namespace

std::string winding_json(const PathStudy& s) {
  assert(s.layout);
  const SpoolShape& spool = s.design.problem.spool;
  const RollMake& make = s.design.make;
  Json j{{"schema", "backfit.winding/1"}};
  j["body"] = body_of(s);
  j["states"] = Json::array();
  j["states"].push_back(state_of(s, "start of the roll", radii_at(spool, 0), 0, 0));
  for (const FrameWinding& w : s.table) {
    const double share = std::clamp(w.wound / make.total(), 0.0, 1.0);
    j["states"].push_back(
        state_of(s, "frame " + std::to_string(w.frame), {w.supply, w.take_up}, share, w.turns));
  }
  const double all = take_up_turns(make, s.design.core, make.total());
  j["states"].push_back(state_of(s, "end of the roll", radii_at(spool, 1), 1, all));
  j["clearances"] = Json::array();
  for (const Clearance& c : s.clearances) {
    if (j["clearances"].size() == 8) break;
    j["clearances"].push_back({{"between", c.between}, {"and", c.and_}, {"gap_mm", mm_of(c.gap)}});
  }
  return j.dump() + "\n";
}

}  // namespace backfit

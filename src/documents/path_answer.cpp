// SPDX-License-Identifier: MIT
#include "documents/path_answer.hpp"

#include <fmt/format.h>

#include "documents/json_numbers.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

using namespace json;

Json degrees(Angle angle) { return rounded(angle / deg, 1); }

std::string_view name_of(FilmTravel goes) {
  for (const auto& [name, value] : choices_of<FilmTravel>()) {
    if (value == goes) return name;
  }
  return {};
}

std::string_view name_of(Face face) { return face == Face::paper ? "paper" : "emulsion"; }
std::string_view name_of(Motion motion) { return motion == Motion::fixed ? "fixed" : "turning"; }

// "(0.0, 45.1, 20.1)": right, up and behind the original film plane.
std::string place_text(const CameraPoint& p) {
  return fmt::format("({}, {}, {})", fixed(p.x / mm, 1), fixed(p.y / mm, 1), fixed(p.z / mm, 1));
}

Json place_json(const PathDesign& design, SectionPoint at) {
  const CameraPoint p = camera_point(design, at);
  return {{"x_mm", mm_of(p.x)}, {"y_mm", mm_of(p.y)}, {"z_mm", mm_of(p.z)}};
}

Json findings_json(const std::vector<Finding>& findings) {
  Json list = Json::array();
  for (const Finding& f : findings) {
    list.push_back({{"id", f.id},
                    {"weight", name_of(f.weight)},
                    {"text", f.text},
                    {"limit", f.limit},
                    {"remedies", f.remedies}});
  }
  return list;
}

Json missing_json(const std::vector<MissingMeasurement>& missing) {
  Json list = Json::array();
  for (const MissingMeasurement& m : missing) list.push_back({{"key", m.key}, {"how", m.how}});
  return list;
}

Json state_json(const PathStudy& s, double wound, const Effort& effort) {
  const LayoutProblem& p = s.design.problem;
  const StripPath film = film_of(p, *s.layout, wound);
  const Radii radii = radii_at(p.spool, wound);
  Json j{{"supply_radius_mm", mm_of(radii.supply)},
         {"take_up_radius_mm", mm_of(radii.take_up)},
         {"length_mm", mm_of(film.length())},
         {"knob_torque_n_mm", rounded(effort.torque / newton_mm, 1)},
         {"strands", Json::array()},
         {"wraps", Json::array()}};
  for (std::size_t i = 0; i < film.strands.size(); ++i) {
    j["strands"].push_back({{"from", place_json(s.design, film.strands[i].from)},
                            {"to", place_json(s.design, film.strands[i].to)},
                            {"length_mm", mm_of(film.strands[i].length())},
                            {"tension_n", rounded(effort.tensions[i] / newton, 2)}});
  }
  for (const Wrap& w : film.wraps) {
    j["wraps"].push_back(
        {{"face", name_of(w.face)},
         {"turn_deg", degrees(w.turn)},
         {"inner_radius_mm", mm_of(w.inner_radius(p.strip.thickness))},
         {"outer_radius_mm", mm_of(w.outer_radius(p.strip.thickness))},
         {"outer_strain", rounded(outer_fibre_strain(p.strip.thickness, w.radius), 4)}});
  }
  return j;
}

Json layout_json(const PathStudy& s) {
  const Layout& l = *s.layout;
  const LayoutProblem& p = s.design.problem;
  Json j{{"supply", place_json(s.design, l.supply)},
         {"take_up", place_json(s.design, l.take_up)},
         {"flange_radius_mm", mm_of(p.spool.flange)},
         {"guides", Json::array()},
         {"rails_from_middle_mm", mm_of(p.gate.frame / 2)},
         {"rails_length_mm", mm_of(p.gate.rail)},
         {"plate_mm", mm_of(p.gate.plate)},
         {"spare_mm", mm_of(l.spare)},
         {"cut_away", s.cut_away},
         {"clearances", Json::array()}};
  for (const Guide& g : l.guides) {
    Json guide = place_json(s.design, g.centre);
    guide["radius_mm"] = mm_of(g.radius);
    guide["face"] = name_of(g.face);
    guide["motion"] = name_of(g.motion);
    guide["rail_end"] = g.rail_end;
    j["guides"].push_back(guide);
  }
  for (const Clearance& c : s.clearances) {
    j["clearances"].push_back({{"between", c.between}, {"and", c.and_}, {"gap_mm", mm_of(c.gap)}});
  }
  j["begin"] = state_json(s, 0, s.first);
  j["end"] = state_json(s, 1, s.last);
  return j;
}

void put(Json& j, const std::string& key, const std::optional<Estimate<Length>>& e) {
  j[key + "_mm"] = e ? mm_of(e->value) : Json(nullptr);
  if (e) j[key + "_mm_u"] = mm_of(e->standard_uncertainty);
}

Json frames_json(const PathStudy& s) {
  Json j{{"count", s.frames},
         {"frame_mm", mm_of(s.row.frame)},
         {"gap_mm", mm_of(s.row.gap())},
         {"knob_marks", knob_marks},
         {"table", Json::array()}};
  put(j, "least_gap", s.least_gap);
  put(j, "before_first", s.before_first);
  put(j, "behind_last", s.behind_last);
  j["odds"] = share_of(s.odds_frames);
  for (const FrameWinding& w : s.table) {
    j["table"].push_back({{"frame", w.frame},
                          {"turns", rounded(w.turns, 3)},
                          {"from_last_turns", rounded(w.advance, 3)},
                          {"supply_radius_mm", mm_of(w.supply)},
                          {"take_up_radius_mm", mm_of(w.take_up)}});
  }
  return j;
}

Json window_json(const PathStudy& s) {
  if (!s.window) return nullptr;
  const WindowPlace& w = *s.window;
  Json j = place_json(s.design, w.on_film);
  j["along_film_mm"] = mm_of(w.along);
  j["drift_mm"] = mm_of(w.drift);
  j["through_plate"] = w.through_plate;
  j["on_roll"] = w.on_roll;
  j["before_first_mm"] = mm_of(w.first_margin);
  j["behind_last_mm"] = mm_of(w.last_margin);
  return j;
}

Json flatness_json(const PathStudy& s) {
  if (!s.flatness) return nullptr;
  const GateFlatness& f = *s.flatness;
  return {{"middle_mm", mm_of(f.middle)},
          {"middle_mm_u", mm_of(f.standard_uncertainty)},
          {"low_mm", mm_of(f.low)},
          {"high_mm", mm_of(f.high)},
          {"play_mm", mm_of(f.play)},
          {"f_number", f.aperture.value},
          {"depth_of_focus_mm", mm_of(f.depth_of_focus)},
          {"odds_in_focus", share_of(f.odds)},
          {"surely_at_f_number", f.surely_at ? Json(f.surely_at->value) : Json(nullptr)}};
}

// "3 turns and 12 marks".
std::string knob_text(double turns) {
  const auto marks = static_cast<int>(std::lround(turns * knob_marks));
  return fmt::format("{:>3} {:>3}", marks / knob_marks, marks % knob_marks);
}

std::string layout_text(const PathStudy& s) {
  const Layout& l = *s.layout;
  const PathDesign& d = s.design;
  std::string out =
      fmt::format("\n{:<14}{:<24}{:>8}  {}\n", "", "right, up, behind  mm", "radius", "touches");
  const auto line = [&](const std::string& what, SectionPoint at, Length radius,
                        std::string_view touches) {
    out += fmt::format("{:<14}{:<24}{:>8}  {}\n", what, place_text(camera_point(d, at)),
                       fixed(radius / mm, 1), touches);
  };
  line("supply spool", l.supply, d.problem.spool.flange, "");
  for (std::size_t i = 0; i < l.guides.size(); ++i) {
    const Guide& g = l.guides[i];
    line(fmt::format("{} {}", g.motion == Motion::fixed ? "rail end" : "roller", i + 1), g.centre,
         g.radius, name_of(g.face));
  }
  line("take-up spool", l.take_up, d.problem.spool.flange, "");
  out += "\nleast gaps, over the whole roll\n";
  for (std::size_t i = 0; i < std::min<std::size_t>(6, s.clearances.size()); ++i) {
    const Clearance& c = s.clearances[i];
    out += fmt::format("  {:<8} {} and {}\n", text(c.gap), c.between, c.and_);
  }
  out += fmt::format(
      "\nwinding, turns and marks of {} on the knob since the spool caught the paper\n"
      "  frame   at      on    supply  take-up  mm\n",
      knob_marks);
  for (const FrameWinding& w : s.table) {
    out += fmt::format("  {:>5} {} {}  {:>6}  {:>7}\n", w.frame, knob_text(w.turns),
                       knob_text(w.advance), fixed(w.supply / mm, 1), fixed(w.take_up / mm, 1));
  }
  return out;
}

}  // namespace

std::string path_summary(const Assembly& a, const PathStudy& s) {
  std::string out = fmt::format("{} to {}: {}\n", *a.camera.name, *a.film.name, name_of(s.verdict));
  if (!s.layout) return out;
  out += fmt::format("  film goes      {}, {} between the spools\n", name_of(s.design.goes),
                     text(film_of(s.design.problem, *s.layout, 0.5).length(), 0));
  out += fmt::format("  knob           {} N mm at the start, {} N mm at the end of the roll\n",
                     fixed(s.first.torque / newton_mm, 0), fixed(s.last.torque / newton_mm, 0));
  out += fmt::format("  pull           {} N to {} N\n", fixed(s.first.tensions.front() / newton, 1),
                     fixed(s.last.tensions.back() / newton, 1));
  out += fmt::format("  to spare       {}\n", text(s.layout->spare));
  if (s.flatness) {
    out += fmt::format("  film's middle  {} behind its edges; {} has ± {} of depth\n",
                       text_with_u(s.flatness->middle, s.flatness->standard_uncertainty),
                       text(s.flatness->aperture), text(s.flatness->depth_of_focus));
  }
  if (s.window) {
    out +=
        fmt::format("  window         {}\n", place_text(camera_point(s.design, s.window->on_film)));
  }
  out += layout_text(s);
  if (!s.missing.empty()) {
    out += "\nto measure\n";
    for (const MissingMeasurement& m : s.missing) out += fmt::format("  {}: {}\n", m.key, m.how);
  }
  return out;
}

std::string path_json(const Assembly& a, const PathStudy& s) {
  Json j{{"schema", "backfit.path/1"},
         {"camera", *a.camera.name},
         {"film", *a.film.id},
         {"verdict", name_of(s.verdict)},
         {"film_goes", name_of(s.design.goes)},
         {"set_back_mm", mm_of(s.design.set_back)},
         {"wall_mm", mm_of(s.design.wall)},
         {"layout", s.layout ? layout_json(s) : Json(nullptr)}};
  if (s.layout) {
    j["frames"] = frames_json(s);
    j["window"] = window_json(s);
    j["flatness"] = flatness_json(s);
  } else {
    j["missing_room"] = {{"width_mm", mm_of(s.shortage.width)},
                         {"behind_mm", mm_of(s.shortage.behind)},
                         {"in_front_mm", mm_of(s.shortage.in_front)},
                         {"largest_film", s.largest ? Json(*s.largest->id) : Json(nullptr)}};
  }
  j["to_measure"] = missing_json(s.missing);
  j["from_memory"] = s.design.from_memory;
  j["findings"] = findings_json(s.findings);
  return j.dump(2) + "\n";
}

}  // namespace backfit

// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>

#include "conversion/finding_words.hpp"
#include "conversion/path_study.hpp"
#include "conversion/report.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

// What fingers turn with ease and at most on a small knob. FROM MEMORY of handbooks of human
// factors: about 32 N mm is asked for, and many times that can be done.
constexpr Torque easy = 100 * newton_mm, hard = 300 * newton_mm;
// Below this everything has so little to spare that a caliper's error decides.
constexpr Length little_spare = 0.3 * mm;

std::string joined(const std::vector<std::string>& words) {
  std::string all;
  for (const std::string& w : words) all += (all.empty() ? "" : ", ") + w;
  return all;
}

std::string side_words(const LayoutProblem& p, const Layout& l) {
  const Length edge = p.gate.frame / 2;
  const bool beside = l.supply.x < -edge && l.take_up.x > edge;
  const bool behind = l.supply.x > -edge && l.take_up.x < edge;
  return beside   ? "the rolls lie beside the frame"
         : behind ? "the film folds round and the rolls lie behind the pressure plate"
                  : "one roll lies beside the frame, one behind the pressure plate";
}

Finding no_layout(const Assembly& a, const PathStudy& s) {
  Finding f{"path-does-not-fit", Weight::blocker, a.camera.chamber->place, {}, {}, {}};
  const Room& room = s.design.problem.room;
  f.text = fmt::format(
      "no way was found for frames of {} through a room of {} along the film, {} behind the film "
      "plane and {} before it",
      text(s.design.problem.gate.frame, 1), text(room.high.x - room.low.x, 1), text(room.high.z, 1),
      text(-room.low.z, 1));
  const auto lack = [&](const std::optional<Length>& length, const char* where) {
    if (length && *length > 0.05 * mm) {
      f.remedies.push_back(fmt::format("{} more {} would do", text(*length, 1), where));
    }
  };
  lack(s.shortage.behind, "depth behind the film plane");
  lack(s.shortage.width, "length of the chamber along the film");
  lack(s.shortage.in_front, "depth before the film plane");
  if (s.largest) f.remedies.push_back(fmt::format("or take {} instead", *s.largest->name));
  return f;
}

void find_frames(const Assembly& a, const PathStudy& s, std::vector<Finding>& out) {
  Finding f{"frames-by-turns",
            weight_of(s.odds_frames, Weight::warning),
            a.plan.insert->place,
            {},
            {},
            {}};
  if (s.least_gap) {
    f.text = fmt::format(
        "{} frames wound by the table keep a least gap of {}, {} of film before "
        "the first and {} behind the last (odds {} that none overlaps or runs off)",
        s.frames, text_with_u(s.least_gap->value, s.least_gap->standard_uncertainty),
        text_with_u(s.before_first->value, s.before_first->standard_uncertainty),
        text_with_u(s.behind_last->value, s.behind_last->standard_uncertainty),
        odds_text(s.odds_frames));
    f.limit = limit_of(s.least_gap->budget);
  } else {
    f.text = fmt::format("{} frame", s.frames);
  }
  if (f.weight != Weight::note) {
    f.remedies.emplace_back(
        "measure spool, fresh roll and a scrap backing paper, or wind by a "
        "window on the numbers");
  }
  out.push_back(f);
}

void find_window(const Assembly& a, const PathStudy& s, std::vector<Finding>& out) {
  const auto& paper = a.plan.insert->backing_paper;
  if (s.window) {
    const WindowPlace& w = *s.window;
    const CameraPoint at = camera_point(s.design, w.on_film);
    Finding f{"window-place", Weight::note, paper->place, {}, {}, {}};
    const std::string row = paper->row_from_edge
                                ? fmt::format(", over the row {} from the paper's edge,",
                                              text(paper->row_from_edge->value.value, 1))
                                : std::string();
    f.text = fmt::format(
        "a window {} the axis{} shows number n while frame n is in the gate{}; {} of film before "
        "the "
        "first frame, {} behind the last",
        at.x == 0 * mm
            ? fmt::format("{} {}", text(abs(at.y), 1), at.y < 0 * mm ? "below" : "above")
            : fmt::format("{} {} of", text(abs(at.x), 1), at.x < 0 * mm ? "left" : "right"),
        row,
        w.through_plate ? ", through a hole in the pressure plate"
        : w.on_roll     ? ", on the roll"
                        : "",
        text(w.first_margin, 1), text(w.last_margin, 1));
    if (abs(w.drift) > 2 * mm) {
      f.weight = Weight::warning;
      f.text += fmt::format("; the frames drift {} against the numbers over the roll",
                            text(abs(w.drift), 1));
    }
    out.push_back(f);
  } else if (paper && paper->first_number && paper->last_number) {
    out.push_back({"window-nowhere",
                   Weight::warning,
                   paper->first_number->place,
                   "no place of the film that can be seen from behind shows these numbers while "
                   "their frames are in the gate",
                   {},
                   {"wind by the table of turns", "or use another row of numbers"}});
  }
  if (!s.missing.empty()) {
    std::vector<std::string> keys;
    for (const MissingMeasurement& m : s.missing) keys.push_back(m.key);
    out.push_back({"roll-not-measured",
                   Weight::warning,
                   a.plan.insert->place,
                   fmt::format("not measured: {}", joined(keys)),
                   {},
                   {"measure a scrap backing paper and a fresh roll before anything is drilled"}});
  }
}

void find_flatness(const Assembly& a, const PathStudy& s, std::vector<Finding>& out) {
  const GateFlatness& f = *s.flatness;
  Finding finding{
      "film-flatness", weight_of(f.odds, Weight::warning), a.plan.insert->place, {}, f.limit, {}};
  finding.text = fmt::format(
      "the film's middle lies {} {} the plane of its edges (u {}; 95 %: {} to {} mm, minus towards "
      "the lens): the plate leaves it {} of play, towards the lens only its pull holds it; at {} "
      "the depth of focus is ± {}, kept with odds {}",
      text(abs(f.middle)), f.middle < 0 * mm ? "before" : "behind", text(f.standard_uncertainty),
      fixed(f.low / mm, 2), fixed(f.high / mm, 2), text(f.play), text(f.aperture),
      text(f.depth_of_focus), odds_text(f.odds));
  if (finding.weight != Weight::note) {
    finding.remedies.push_back(
        f.surely_at ? fmt::format("stop down to {}", text(*f.surely_at))
                    : std::string("no stop takes it in: pull the film tighter by a firmer brake"));
  }
  out.push_back(finding);
}

}  // namespace

void find_path(const Assembly& a, PathStudy& s) {
  std::vector<Finding>& out = s.findings;
  const PathDesign& d = s.design;
  if (!s.layout) {
    out.push_back(no_layout(a, s));
  } else {
    const Layout& l = *s.layout;
    const auto rollers = std::ranges::count(l.guides, Motion::turning, &Guide::motion);
    out.push_back({"path-found",
                   Weight::note,
                   a.camera.chamber->place,
                   fmt::format("{}, over {} rollers; everything may be off by {} and still clear",
                               side_words(d.problem, l), rollers, text(l.spare)),
                   {},
                   {}});
    if (l.spare < little_spare) {
      out.push_back({"path-tight",
                     Weight::warning,
                     a.camera.chamber->place,
                     fmt::format("only {} to spare: the caliper's error decides", text(l.spare)),
                     {},
                     {"measure the chamber again, or thin the insert's walls"}});
    }
    if (!s.cut_away.empty()) {
      out.push_back({"take-out",
                     Weight::warning,
                     a.camera.chamber->parts.front().place,
                     fmt::format("in the way and to be taken out: {}", joined(s.cut_away)),
                     {},
                     {"mask the shutter and lens, and clear every chip before film goes in"}});
    }
    std::vector<std::string> stays;
    for (const KeepOut& k : d.problem.room.keep_outs) {
      if (std::ranges::find(s.cut_away, k.region.name) == s.cut_away.end()) {
        stays.push_back(k.region.name);
      }
    }
    if (!stays.empty()) {
      out.push_back({"notch-the-body",
                     Weight::note,
                     a.camera.chamber->parts.front().place,
                     "the insert's body needs a notch round what stays: " + joined(stays),
                     {},
                     {}});
    }
    const Torque torque = l.effort;
    Finding f{"winding-effort",
              torque > hard   ? Weight::blocker
              : torque > easy ? Weight::warning
                              : Weight::note,
              a.plan.insert->place,
              fmt::format("the knob takes {} N mm at the first frame and {} N mm at the end of the "
                          "roll; fingers turn {} N mm with ease",
                          fixed(s.first.torque / newton_mm, 0), fixed(torque / newton_mm, 0),
                          fixed(easy / newton_mm, 0)),
              {},
              {}};
    if (f.weight != Weight::note) f.remedies.emplace_back("a larger knob, or a lighter brake");
    out.push_back(f);
    if (s.flatness) find_flatness(a, s, out);
    find_frames(a, s, out);
    find_window(a, s, out);
  }
  if (!d.from_memory.empty()) {
    out.push_back({"from-memory",
                   Weight::note,
                   a.plan.insert->place,
                   "from memory, not looked up: " + joined(d.from_memory),
                   {},
                   {}});
  }
  std::ranges::stable_sort(out, {}, &Finding::weight);
  s.verdict = verdict_of(out, false);
}

}  // namespace backfit

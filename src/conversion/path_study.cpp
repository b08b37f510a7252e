// SPDX-License-Identifier: MIT
#include "conversion/path_study.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "conversion/methods.hpp"

namespace backfit {
namespace {

constexpr double pi = std::numbers::pi;
// Film kept before the first frame and behind the last, and the gap that is enough between two:
// common practice.
constexpr Length end_of_film = 8 * mm, wide_gap = 6 * mm;
constexpr std::size_t draws = 4000;  // the odds of frames are told to two per cent

// From the gate's middle to the take-up roll along the layout's film, by the roll's radius: between
// three states of winding a parabola.
Reach reach_of(const LayoutProblem& problem, const Layout& layout) {
  std::array<double, 3> r{};
  std::array<double, 3> l{};
  for (std::size_t i = 0; i < 3; ++i) {
    const double wound = 0.5 * static_cast<double>(i);
    const StripPath path = film_of(problem, layout, wound);
    // The gate's middle lies in the section's origin.
    Length length = path.strands[layout.gate].to.x;
    for (std::size_t k = layout.gate + 1; k < path.strands.size(); ++k) {
      length += path.strands[k].length() + path.wraps[k - 1].length();
    }
    r[i] = radii_at(problem.spool, wound).take_up / mm;
    l[i] = length / mm;
  }
  return [r, l](Length radius) {
    const double at = radius / mm;
    double sum = 0;
    for (std::size_t i = 0; i < 3; ++i) {
      const std::size_t j = (i + 1) % 3;
      const std::size_t k = (i + 2) % 3;
      sum += l[i] * (at - r[j]) * (at - r[k]) / ((r[i] - r[j]) * (r[i] - r[k]));
    }
    return sum * mm;
  };
}

double to_mark(double turns) { return std::round(turns * knob_marks) / knob_marks; }

// The roll as it may be.
struct Drawn {
  RollMake make;
  Length core;
};
Drawn drawn(const PathDesign& d, const Draw& at) {
  Drawn roll{d.make, at(d.core_diameter) / 2};
  roll.make.paper_thickness = at(d.paper);
  roll.make.film_thickness = at(d.film);
  roll.make.leader = at(d.leader);
  roll.make.film = at(d.film_length);
  if (d.full_diameter) {
    const Length full = at(*d.full_diameter) / 2;
    const Area solid = roll.make.total() * at(d.paper) + roll.make.film * at(d.film);
    roll.make.packing = std::max(1.0, pi * (full * full - roll.core * roll.core) / solid);
  } else {
    roll.make.packing = std::max(1.0, at(d.packing));
  }
  return roll;
}

// Where each frame really lies, its middle from the film's start, when the table is wound.
std::vector<Length> middles(const PathStudy& s, const Drawn& roll, const Reach& reach) {
  std::vector<Length> all;
  for (const FrameWinding& w : s.table) {
    const Length start = reach(roll.core) + 1e-6 * mm;
    all.push_back(passed_after(roll.make, roll.core, reach, start, w.turns) - roll.make.leader);
  }
  return all;
}

void wind(const Assembly& a, PathStudy& s) {
  const PathDesign& d = s.design;
  const Length frame = d.problem.gate.frame;
  const Measured<Length> film{d.make.film, {}};
  const Input& length = d.inputs.list()[d.film_length.index];
  const Length sure = Length::of_base(length.value - length.spread);
  s.frames =
      a.film.frames ? a.film.frames->value.value : frames_on(sure - 2 * end_of_film, frame, 0 * mm);
  const Length room = sure - 2 * end_of_film - s.frames * frame;
  const Length gap = std::clamp(s.frames > 1 ? room / (s.frames - 1) : wide_gap, 0 * mm, wide_gap);
  s.row = centred_row(film.value, frame, gap, s.frames);
  const Reach reach = reach_of(d.problem, *s.layout);
  s.table = winding_table(d.make, d.core, s.row, reach, reach(d.core) + 1e-6 * mm);
  double before = 0;
  for (FrameWinding& w : s.table) {
    w.turns = to_mark(w.turns);
    w.advance = w.turns - before;
    before = w.turns;
  }
  const auto gap_at = [&](const Draw& at) {
    const std::vector<Length> m = middles(s, drawn(d, at), reach);
    Length least = 1000 * mm;
    for (std::size_t i = 1; i < m.size(); ++i) least = std::min(least, m[i] - m[i - 1] - frame);
    return least;
  };
  const auto first_at = [&](const Draw& at) {
    return middles(s, drawn(d, at), reach).front() - frame / 2;
  };
  const auto last_at = [&](const Draw& at) {
    return at(d.film_length) - middles(s, drawn(d, at), reach).back() - frame / 2;
  };
  if (s.frames > 1) s.least_gap = estimate<Length>(d.inputs, gap_at);
  s.before_first = estimate<Length>(d.inputs, first_at);
  s.behind_last = estimate<Length>(d.inputs, last_at);
  s.odds_frames = probability(
      d.inputs,
      [&](const Draw& at) {
        return gap_at(at) >= 0 * mm && first_at(at) >= 0 * mm && last_at(at) >= 0 * mm;
      },
      draws);
}

void look_through_window(const Assembly& a, PathStudy& s) {
  const BackingPaperPlan own = a.plan.insert->backing_paper.value_or(BackingPaperPlan{});
  const auto ask = [&](bool known, const char* key, const char* how) {
    if (!known) s.missing.push_back({std::string("insert.backing_paper.") + key, how});
  };
  ask(own.film_start.has_value(), "film_start",
      "unroll a scrap backing paper: from the end that is caught first to the tape of the film");
  ask(own.film_length.has_value(), "film_length", "the film's length; of a developed film");
  ask(own.paper_thickness.has_value(), "paper_thickness", "fold ten layers, measure, take a tenth");
  ask(own.first_number.has_value(), "first_number",
      "from the tape of the film to the middle of number 1 in this format's row");
  ask(own.last_number.has_value(), "last_number", "likewise to the row's last number");
  ask(own.row_from_edge.has_value(), "row_from_edge",
      "from the paper's edge that is up in the camera to the middle of the row");
  if (!a.plan.insert->spool || !a.plan.insert->spool->full_roll_diameter) {
    s.missing.push_back(
        {"insert.spool.full_roll_diameter", "measure a fresh roll between its flanges"});
  }
  if (!own.first_number || !own.last_number || s.frames < 2) return;
  const Length first = own.first_number->value.value;
  const NumberRow numbers{first, (own.last_number->value.value - first) / (s.frames - 1)};
  s.window = window_place(s, numbers, s.design.make.film);
}

// The room with only what can't be cut away.
LayoutProblem cleared(LayoutProblem problem) {
  std::erase_if(problem.room.keep_outs, [](const KeepOut& k) { return k.removable; });
  return problem;
}

// The longest of the catalogue's frames on the same spool that has a layout.
std::optional<Film> largest_that_fits(const Assembly& a, const PathDesign& design,
                                      const Catalogue& catalogue) {
  std::vector<const Film*> shorter;
  for (const Film& f : catalogue.films) {
    if (!f.spool || !f.image_height || **f.spool != **a.film.spool) continue;
    if (f.image_height->value.value.value < design.problem.gate.frame) shorter.push_back(&f);
  }
  const auto length = [](const Film* f) { return f->image_height->value.value.value; };
  // What a frame fits a shorter one does: from below until one finds no way.
  std::ranges::stable_sort(shorter, {}, length);
  std::optional<Film> largest;
  for (const Film* f : shorter) {
    LayoutProblem smaller = cleared(design.problem);
    smaller.gate.frame = length(f);
    if (layouts_for(smaller, 2).empty()) break;
    largest = *f;
  }
  return largest;
}

}  // namespace

PathStudy path_study(const Assembly& a, const Catalogue& catalogue) {
  PathStudy s;
  s.design = path_design(a);
  // As it stands first; then with everything gone that may be cut away. A quick look tells whether
  // the former is worth a long one.
  const LayoutProblem bare = cleared(s.design.problem);
  const bool cuttable = bare.room.keep_outs.size() != s.design.problem.room.keep_outs.size();
  std::vector<Layout> found;
  if (!cuttable || !layouts_for(s.design.problem, 1).empty()) found = layouts_for(s.design.problem);
  if (found.empty() && cuttable) found = layouts_for(bare);
  if (found.empty()) {
    s.shortage = shortage_of(bare);
    s.largest = largest_that_fits(a, s.design, catalogue);
  } else {
    s.layout = found.front();
    s.others.assign(found.begin() + 1, found.end());
    s.cut_away = cut_away(s.design.problem, *s.layout);
    s.first = effort_of(s.design.problem, *s.layout, 0);
    s.last = effort_of(s.design.problem, *s.layout, 1);
    s.clearances = clearances_of(bare, *s.layout);
    wind(a, s);
    look_through_window(a, s);
    s.flatness = gate_flatness(a, s);
  }
  find_path(a, s);
  return s;
}

}  // namespace backfit

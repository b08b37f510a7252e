// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>

#include "documents/build_chapters.hpp"
#include "documents/build_words.hpp"
#include "documents/drawing.hpp"
#include "documents/loading_steps.hpp"
#include "quantity/notation.hpp"

namespace backfit::paper {
namespace {

// Less than that nobody sets.
constexpr Length smallest_move = 0.005 * mm;

// The measurements that the answers lean on most: in turn, the largest of each answer's budget that
// isn't there yet. What is made or set by the conversion itself doesn't count.
std::vector<const Input*> leading_inputs(const Report& report, std::size_t count) {
  const MeasuredInputs& inputs = report.assembly.inputs;
  const std::span<const Input> all = inputs.all.list();
  const std::vector<Contribution>* budgets[] = {
      &report.register_.spare_room.budget, &report.register_.set_back.budget,
      &report.frame.picture_width.budget, &report.circle.circle.budget};
  std::vector<const Input*> result;
  const auto next_of = [&](const std::vector<Contribution>& budget) -> const Input* {
    for (const Contribution& c : budget) {
      const auto input = std::ranges::find(all, c.name, &Input::name);
      if (input == all.end() || !(c.share > 0)) continue;
      const auto index = static_cast<std::size_t>(input - all.begin());
      const auto made = [&](const MeasuredInputs::Term& term) {
        return term.made && term.input.index == index;
      };
      if (index == inputs.stop_setting.index || std::ranges::any_of(inputs.set_back, made))
        continue;
      if (std::ranges::find(result, &*input) == result.end()) return &*input;
    }
    return nullptr;
  };
  for (std::size_t round = 0; round < all.size() && result.size() < count; ++round) {
    for (const std::vector<Contribution>* budget : budgets) {
      const Input* next = next_of(*budget);
      if (next != nullptr && result.size() < count) result.push_back(next);
    }
  }
  return result;
}

std::string survey_words(const Report& report) {
  std::string list;
  for (const Input* input : leading_inputs(report, 5)) {
    const Measured<Length> value{Length::of_base(input->value), Length::of_base(input->spread)};
    list += fmt::format("\n☐ {}: {} mm, now ________ mm", input->name, within(value));
  }
  return "Three readings each of the numbers that the answers lean on most. If one falls outside "
         "its "
         "±, mend the survey and make this sheet anew." +
         list;
}

// Where the standard moves, the stop moves with it; else the whole lens is set back at its mount.
std::string stop_words(const Report& report) {
  const RegisterStudy& reg = report.register_;
  const Focusing& focusing = report.assembly.camera.focusing;
  const bool standard = *focusing.moves == LensMotion::standard;
  const std::string set_back =
      mm_with_u(abs(reg.set_back.value), reg.set_back.standard_uncertainty) + " mm (95 %)";
  const std::string room = within(*focusing.room_behind_infinity) + " mm";
  std::string words;
  if (reg.farthest_focus) {
    words = fmt::format(
        "{} all of the {} there is. That is less than the set-back of {}: the farthest focus is "
        "{}.",
        standard ? "Take the stop off and let the standard go back" : "Set the lens back by", room,
        set_back, distance_text(*reg.farthest_focus));
  } else {
    words =
        fmt::format("At infinity the {} must stand {} farther {}; there is room for {}.",
                    what_moves(report.assembly.camera), set_back, way_of(reg.set_back.value), room);
    if (standard) words += " Move the stop by that.";
  }
  if (standard && !reg.marks.empty()) {
    words += " The pointer of the focus scale moves with it: then the engraved marks hold.";
  }
  if (*focusing.moves == LensMotion::front_element) {
    words +=
        " This camera focuses with its front element: set the whole lens back at its mount and "
        "leave "
        "the front element's scale alone. It doesn't travel like a whole lens: the distances under "
        "Focus don't hold for it.";
  }
  if (*focusing.moves == LensMotion::fixed) {
    words += " This lens doesn't move to focus: set it back at its mount.";
  }
  return words;
}

void add_focusing(Steps& steps, const Report& report) {
  const Assembly& a = report.assembly;
  const RegisterStudy& reg = report.register_;
  std::vector<std::string> cautions;
  if (*a.camera.shutter.timing == ShutterTiming::photocell) {
    cautions.emplace_back(
        "Photocell-timed shutter and flash circuits: charged capacitors stay dangerous for days "
        "with the battery out. Leave their discharge to somebody qualified. Old cells: never open "
        "them; they are hazardous household waste.");
  }
  const bool fast = *a.camera.focusing.moves == LensMotion::fixed;
  if (abs(reg.set_back.value) >= smallest_move) {
    steps.add(*a.camera.focusing.moves == LensMotion::standard ? "Move the infinity stop"
                                                               : "Set the lens back",
              stop_words(report), cautions);
  }
  steps.add(
      "Check infinity on a ground glass",
      fmt::format(
          "Its ground side {}, where the emulsion will lie. At {}, "
          "on something a kilometre away or more, under a loupe: {}. The calculation knows the "
          "plane to ± {} mm (95 %); {} count as sharp.",
          glass_place(report), text(report.focus.aperture),
          reg.farthest_focus
              ? fmt::format("it stays unsharp; a subject {} away is sharp",
                            distance_text(*reg.farthest_focus))
              : std::string(fast ? "it must be sharp" : "it must be sharp at the stop"),
          fixed(coverage_95 * report.focus.plane_error.standard_uncertainty / mm, 2),
          "± " + mm_of(report.focus.depth_of_focus)),
      {"Never at or near the sun. Tape the glass's edges."});
  const bool standard =
      report.finder && *a.camera.rangefinder->coupled_to == FinderCoupling::standard;
  if (report.finder && (!standard || abs(report.finder->pose) >= smallest_move)) {
    steps.add(
        "Set the rangefinder",
        (standard
             ? fmt::format("Its drive stands {} mm too far back with the moved lens. Move "
                           "cam or arm forward by that, to within {}.",
                           fixed(report.finder->pose / mm, 2), mm_of(report.focus.depth_of_focus))
             : std::string("It is driven by the front element.")) +
            " Set it on a far subject, then compare it with the ground glass at two nearer "
            "distances.");
  }
  std::vector<RegisterStudy::Mark> reached = reg.marks;
  std::erase_if(reached, [](const RegisterStudy::Mark& m) { return !m.from_new_stop; });
  if (!reached.empty()) {
    const RegisterStudy::Mark& nearest =
        *std::ranges::min_element(reached, {}, &RegisterStudy::Mark::engraved);
    steps.add(
        "Check the scale",
        fmt::format("At the mark {} the {} must stand {} mm forward of its new stop; the table "
                    "under Focus has the others. Confirm one on the ground glass.",
                    engraved(nearest.engraved), what_moves(a.camera),
                    fixed(nearest.from_new_stop->value / mm, 2)));
  }
}

void add_first_pictures(Steps& steps, const Report& report) {
  const FrameStudy& f = report.frame;
  const CircleStudy& c = report.circle;
  std::string words = fmt::format(
      "An even wall, then a page of print that fills the frame, at {} and again two stops down. "
      "Compare with the frame's page: picture {} mm, {} without shadow",
      text(report.focus.aperture), sides(f.picture), sides(f.whole));
  if (c.covered.width < f.picture.width) {
    words += fmt::format(", corners soft outside {} mm as far as the image circle is known",
                         sides(c.covered));
  }
  words += ".";
  if (report.hand.reversed) words += " The picture is a mirror image of the subject.";
  steps.add(
      "First exposures", words,
      {"Developers and fixers: gloves, eye protection, fresh air. Their safety data sheets and "
       "the local rules for disposal decide."});
}

}  // namespace

void add_steps(Flow& flow, const Report& report) {
  flow.new_page();
  flow.heading("Steps, in order");
  if (report.has_blockers()) {
    const auto count =
        std::ranges::count(report.findings, Weight::blocker, &backfit::Finding::weight);
    flow.boxed({Sign::blocker, "Not to be built as planned",
                fmt::format("{} on the first pages. Clear them before you cut or print.",
                            counted(static_cast<std::size_t>(count), "blocker"))});
  }
  flow.paragraph("Tools: " + tools(report), small_text);
  Steps steps(flow);
  steps.add("Check the survey", survey_words(report));
  add_loading(steps, report);
  add_focusing(steps, report);
  add_first_pictures(steps, report);
}

void add_materials(Flow& flow, const PriceList& list) {
  if (list.empty()) return;
  flow.together([&] {
    flow.heading("Materials and cost");
    flow.table(list.table("Sum"));
    if (list.unpriced() > 0) {
      flow.paragraph(fmt::format("No sum: {} without a price.", counted(list.unpriced(), "item")),
                     small_text);
    }
  });
}

}  // namespace backfit::paper

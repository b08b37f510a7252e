// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>

#include "conversion/finding_words.hpp"
#include "documents/build_chapters.hpp"
#include "documents/build_words.hpp"
#include "documents/set_back_sum.hpp"
#include "quantity/notation.hpp"

namespace backfit::paper {
namespace {

constexpr Length bar_row = 5.2 * mm;

void draw_bars(Sheet& sheet, PagePoint at, const std::vector<Contribution>& budget) {
  const Length names = 62 * mm, longest = 78 * mm;
  TextStyle head = small_text, right = small_text;
  head.bold = true;
  right.align = Align::right;
  TextStyle right_head = right;
  right_head.bold = true;
  const Length edge = at.x + content_width;
  sheet.label({at.x, at.y + 3 * mm}, "Measurement", head);
  sheet.label({at.x + names, at.y + 3 * mm}, "Share of the doubt", head);
  sheet.label({edge, at.y + 3 * mm}, "95 %, mm", right_head);
  sheet.stroke(polyline({{at.x, at.y + 4.6 * mm}, {edge, at.y + 4.6 * mm}}), LineStyle::border);
  Length y = at.y + 5.4 * mm;
  for (const Contribution& c : budget) {
    const Length base = y + 3.4 * mm, bar = c.share * longest;
    sheet.label({at.x, base}, shortened(c.name, 42), small_text);
    if (bar > 0.1 * mm) {
      sheet.fill(
          rectangle({at.x + names, y + 0.8 * mm}, {at.x + names + bar, y + bar_row - 1 * mm}),
          Ink::grey);
    }
    sheet.label({at.x + names + bar + 1.5 * mm, base}, fixed(100 * c.share, 0) + " %", small_text);
    sheet.label({edge, base}, "± " + fixed(coverage_95 * c.contribution, 2), right);
    y += bar_row;
  }
}

}  // namespace

void add_focus(Flow& flow, const Report& report) {
  const RegisterStudy& reg = report.register_;
  const bool fast = *report.assembly.camera.focusing.moves == LensMotion::fixed;
  flow.heading("Focus");
  flow.paragraph(fmt::format(
      "The film lies {} mm {} its old plane (95 %). The {} goes {} {} mm {}; {}. {}.",
      mm_with_u(abs(reg.set_back.value), reg.set_back.standard_uncertainty),
      reg.set_back.value < 0 * mm ? "before" : "behind", what_moves(report.assembly.camera),
      way_of(reg.standard_moves), fixed(abs(reg.standard_moves) / mm, 2),
      fast ? "at its mount" : "with its infinity stop",
      reg.farthest_focus
          ? fmt::format(
                "it then still stands too far forward for infinity, and focuses no farther than {}",
                distance_text(*reg.farthest_focus))
          : fmt::format("infinity is then reached with odds of {}", odds_text(reg.odds_infinity)),
      fast ? "The lens sits fast: sharp " + sharp_distances(report.depth_of_field)
           : "Nearest focus " + distance_text(reg.nearest_focus) + " from the lens"));
  if (fast) return;
  if (reg.marks.empty()) {
    flow.paragraph("The survey gives no engraved marks: make a new scale on the ground glass.");
    return;
  }
  Table table{{{"Engraved mark", 40 * mm},
               {"Stands forward of the new infinity stop, mm", 70 * mm, Align::right},
               {"Would focus, if only the back were changed", 70 * mm, Align::right}},
              {}};
  for (const RegisterStudy::Mark& m : reg.marks) {
    table.rows.push_back(
        {engraved(m.engraved),
         m.from_new_stop ? mm_with_u(m.from_new_stop->value, m.from_new_stop->standard_uncertainty)
                         : std::string("out of reach"),
         m.uncorrected ? distance_text(*m.uncorrected) : std::string("past infinity")});
  }
  flow.table(table);
}

void add_budget(Flow& flow, const Report& report) {
  std::vector<Contribution> budget = report.register_.set_back.budget;
  std::erase_if(budget, [](const Contribution& c) { return c.share < 0.005; });
  if (!report.assembly.plate && report.assembly.inputs.set_back.size() > 1) {
    flow.together([&] {
      flow.heading("What the set-back adds up from");
      flow.table(set_back_sum(report));
    });
  }
  if (budget.empty()) return;
  flow.together([&] {
    flow.heading("Which measurement the set-back hangs on");
    const Length height = 6 * mm + static_cast<double>(budget.size()) * bar_row;
    flow.block(height, [budget](Sheet& sheet, PagePoint at) { draw_bars(sheet, at, budget); });
    const std::vector<Contribution>& room = report.register_.spare_room.budget;
    if (room.empty()) return;
    flow.paragraph(fmt::format("First to repeat for the set-back: {}. For infinity: {}.",
                               budget.front().name, room.front().name));
  });
}

}  // namespace backfit::paper

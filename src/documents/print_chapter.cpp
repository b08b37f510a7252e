// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "documents/build_chapters.hpp"
#include "documents/build_words.hpp"
#include "quantity/notation.hpp"

namespace backfit::paper {

void add_print(Flow& flow, const Report& report) {
  const PrintStudy& s = report.print;
  flow.together([&] {
    flow.heading("How large a print");
    flow.paragraph(fmt::format(
        "A blur of {} on the film, which counts as sharp here, is just not seen on a print {} "
        "times "
        "as large that is held {} from the eye: {} mm. Twice as far away, twice as large.",
        text(s.circle, 2), fixed(s.by_circle.enlargement, 1), text(s.viewing, 0),
        sides(s.by_circle.size)));
    Table table{{{"Stop", 24 * mm},
                 {"Blur at infinity, mm", 46 * mm, Align::right},
                 {"Enlargement", 40 * mm, Align::right},
                 {"Print in the hand, mm", 60 * mm, Align::right}},
                {}};
    for (const PrintStudy::Row& row : s.rows) {
      table.rows.push_back({text(row.aperture), fixed(row.blur / mm, 3),
                            fixed(row.print.enlargement, 1), sides(row.print.size)});
    }
    flow.table(table);
    flow.paragraph(fmt::format(
        "The blur is that of a film {} off its plane, where 95 % of conversions measured like this "
        "are better, and of diffraction; the lens's own errors come on top. With that error f/{} "
        "is "
        "the sharpest stop.",
        text(s.plane_error, 2), fixed(s.sharpest.value, 0)));
    if (!s.traced) return;
    Table contrast{{{"Contrast by the lens's prescription", 60 * mm},
                    {"film too near", 40 * mm, Align::right},
                    {"in its plane", 40 * mm, Align::right},
                    {"too far", 40 * mm, Align::right}},
                   {}};
    for (std::size_t i = 0; i < s.places.size(); ++i) {
      std::vector<std::string> row{s.places[i]};
      const auto& light = s.traced->points[i].light;
      for (std::size_t shift = 0; shift < s.traced->shifts.size(); ++shift) {
        if (!light) {
          row.emplace_back("dark");
          continue;
        }
        const auto& c = s.traced->at(light->by_waves, shift, 0);
        row.push_back(fmt::format("{} / {}", fixed(c.sagittal, 2), fixed(c.tangential, 2)));
      }
      contrast.rows.push_back(row);
    }
    flow.table(contrast);
    flow.paragraph(fmt::format(
        "Of {} line pairs a mm at {}, lines towards the axis / across, for a subject far away, "
        "with "
        "the middle focused. Over the whole picture a flat film is sharpest {} {} the lens.",
        fixed(1 / s.circle / lp_per_mm, 0), text(report.assembly.plan.focus.aperture.value),
        text(abs(s.flat_film_from_middle), 2),
        s.flat_film_from_middle < Length{} ? "nearer" : "farther from"));
  });
}

}  // namespace backfit::paper

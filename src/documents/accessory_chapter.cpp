// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "documents/build_chapters.hpp"
#include "documents/build_words.hpp"
#include "quantity/notation.hpp"

namespace backfit::paper {

void add_accessories(Flow& flow, const Report& report) {
  for (const AccessoryStudy& s : report.accessories) {
    flow.together([&] {
      flow.heading("With the " + shortened(s.name, 50));
      flow.paragraph(fmt::format(
          "Lens and accessory together: {}; the picture's diagonal sees {}°. Stops, shadows and "
          "image circle stay as they are, if its rim clips nothing: look through the open back.",
          text_with_u(s.focal.value, s.focal.standard_uncertainty), fixed(s.angle / deg, 0)));
      Table table{{{"The scale reads", 40 * mm},
                   {"In focus, from the accessory", 60 * mm, Align::right},
                   {"Image size : subject size", 60 * mm, Align::right}},
                  {}};
      for (const AccessoryStudy::Mark& m : s.marks) {
        table.rows.push_back(
            {m.set ? distance_text(*m.set) : std::string("infinity"),
             m.focuses ? distance_text(*m.focuses) : std::string("infinity"),
             m.magnification > 0 ? "1 : " + fixed(1 / m.magnification, 1) : std::string()});
      }
      flow.table(table);
    });
  }
}

}  // namespace backfit::paper

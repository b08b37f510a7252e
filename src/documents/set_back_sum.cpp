// SPDX-License-Identifier: MIT
#include "documents/set_back_sum.hpp"

#include "documents/build_words.hpp"
#include "quantity/notation.hpp"

namespace backfit::paper {

Table set_back_sum(const Report& report) {
  const MeasuredInputs& in = report.assembly.inputs;
  Table table{{{"Adds up to the set-back", 56 * mm},
               {"mm", 18 * mm, Align::right},
               {"for sure within", 27 * mm, Align::right}},
              {}};
  for (const MeasuredInputs::Term& term : in.set_back) {
    const Input& input = in.all.list()[term.input.index];
    table.rows.push_back({input.name, place_mm(term.way * Length::of_base(input.value)),
                          "± " + fixed(Length::of_base(input.spread) / mm, 2)});
  }
  const Estimate<Length>& sum = report.register_.set_back;
  table.rows.push_back({"set-back", place_mm(sum.value),
                        "95 %: ± " + fixed(coverage_95 * sum.standard_uncertainty / mm, 2)});
  return table;
}

}  // namespace backfit::paper

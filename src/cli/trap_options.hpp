// SPDX-License-Identifier: MIT
// The options of `trap`, and the questions they ask.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "conversion/trap_study.hpp"

namespace CLI {
class App;
}

namespace backfit {

// As written on the command line.
struct TrapWords {
  std::string gap, turns, reflectance, bore, length, seam;
  std::vector<double> arms_mm;
  double gloss_index = 1, iso = 400;
};

void add_trap_options(CLI::App& trap, TrapWords& words);

// What the words ask. Throws CLI::ValidationError, naming the option, when one can't be read.
TrapQuestions trap_questions(const TrapWords& words);

}  // namespace backfit

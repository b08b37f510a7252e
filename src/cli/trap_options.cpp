// SPDX-License-Identifier: MIT
#include "cli/trap_options.hpp"

#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include "cli/reading_options.hpp"

namespace backfit {
namespace {

std::vector<Turn> turns_of(const std::string& text) {
  std::vector<Turn> turns;
  for (const char c : text) {
    if (c != 'L' && c != 'R') {
      throw CLI::ValidationError("--turns",
                                 fmt::format("'{}' is no row of turns L and R, like LRRL", text));
    }
    turns.push_back(c == 'L' ? Turn::left : Turn::right);
  }
  return turns;
}

}  // namespace

void add_trap_options(CLI::App& trap, TrapWords& words) {
  auto* gap = trap.add_option("--gap", words.gap,
                              "Width of the gap between the two parts, \"0.25 mm ± 0.05\"")
                  ->type_name("LENGTH");
  auto* arms = trap.add_option("--arms", words.arms_mm,
                               "Straight arms in mm from the outside in, without the corners")
                   ->type_name("MM,...")
                   ->delimiter(',')
                   ->check(within(0, 1e4));
  trap.add_option("--turns", words.turns, "The corner between each two arms: L left, R right")
      ->type_name("LR...")
      ->needs(arms);
  trap.add_option("--reflectance", words.reflectance, "Light that the walls scatter, \"5 % ± 2\"")
      ->type_name("PERCENT")
      ->required();
  trap.add_option("--specular", words.gloss_index,
                  "Walls that also mirror, as a smooth face of this refractive index: 1.5 a glossy "
                  "print; 1: dead matt")
      ->type_name("INDEX")
      ->check(within(1, 4))
      ->capture_default_str();
  auto* bore =
      trap.add_option("--bore", words.bore, "A round hole of this diameter instead of a gap")
          ->type_name("LENGTH")
          ->excludes(gap)
          ->excludes(arms);
  auto* length = trap.add_option("--length", words.length, "Length of the hole")
                     ->type_name("LENGTH")
                     ->needs(bore);
  bore->needs(length);
  gap->needs(arms);
  arms->needs(gap);
  trap.add_option("--iso", words.iso, "Speed of the film")
      ->type_name("N")
      ->check(within(0.1, 1e5))
      ->capture_default_str();
  trap.add_option("--seam", words.seam,
                  "How long the gap runs along the parts; a gap whose walls mirror needs it")
      ->type_name("LENGTH")
      ->needs(gap);
}

TrapQuestions trap_questions(const TrapWords& words) {
  TrapQuestions q{};
  if (!words.bore.empty()) {
    q.way =
        TrapQuestions::Hole{length_of("--bore", words.bore), length_of("--length", words.length)};
  } else if (!words.gap.empty()) {
    TrapQuestions::Gap gap{length_of("--gap", words.gap), {}, turns_of(words.turns)};
    for (const double arm : words.arms_mm) gap.arms.push_back(arm * mm);
    q.way = gap;
  } else {
    throw CLI::ValidationError(
        "trap", "a gap with --gap and --arms or a hole with --bore and --length is needed");
  }
  const Reading reflectance =
      read_option("--reflectance", words.reflectance, kind_of<double>(), Sign::not_negative);
  q.reflectance = {reflectance.value, reflectance.tolerance.value_or(0)};
  q.gloss_index = words.gloss_index;
  q.film = {words.iso};
  if (!words.seam.empty()) q.seam = length_of("--seam", words.seam).value;
  return q;
}

}  // namespace backfit

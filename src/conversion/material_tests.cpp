// SPDX-License-Identifier: MIT
#include "conversion/material_tests.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace backfit {
namespace {

// A card of 18 % reflects log10(1 / 0.18) = 0.745.
constexpr Density grey_card{0.75};

std::vector<Density> densities(const std::vector<Stated<double>>& list) {
  std::vector<Density> out;
  out.reserve(list.size());
  for (const Stated<double>& d : list) out.push_back({*d});
  return out;
}

bool lists_match(const WedgeTest& test, Diagnostics& diagnostics) {
  if (test.steps.size() != test.read.size() || test.steps.size() < 2) {
    diagnostics.error(test.read.front().place,
                      fmt::format("{} steps and {} densities under them: a wedge needs as many of "
                                  "each, two or more",
                                  test.steps.size(), test.read.size()));
    return false;
  }
  std::vector<Stated<double>> sorted = test.steps;
  std::ranges::sort(sorted, {}, &Stated<double>::value);
  const auto twice = std::ranges::adjacent_find(sorted, {}, &Stated<double>::value);
  if (twice == sorted.end()) return true;
  diagnostics.error(twice->place, fmt::format("the step {:.2f} stands twice", twice->value));
  return false;
}

}  // namespace

std::optional<WedgeFound> found_by_wedge(const WedgeTest& test, const Emulsion& emulsion,
                                         Diagnostics& diagnostics) {
  if (*emulsion.process != Process::negative) {
    diagnostics.error(
        test.place,
        fmt::format("a wedge gives the speed of a negative; {} is none", *emulsion.name),
        "find its index in the camera, and write it as index");
    return {};
  }
  if (!lists_match(test, diagnostics)) return {};
  const CharacteristicCurve curve = CharacteristicCurve::under_wedge(
      densities(test.steps), densities(test.read), test.light->value * test.time->value);
  const double light_u = test.light->standard_uncertainty() / test.light->value;
  const double time_u = test.time->standard_uncertainty() / test.time->value;
  ReadingDoubt doubt;
  doubt.of_exposure = {std::hypot(light_u, time_u) / std::numbers::ln2};
  const Density base{*test.base_plus_fog};

  WedgeFound found;
  found.lit_by = *test.lit_by;
  const bool is_paper = emulsion.log_range.has_value();
  if (is_paper) {
    found.paper = paper_speed(curve, base, doubt);
  } else {
    found.film = film_speed(curve, base, doubt);
  }
  if (found.paper) {
    found.in_its_light = index_of_paper(found.paper->speed);
    found.standard_uncertainty = found.paper->standard_uncertainty;
    return found;
  }
  if (found.film) {
    found.in_its_light = found.film->speed;
    found.standard_uncertainty = found.film->standard_uncertainty;
    return found;
  }
  const auto [least, most] = std::ranges::minmax(test.read, {}, &Stated<double>::value);
  diagnostics.error(
      test.read.front().place,
      fmt::format("the densities, {:.2f} to {:.2f}, never show where they pass {:.2f} above base "
                  "plus fog of {:.2f}{}",
                  least.value, most.value, is_paper ? 0.6 : 0.1, base.value,
                  is_paper ? ", and where the paper's whitest and blackest tones end" : ""),
      "read more steps, or give more or less light");
  return {};
}

std::optional<NextPack> next_pack(const PackTest& test, const Emulsion& emulsion,
                                  Diagnostics& diagnostics) {
  if (*emulsion.process != Process::reversal_paper) {
    diagnostics.error(test.place, fmt::format("a filter pack is of colour paper by reversal; {} is "
                                              "none",
                                              *emulsion.name));
    return {};
  }
  if (test.grey.size() != 3) {
    diagnostics.error(test.grey.front().place,
                      fmt::format("a grey patch has three densities, behind red, green and blue; "
                                  "there are {}",
                                  test.grey.size()));
    return {};
  }
  const auto filter = [](const std::optional<Stated<double>>& density) {
    return Density{density ? **density : 0};
  };
  NextPack pack{{filter(test.yellow), filter(test.magenta), filter(test.cyan)},
                test.aim ? Density{**test.aim} : grey_card,
                {}};
  const GreyPatch patch{{*test.grey[0]}, {*test.grey[1]}, {*test.grey[2]}};
  pack.next = refined_by_reversal(pack.used, patch, pack.aim);
  return pack;
}

}  // namespace backfit

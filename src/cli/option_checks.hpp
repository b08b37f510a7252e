// SPDX-License-Identifier: MIT
// Checks of option values that commands share.
#pragma once
#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <string>

namespace backfit {

// A number from `least` to `greatest`, and not "nan".
inline CLI::Validator within(double least, double greatest) {
  return CLI::Validator(
      [least, greatest](std::string& text) {
        double value = 0;
        const bool fits =
            CLI::detail::lexical_cast(text, value) && value >= least && value <= greatest;
        return fits ? std::string()
                    : fmt::format("'{}' is no number from {:g} to {:g}", text, least, greatest);
      },
      "", "within");
}

}  // namespace backfit

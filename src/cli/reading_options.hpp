// SPDX-License-Identifier: MIT
// What stands behind an option, read or refused in the option's name.
#pragma once
#include <CLI/CLI.hpp>

#include <string>

#include "quantity/measured.hpp"
#include "quantity/notation.hpp"

namespace backfit {

// Takes a number from `least` to `greatest`, and not "nan".
CLI::Validator within(double least, double greatest);

// An amount with a unit, as in the files. Throws CLI::ValidationError.
Reading read_option(const char* option, const std::string& text, const QuantityKind& kind,
                    Sign sign);
// The same for a length above nothing, "0.25 mm ± 0.05".
Measured<Length> length_of(const char* option, const std::string& text);

}  // namespace backfit

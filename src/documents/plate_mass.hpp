// SPDX-License-Identifier: MIT
// What the printed plate weighs and costs.
#pragma once
#include <optional>

#include "conversion/assembly.hpp"

namespace backfit::paper {

// The plate printed solid: its volume times the spool's density, or else the material's. Empty
// when neither is known. Requires assembly.plate.
std::optional<Mass> plate_mass(const Assembly& assembly);
// That of its filament; empty when mass or price is not known.
std::optional<double> plate_price(const Assembly& assembly);

}  // namespace backfit::paper

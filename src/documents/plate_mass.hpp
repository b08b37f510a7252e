// SPDX-License-Identifier: MIT
// What the printed plate weighs and costs.
#pragma once
#include <optional>

#include "conversion/assembly.hpp"

namespace backfit::paper {

// That of the spool's data sheet, or else the material's; empty when neither is known. Requires a
// printer in the plan.
std::optional<MassDensity> printed_density(const Assembly& assembly);
// The plate printed solid: its volume times that density. Empty when it is not known. Requires
// assembly.plate.
std::optional<Mass> plate_mass(const Assembly& assembly);
// That of its filament; empty when mass or price is not known.
std::optional<double> plate_price(const Assembly& assembly);

}  // namespace backfit::paper

// SPDX-License-Identifier: MIT
// What to do, in order, and what it takes: the last pages of a build sheet.
#pragma once
#include <optional>

#include "conversion/report.hpp"
#include "documents/flow.hpp"

namespace backfit {

// Mass of the plate printed solid; empty when nobody gave the material's density.
// Requires report.assembly.plate.
std::optional<Mass> plate_mass(const Report& report);

// Steps with the numbers of this conversion; a caution stands before the step where it applies.
// Only steps that apply: no rangefinder step without a rangefinder.
void add_steps(paper::Flow& flow, const Report& report);

// Parts to print and buy, with prices where they are known and their sum.
void add_materials(paper::Flow& flow, const Report& report);

}  // namespace backfit

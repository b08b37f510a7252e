// SPDX-License-Identifier: MIT
#include "documents/plate_mass.hpp"

#include "parts/printing.hpp"

namespace backfit::paper {

std::optional<Mass> plate_mass(const Assembly& assembly) {
  std::optional<MassDensity> density;
  if (assembly.plan.printer->density) {
    density = assembly.plan.printer->density->value.value;
  } else if (assembly.material->density) {
    density = assembly.material->density->value->value;
  }
  if (!density) return {};
  return printed_mass(volume_of(*assembly.plate), *density);
}

std::optional<double> plate_price(const Assembly& assembly) {
  const std::optional<Mass> mass = plate_mass(assembly);
  if (!mass || !assembly.plan.prices || !assembly.plan.prices->filament_per_kg) return {};
  return *mass / (1000 * gram) * assembly.plan.prices->filament_per_kg->value.amount;
}

}  // namespace backfit::paper

// SPDX-License-Identifier: MIT
#include "documents/plate_mass.hpp"

#include "parts/printing.hpp"

namespace backfit::paper {

std::optional<MassDensity> printed_density(const Assembly& assembly) {
  if (assembly.plan.printer->density) return assembly.plan.printer->density->value.value;
  if (assembly.material->density) return assembly.material->density->value->value;
  return {};
}

std::optional<Mass> plate_mass(const Assembly& assembly) {
  const std::optional<MassDensity> density = printed_density(assembly);
  if (!density) return {};
  return printed_mass(volume_of(*assembly.plate), *density);
}

std::optional<double> plate_price(const Assembly& assembly) {
  const std::optional<Mass> mass = plate_mass(assembly);
  if (!mass || !assembly.plan.prices || !assembly.plan.prices->filament_per_kg) return {};
  return *mass / (1000 * gram) * assembly.plan.prices->filament_per_kg->value.amount;
}

}  // namespace backfit::paper

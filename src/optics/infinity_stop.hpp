// SPDX-License-Identifier: MIT
// How far an infinity stop is off, told by a test on a near subject, and the shims that mend it.
// Derivation: docs/derivations/infinity-stop.md.
#pragma once
#include <optional>
#include <span>
#include <vector>

#include "quantity/quantity.hpp"

namespace backfit {

// How much too near the film the lens stands at its stop, when a subject `subject` before the front
// principal point is sharp with the lens `travel` forward of the stop:
// travel - focal^2 / (subject - focal). Negative when it stands too far forward and can't reach
// infinity. Empty when subject <= focal. Requires focal > 0.
std::optional<Length> stop_error(Length focal, Length subject, Length travel);

struct ShimStack {
  std::vector<Length> shims;  // thickest first; empty when nothing of the stock helps
  Length thickness;
  Length left;  // of what was needed; negative when the stack is thicker
};

// The stack of at most `most` shims of the thicknesses in `stock`, each as often as needed, that
// comes nearest to `needed`; of equally near stacks one with the fewest shims. Looks through all of
// them. Requires needed >= 0, each thickness > 0 and most >= 0.
ShimStack shim_stack(Length needed, std::span<const Length> stock, int most);

}  // namespace backfit

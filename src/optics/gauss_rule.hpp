// SPDX-License-Identifier: MIT
// Gauss's rule for integrals over a stretch of the line.
#pragma once
#include <vector>

namespace backfit {

// The integral of f from a to b is the sum of (b - a) weight f(a + (b - a) place): exact for
// polynomials of degree up to 2 points - 1. Places ascend from 0 to 1. Requires points >= 1.
struct GaussPoint {
  double place = 0, weight = 0;
};
std::vector<GaussPoint> gauss_rule(int points);

}  // namespace backfit

// SPDX-License-Identifier: MIT
#include "documents/fog_words.hpp"

#include <fmt/format.h>

namespace backfit {

std::string fog_time_text(Time time) {
  const double seconds = time / second;
  if (!(seconds < 1e15)) return "never";
  if (seconds < 1) return fmt::format("{:.2g} s", seconds);
  if (seconds < 90) return fmt::format("{:.0f} s", seconds);
  if (seconds < 90 * 60) return fmt::format("{:.0f} min", seconds / 60);
  if (seconds < 2 * 86400) return fmt::format("{:.1f} h", seconds / 3600);
  if (seconds < 2000 * 86400.0) return fmt::format("{:.0f} days", seconds / 86400);
  return fmt::format("{:.3g} years", seconds / (365.25 * 86400));
}

}  // namespace backfit

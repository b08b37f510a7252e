// SPDX-License-Identifier: MIT
#include "documents/json_numbers.hpp"

#include <fmt/format.h>

#include <cmath>
#include <string>

namespace backfit::json {

Json rounded(double value, int decimals) {
  if (!std::isfinite(value)) return nullptr;
  const double scale = std::pow(10, decimals);
  return std::round(value * scale) / scale + 0.0;
}

Json figures(double value, int count) {
  if (!std::isfinite(value)) return nullptr;
  return std::stod(fmt::format("{:.{}g}", value + 0.0, count));
}

Json mm_of(Length length) { return rounded(length / mm, 3); }
Json mm_of(const std::optional<Length>& length) { return length ? mm_of(*length) : Json(nullptr); }
Json stops_of(Stops stops) { return rounded(stops.value, 4); }
Json stops_of(const std::optional<Stops>& stops) {
  return stops ? stops_of(*stops) : Json(nullptr);
}
Json share_of(double share) { return rounded(share, 4); }

}  // namespace backfit::json

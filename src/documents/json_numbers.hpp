// SPDX-License-Identifier: MIT
// Numbers as the JSON answers write them: to the place that the studies can mean.
#pragma once
#include <nlohmann/json.hpp>
#include <optional>

#include "quantity/light.hpp"

namespace backfit::json {

using Json = nlohmann::ordered_json;

// Rounded to so many decimals, or figures; never "-0.0", and null for what is not finite.
Json rounded(double value, int decimals);
Json figures(double value, int count = 6);

Json mm_of(Length length);                         // mm, to the micrometre
Json mm_of(const std::optional<Length>& length);   // null where there is none
Json stops_of(Stops stops);                        // to 1e-4
Json stops_of(const std::optional<Stops>& stops);  // null where there is none
Json share_of(double share);                       // of one, to 1e-4

}  // namespace backfit::json

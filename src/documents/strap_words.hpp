// SPDX-License-Identifier: MIT
// What the papers say of the straps over a holder.
#pragma once
#include <optional>
#include <string>

#include "documents/set_words.hpp"

namespace backfit::paper {

// The straps as something to buy; empty without any.
std::optional<NeededItem> straps_item(const Assembly& assembly);

// How they are put on, tried and judged. Requires lugs on the plate.
std::string straps_step(const Assembly& assembly);

}  // namespace backfit::paper

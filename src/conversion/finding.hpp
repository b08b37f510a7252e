// SPDX-License-Identifier: MIT
// What a study found, in the words of a compiler: where it comes from, how sure, what to do.
#pragma once
#include <string>
#include <vector>

#include "files/diagnostic.hpp"

namespace backfit {

enum class Weight { blocker, warning, note };

struct Finding {
  std::string id;  // in words: "gate-shadows-frame"
  Weight weight = Weight::note;
  Place place;                        // the entry it comes from
  std::string text;                   // what was computed, with uncertainty
  std::string limit;                  // which measurement limits how sure it is; empty if none does
  std::vector<std::string> remedies;  // each with a number
};

// Words for a weight, and for a whole conversion.
std::string_view name_of(Weight weight);

enum class Verdict { fits, fits_with_work, does_not_fit, cannot_tell_yet };
std::string_view name_of(Verdict verdict);

// "file:line:column: warning: gate-shadows-frame: ..." with the guilty line and trailers.
std::string rendered(const Finding& finding);

}  // namespace backfit

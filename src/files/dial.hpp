// SPDX-License-Identifier: MIT
// A number of an owner's file that can be turned, and the text with that number turned.
#pragma once
#include <optional>
#include <string>

#include "files/reader.hpp"

namespace backfit {

// A value whose text holds one plain number: "9.0 mm ± 0.3", "f/9", but no fraction and no range.
struct Dial {
  std::string key;      // with its tables
  std::string meaning;  // of the key
  std::string unit;     // "mm", "f/"; as written
  Place number;         // the number alone
  double value = 0;     // in that unit, as are the next three
  double least = 0, most = 0, step = 0;
  int decimals = 0;
};

// The dial of `value`; empty for what isn't a quantity with one plain number. A step is the last
// decimal written, or half a stop's number; the range a quarter of the value to either side, at
// least twenty steps, of a stop a fourth to four times, in whole steps; never past the sign that
// the value may have.
std::optional<Dial> dial_of(const ReadValue& value);

// `dial`'s text with the number `value` in its place, rounded to the dial's decimals and kept
// within its range; every other byte stays.
std::string turned(const Dial& dial, double value);

}  // namespace backfit

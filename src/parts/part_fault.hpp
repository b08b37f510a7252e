// SPDX-License-Identifier: MIT
// What keeps a part from being made.
#pragma once
#include <string>

namespace backfit {

// What keeps a part from being made or used, and what would help.
struct PartFault {
  std::string id;  // in words: "insert-too-wide"
  std::string text, remedy;
};

}  // namespace backfit

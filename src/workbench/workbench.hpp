// SPDX-License-Identifier: MIT
// The local page in the owner's browser.
#pragma once
#include <cstdint>
#include <iosfwd>

#include "workbench/opening.hpp"

namespace backfit {

// Prints the page's address to `out` and serves it until interrupted. The exit status: 0, or 2 with
// messages to `err` when the file can't be opened. Port 0 is one that is free.
int open_workbench(const Opening& opening, std::uint16_t port, std::ostream& out,
                   std::ostream& err);

}  // namespace backfit

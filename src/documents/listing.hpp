// SPDX-License-Identifier: MIT
// Plain-text answers for the terminal.
#pragma once
#include <string>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "conversion/report.hpp"

namespace backfit {

// The verdict and the numbers that matter, one a line.
std::string summary(const Report& report);

// Tables of the catalogue; a "*" marks numbers from memory, to be measured before use.
std::string film_listing(const Catalogue& catalogue);
std::string lens_kind_listing(const Catalogue& catalogue);
std::string material_listing(const Catalogue& catalogue);

// Columns as wide as their widest cell, two spaces apart. Requires rows of the same length.
std::string columns(const std::vector<std::vector<std::string>>& rows);

}  // namespace backfit

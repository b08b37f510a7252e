// SPDX-License-Identifier: MIT
// Where an insert meets what stands in the chamber.
#pragma once
#include "conversion/insert_study.hpp"

namespace backfit {

// Cuts the notches that the chamber asks for into `insert`, and fills in the study's meetings and
// hole; what must come out joins the path's own list of it. Requires study.path.layout.
void meet_chamber(const Assembly& assembly, RollInsert& insert, InsertStudy& study);

}  // namespace backfit

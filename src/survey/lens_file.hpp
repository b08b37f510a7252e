// SPDX-License-Identifier: MIT
// A lens prescription as a file: surfaces in the order the light meets them.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "files/fields.hpp"

namespace backfit {

// One surface, and what lies behind it: a glass by name, or an index with or without an Abbe
// number; air when none is given.
struct LensFileSurface {
  Place place;
  std::optional<Stated<Length>> radius;     // left out: plane
  std::optional<Stated<Length>> thickness;  // to the next vertex; left out of the last
  std::optional<Stated<std::string>> glass, catalogue;
  std::optional<Stated<double>> index, abbe;
  std::optional<Stated<Length>> clear_radius;
  std::optional<Stated<bool>> stop;
};

// What the lens's source says of it: the proof that no figure was mistyped.
struct StatedLens {
  Place place;
  std::optional<Stated<Measured<Length>>> focal, back_focal;
  std::optional<Stated<Measured<double>>> angular_magnification;  // of an afocal attachment
};

struct LensFile {
  Stated<std::string> name, source;
  std::optional<Stated<std::string>> remark;
  std::optional<Stated<bool>> afocal;            // an attachment to set before a lens
  std::optional<Stated<Length>> entrance_pupil;  // diameter wide open, if stated
  std::optional<Stated<Angle>> half_field;       // if stated
  StatedLens stated;
  std::vector<LensFileSurface> surfaces;
  bool is_afocal() const { return afocal && afocal->value; }
};

void describe(Fields& fields, LensFileSurface& surface);
void describe(Fields& fields, StatedLens& stated);
void describe(Fields& fields, LensFile& lens);

}  // namespace backfit

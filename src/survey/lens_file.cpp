// SPDX-License-Identifier: MIT
#include "survey/lens_file.hpp"

namespace backfit {

void describe(Fields& f, LensFileSurface& s) {
  f.value("radius", s.radius,
          {"radius of curvature, positive when its centre lies behind; left out of a plane",
           "37.40 mm", Tool::none, Sign::any});
  f.value("thickness", s.thickness,
          {"along the axis to the next surface; left out of the last", "5.90 mm", Tool::none,
           Sign::not_negative});
  f.value("glass", s.glass,
          {"glass behind the surface, by its name in data/glasses.toml", "N-SK4"});
  f.value("catalogue", s.catalogue,
          {"catalogue of that glass, where a name stands in several", "2017"});
  f.value("index", s.index, {"its index at the d line, if the glass has no known name", "1.6127"});
  f.value("abbe", s.abbe, {"its Abbe number", "58.6"});
  f.value("clear_radius", s.clear_radius, {"half the clear diameter", "14.7 mm"});
  f.value("stop", s.stop, {"true for the surface that the diaphragm lies in", "true"});
}

void describe(Fields& f, StatedLens& s) {
  f.value("focal", s.focal, {"focal length that the source states", "101.18 mm ± 0.01"});
  f.value("back_focal", s.back_focal,
          {"last surface to focus that the source states", "77.41 mm ± 0.01"});
  f.value("angular_magnification", s.angular_magnification,
          {"of an afocal attachment", "1.9x ± 0.05"});
}

void describe(Fields& f, LensFile& l) {
  f.value("name", l.name, {"what the lens is", "triplet f/3.5"});
  f.value("source", l.source, {"where its figures come from", "US patent 2,453,260"});
  f.value("remark", l.remark, {"anything to remember"});
  f.value("afocal", l.afocal, {"true for an attachment that goes before a lens", "true"});
  f.value("entrance_pupil", l.entrance_pupil,
          {"diameter of the entrance pupil wide open", "29.2 mm"});
  f.value("half_field", l.half_field, {"half the field that it was made for", "20 deg"});
  f.record("stated", l.stated, {"What the source says of the lens: recomputed on reading"});
  f.records("surface", l.surfaces, {"A surface, in the order the light meets them"}, true);
}

}  // namespace backfit

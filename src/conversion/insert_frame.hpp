// SPDX-License-Identifier: MIT
// Where an insert's light ways run, in its own axes and in the camera's. For leak_insert.cpp.
#pragma once
#include <array>
#include <string>

#include "conversion/leak_insert.hpp"
#include "conversion/seam_sides.hpp"

namespace backfit {

// A direction of the insert's own axes.
struct InsertWay {
  double x = 0, y = 0, z = 0;
};
inline constexpr InsertWay along_light{0, 0, 1};

// Along x or y to one side: the body's ends are at +-x, its cheeks at +-y.
struct InsertSide {
  bool end = false;
  double sign = 1;
  InsertWay out() const { return end ? InsertWay{sign, 0, 0} : InsertWay{0, sign, 0}; }
  InsertWay in() const { return end ? InsertWay{-sign, 0, 0} : InsertWay{0, -sign, 0}; }
  // A place `far` to that side and `beside` along it.
  Point3 place(Length far, Length beside, Length z) const {
    return end ? Point3{sign * far, beside, z} : Point3{beside, sign * far, z};
  }
};
inline constexpr std::array<InsertSide, 4> insert_sides{
    {{true, 1}, {true, -1}, {false, 1}, {false, -1}}};

struct InsertFrame {
  const Assembly& assembly;
  const PathDesign& design;
  const Layout& layout;
  const RollInsert& part;
  const LeakInsert& how;
  // Of the camera, in the insert's axes: halves of chamber and old gate, and z of the front wall
  // beside the gate and of where the gate begins.
  Length chamber_x, chamber_y, gate_y, front_wall, throat;
  Length foot, touch;  // gaps

  InsertFrame(const Assembly& a, const InsertStudy& s, const LeakInsert& insert);

  // A place and a vector in the camera's axes.
  SpacePoint at(const Point3& p) const;
  SpacePoint turned(const InsertWay& way, Length size) const;
  // The side of the camera that a direction points to, seen from behind.
  std::string side_of(const InsertWay& way) const;
  const Wall& outside() const { return how.matt_all_over ? blackened : bare_print; }
  Length half_inside(const InsertSide& side) const {
    return side.end ? part.body.half_length : part.body.half_width;
  }
  Length half_outside(const InsertSide& side) const {
    return side.end ? part.half_length() : part.half_width();
  }
};

// Adds the seams, and what of them is taken as shut.
void add_seams(SeamScene& scene, const InsertFrame& frame);

}  // namespace backfit

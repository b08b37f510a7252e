// SPDX-License-Identifier: MIT
// Exact solid bodies: made from plain shapes, joined, cut, moved and measured.
#pragma once
#include <memory>
#include <stdexcept>
#include <vector>

#include "quantity/quantity.hpp"

class TopoDS_Shape;  // the geometry kernel's body, known inside this room only

namespace backfit {

// Nothing smaller is made, and surfaces nearer than this count as touching: the kernel loses gaps
// under 2e-7 mm, and no printer holds 0.01 mm.
inline constexpr Length smallest_detail = 0.01 * mm;
// Nothing larger is made.
inline constexpr Length largest_size = 10'000 * mm;

struct Point3 {
  Length x, y, z;
};

// An axis-aligned box around something.
struct Bounds {
  Point3 low, high;
};

// The kernel gave up on a shape that should be possible. It says nothing about the owner's input,
// which is checked before a body is built.
class SolidFailure : public std::runtime_error {
  using std::runtime_error::runtime_error;
};

// A body that never changes; copying shares it. All functions below throw SolidFailure when the
// kernel fails, and assert that lengths lie in [smallest_detail, largest_size] and coordinates
// within +-largest_size.
class Solid {
 public:
  // For the files of this room.
  explicit Solid(const TopoDS_Shape& kernel_shape);
  const TopoDS_Shape& kernel_shape() const { return *shape_; }

 private:
  std::shared_ptr<const TopoDS_Shape> shape_;
};

// The box between two opposite corners. Requires low < high in each coordinate.
Solid box(Point3 low, Point3 high);

// A rectangle centred on the z axis, width along x and height along y, its corners rounded,
// raised from z = low to z = high. Requires corner_radius 0 (sharp) or at least smallest_detail,
// and a straight piece of at least smallest_detail left on each side.
Solid rounded_prism(Length width, Length height, Length corner_radius, Length low, Length high);

// A wall of even thickness around the rectangle of rounded_prism: its outer corners have the radius
// inner_corner_radius + wall. Requires what rounded_prism does of the inner rectangle.
Solid rounded_ring(Length inner_width, Length inner_height, Length inner_corner_radius, Length wall,
                   Length low, Length high);

// A corner of an outline, rounded by the arc of `radius` that touches both its sides; 0 for a sharp
// one.
struct OutlineCorner {
  Length x, y;
  Length radius = {};
};

// The inside of the closed outline through `corners`, in either sense, raised from z = low to
// z = high. Requires three corners or more, no two sides that meet but at a corner, and arcs that
// leave a straight piece of at least smallest_detail on each side.
Solid prism(const std::vector<OutlineCorner>& corners, Length low, Length high);

// A cylinder about the z axis from z = low to z = high.
Solid cylinder(Length diameter, Length low, Length high);

// A cone frustum about the z axis with diameter_low at z = low and diameter_high at z = high.
// Requires diameters that differ by at least smallest_detail.
Solid frustum(Length diameter_low, Length low, Length diameter_high, Length high);

// Everything inside any of `bodies`. Faces in one plane stay apart. Requires at least one.
Solid union_of(const std::vector<Solid>& bodies);

// Everything inside `body` and in none of `cutters`; `body` itself when there are none.
Solid difference_of(const Solid& body, const std::vector<Solid>& cutters);

// Bodies that stay apart, as one to draw: where they meet, nothing is joined. Requires at least
// one.
Solid assembled(const std::vector<Solid>& bodies);

// The same body that shares nothing with `body`, as another thread needs it: the kernel may touch
// tolerances of what it only looks at.
Solid own_copy(const Solid& body);

// `body` moved by `by`.
Solid translated(const Solid& body, Point3 by);

// `body` turned by 180 degrees about the x axis: (x, y, z) to (x, -y, -z).
Solid half_turned_about_x(const Solid& body);

// `body` turned by 90 degrees about the x axis: (x, y, z) to (x, -z, y).
Solid quarter_turned_about_x(const Solid& body);

// `body` turned by 90 degrees about the y axis: (x, y, z) to (z, y, -x).
Solid quarter_turned_about_y(const Solid& body);

// `body` turned by 90 degrees about the z axis: (x, y, z) to (-y, x, z).
Solid quarter_turned_about_z(const Solid& body);

// Volume that lies in both bodies; 0 where they only touch.
Volume common_volume(const Solid& a, const Solid& b);

// The shortest way between two bodies; 0 where they touch or meet.
Length distance_between(const Solid& a, const Solid& b);

// Volume of the exact body, from its surfaces (not from a mesh).
Volume volume_of(const Solid& body);

// The smallest axis-aligned box around the exact body, to 1e-6 mm.
Bounds bounds_of(const Solid& body);

// Whether a body may be made as it is.
struct Soundness {
  bool valid = false;       // the kernel's own check
  int bodies = 0;           // separate lumps of material
  int cavities = 0;         // closed hollows inside them
  int bad_edges = 0;        // where other than two faces meet; four means lines that merely touch
  bool watertight = false;  // each edge of the mesh used once in each sense
  Volume volume;

  // One valid lump without hollows or bad edges, watertight, with material in it.
  bool sound() const {
    return valid && bodies == 1 && cavities == 0 && bad_edges == 0 && watertight &&
           volume > Volume{};
  }
};
Soundness soundness_of(const Solid& body);

}  // namespace backfit

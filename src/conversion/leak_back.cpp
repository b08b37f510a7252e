// SPDX-License-Identifier: MIT
#include "conversion/leak_back.hpp"

#include <algorithm>
#include <cassert>

namespace backfit {
namespace {

// Faces as light meets them. Common practice: matt black paint scatters 3 to 5 %, a smooth black
// print 4 to 6 % and mirrors as plastics do, felt about 1 %.
constexpr Wall bare_print{0.05, 1.5}, blackened{0.04, 1}, painted_metal{0.05, 1}, felt{0.01, 1};

constexpr Length beyond = 1 * mm;       // cutters reach past the faces they open
constexpr Length curves = 0.1 * mm;     // how near triangles follow round edges
constexpr Length body_wall = 2 * mm;    // of the front, where none was measured
constexpr Length holder_rim = 12 * mm;  // from the picture to the holder's far end, at least

// In camera axes, with all gaps.
struct Planes {
  Length seat, plate, holder, film;
};

Planes planes_of(const Assembly& a, const LeakBack& back) {
  std::vector<double> estimates;
  for (const Input& input : a.inputs.all.list()) estimates.push_back(input.value);
  const Draw at(estimates);
  const Length off = std::max(0.01 * mm, a.plan.printer->error->half_width);
  Planes p;
  p.seat = a.camera.seat->behind_film->value;
  p.plate = p.seat + back.seat_gap.value_or(off);
  p.holder = p.plate + a.plate->thickness +
             (back.felt_round_holder ? Length{} : back.holder_gap.value_or(off));
  p.film = p.holder + a.behind_plate(at);
  return p;
}

Solid block(Length width, Length height, Length low, Length high, PlatePoint centre = {}) {
  return box({centre.x - width / 2, centre.y - height / 2, low},
             {centre.x + width / 2, centre.y + height / 2, high});
}

// The camera: a block as large as the seat, hollow from the seat through the old gate to the
// shutter, with the groove in its face.
Solid body_of(const Assembly& a, const Planes& z, const LeakBack& back) {
  const Seat& seat = *a.camera.seat;
  const SeatGroove& groove = seat.groove;
  const Gate& gate = a.camera.gate;
  const Length front = -a.pupil_distance().value;
  const Length gate_z = -gate.before_film->value;
  std::vector<Solid> hollows;
  // The room behind the gate, within the groove.
  const Length widest = groove.inner_width->value - 2 * body_wall;
  const Length highest = groove.inner_height->value - 2 * body_wall;
  Length width = widest, height = highest, floor = gate_z;
  if (a.camera.chamber) {
    width = std::min(width, a.camera.chamber->width->value);
    height = std::min(height, a.camera.chamber->height->value);
    floor = std::min(floor, -a.camera.chamber->before_film->value);
  }
  if (z.seat - floor > smallest_detail) {
    hollows.push_back(block(width, height, floor, z.seat + beyond));
  }
  // Through the gate into the bellows.
  const Length gate_width = std::min(gate.width->value, width);
  const Length gate_height = std::min(gate.height->value, height);
  const Length throat = std::min(gate_z, floor) - body_wall;
  hollows.push_back(block(gate_width, gate_height, throat - beyond, z.seat + beyond));
  hollows.push_back(block(width, height, front, throat));
  hollows.push_back(rounded_ring(
      groove.inner_width->value, groove.inner_height->value,
      groove.inner_corner_radius ? groove.inner_corner_radius->value.value : Length{},
      groove.width->value, z.seat - groove.depth->value - back.deeper, z.seat + beyond));
  const Solid outside = rounded_prism(seat.width->value, seat.height->value,
                                      seat.corner_radius->value, front - body_wall, z.seat);
  return difference_of(outside, hollows);
}

Solid plate_of(const Assembly& a, const Planes& z, const LeakBack& back) {
  BackPlate plate = *a.plate;
  plate.screws.places.clear();  // their screws fill them
  plate.fence.places.clear();
  plate.tongue.depth += back.deeper;
  Solid body = translated(solid_of(plate), {{}, {}, z.plate});
  if (!back.lip) return body;
  const Length gap = a.plan.printer->clearance->value;
  const Seat& seat = *a.camera.seat;
  const Length inner_width = seat.width->value + 2 * gap;
  const Length inner_height = seat.height->value + 2 * gap;
  const Length radius = seat.corner_radius->value + gap;
  const Length wall = 2 * mm;
  const Length rear = z.plate + plate.thickness;
  return union_of(
      {body, rounded_ring(inner_width, inner_height, radius, wall, z.seat - 3 * mm, rear),
       difference_of(
           rounded_prism(inner_width + wall, inner_height + wall, radius + wall / 2,
                         z.plate + 0.2 * mm, rear - 0.2 * mm),
           {block(plate.width - 4 * mm, plate.height - 4 * mm, z.plate - beyond, rear + beyond)})});
}

struct HolderBox {
  Point3 low, high;
};

HolderBox holder_box(const Assembly& a, const Planes& z) {
  const BackPlate::RibGroove& rib = a.plate->rib_groove;
  const bool upright = rib.size_x > rib.size_y;
  const Length clearance = a.plan.printer->clearance->value;
  const Length across = (upright ? rib.size_x : rib.size_y) / 2 - clearance;
  const Length along = (upright ? rib.centre.y : rib.centre.x);
  const Length picture = (upright ? a.window.height : a.window.width) / 2;
  const Length far_end = -(picture + holder_rim), rib_end = along + 5 * mm;
  const Length thick =
      a.holder->outer_thickness ? a.holder->outer_thickness->value->value : 3 * (z.film - z.holder);
  return upright ? HolderBox{{-across, far_end, z.holder}, {across, rib_end, z.holder + thick}}
                 : HolderBox{{far_end, -across, z.holder}, {rib_end, across, z.holder + thick}};
}

Solid holder_of(const Assembly& a, const Planes& z, const LeakBack& back) {
  const HolderBox at = holder_box(a, z);
  const BackPlate::RibGroove& rib = a.plate->rib_groove;
  const Length clearance = a.plan.printer->clearance->value;
  // The film lies a little before the septum, so that the floor isn't in its plane.
  std::vector<Solid> hollows{
      block(a.window.width, a.window.height, z.holder - beyond, z.film + 0.2 * mm)};
  if (back.slide_gap) {
    // The dark slide comes out at the end away from the rib, a third of the way to the film.
    const Length low = z.holder + (z.film - z.holder) / 3, high = low + *back.slide_gap;
    const bool upright = rib.size_x > rib.size_y;
    const Length w = a.window.width, h = a.window.height;
    hollows.push_back(upright
                          ? box({-w / 2, at.low.y - beyond, low}, {w / 2, -h / 2 + beyond, high})
                          : box({at.low.x - beyond, -h / 2, low}, {-w / 2 + beyond, h / 2, high}));
  }
  const Solid rib_body = block(rib.size_x - 2 * clearance, rib.size_y - 2 * clearance,
                               z.holder - (rib.depth - clearance), z.holder + beyond, rib.centre);
  return difference_of(union_of({box(at.low, at.high), rib_body}), hollows);
}

// One body's surface as that of two that touch in a plane: what lies before it, and what behind.
std::pair<Mesh, Mesh> parted(const Mesh& whole, Length plane) {
  std::pair<Mesh, Mesh> parts{{whole.points_mm, {}}, {whole.points_mm, {}}};
  for (const auto& t : whole.triangles) {
    const bool behind = std::ranges::any_of(t, [&](std::uint32_t corner) {
      return double{whole.points_mm[corner][2]} * mm > plane + 0.001 * mm;
    });
    (behind ? parts.second : parts.first).triangles.push_back(t);
  }
  return parts;
}

LeakPart part(std::string name, const Solid& body, std::vector<Wall> finishes) {
  return {std::move(name), mesh_of(body, curves), std::move(finishes)};
}

// Gives the second finish to the triangles whose middle `wanted` wants.
template <class Wanted>
void finish(LeakPart& part, const Wanted& wanted) {
  part.finish_of.assign(part.mesh.triangles.size(), 0);
  for (std::size_t t = 0; t < part.finish_of.size(); ++t) {
    double x = 0, y = 0, z = 0;
    for (const std::uint32_t corner : part.mesh.triangles[t]) {
      const auto& p = part.mesh.points_mm[corner];
      x += double{p[0]} / 3;
      y += double{p[1]} / 3;
      z += double{p[2]} / 3;
    }
    if (wanted(x * mm, y * mm, z * mm)) part.finish_of[t] = 1;
  }
}

}  // namespace

std::optional<std::string> leak_refusal(const Assembly& a) {
  if (a.method() != Method::back_on_seat) {
    return "only a back on the seat can be put together as bodies yet; for another part that you "
           "drew, give its mesh with --mesh";
  }
  if (!a.plate) return "the plate's numbers are not all known: see backfit check";
  return {};
}

LeakScene leak_scene(const Assembly& a, const LeakBack& back, std::size_t columns,
                     std::size_t rows) {
  assert(!leak_refusal(a));
  const Planes z = planes_of(a, back);
  LeakScene scene;
  scene.parts.push_back(part("camera", body_of(a, z, back), {painted_metal, felt}));
  const std::vector<Wall> print{back.matt_all_over ? blackened : bare_print,
                                back.felt_in_groove ? felt : blackened};
  const Solid plate = plate_of(a, z, back), holder = holder_of(a, z, back);
  if (back.felt_round_holder) {
    const auto [front, rear] = parted(mesh_of(union_of({plate, holder}), curves), z.holder);
    scene.parts.push_back({"plate", front, print});
    scene.parts.push_back({"holder", rear, {painted_metal, felt}});
  } else {
    scene.parts.push_back(part("plate", plate, print));
    scene.parts.push_back(part("holder", holder, {painted_metal, felt}));
  }
  const SeatGroove& groove = a.camera.seat->groove;
  const Length half_width = groove.inner_width->value / 2,
               half_height = groove.inner_height->value / 2;
  const auto within = [&](Length x, Length y, Length margin) {
    return abs(x) < half_width + margin && abs(y) < half_height + margin;
  };
  const Length outer = groove.width->value;
  if (back.felt_in_groove) {
    finish(scene.parts[0], [&](Length x, Length y, Length at) {
      return at < z.seat - 0.01 * mm && at > z.seat - groove.depth->value - back.deeper - beyond &&
             !within(x, y, -0.01 * mm) && within(x, y, outer + 0.01 * mm);
    });
  }
  // The plate's tongue, and what it encloses of the front and of the window's edges.
  finish(scene.parts[1], [&](Length x, Length y, Length at) {
    const bool window = within(x, y, Length{}) && at > z.plate + 0.01 * mm &&
                        at < z.plate + a.plate->thickness - 0.01 * mm;
    return window || (at < z.plate + 0.01 * mm && within(x, y, outer));
  });
  if (back.slide_gap) {
    finish(scene.parts[2], [&](Length x, Length y, Length at) {
      const Length low = z.holder + (z.film - z.holder) / 3;
      const bool beside =
          abs(x) > a.window.width / 2 + 0.01 * mm || abs(y) > a.window.height / 2 + 0.01 * mm;
      return beside && at > low - 0.01 * mm && at < low + *back.slide_gap + 0.01 * mm;
    });
  }
  const Length w = a.window.width, h = a.window.height;
  scene.film = {{-w / 2, h / 2, z.film}, {w, {}, {}}, {{}, -h, {}}, columns, rows};
  scene.seam_names = {{{"camera", "plate"}, "seat seam"},
                      {{"plate", "holder"}, "holder seam"},
                      {{"holder", "holder"}, "dark slide's slot"},
                      {{"plate", "plate"}, "plate's window"},
                      {{"camera", "camera"}, "camera's hollow"}};
  return scene;
}

std::vector<LeakRemedy> leak_remedies(const Assembly& a, const LeakBack& back, std::size_t columns,
                                      std::size_t rows) {
  std::vector<LeakRemedy> remedies;
  const auto add = [&](std::string what, const LeakBack& changed) {
    remedies.push_back({std::move(what), [&a, changed, columns, rows] {
                          return leak_scene(a, changed, columns, rows);
                        }});
  };
  const auto with = [&](auto change) {
    LeakBack changed = back;
    change(changed);
    return changed;
  };
  if (!back.felt_round_holder) {
    add("felt along the holder's edges", with([](LeakBack& b) { b.felt_round_holder = true; }));
  }
  if (!back.felt_in_groove) {
    add("the groove lined with felt", with([](LeakBack& b) { b.felt_in_groove = true; }));
  }
  if (!back.matt_all_over) {
    add("matt black all over the plate", with([](LeakBack& b) { b.matt_all_over = true; }));
  }
  add("groove and tongue 1 mm deeper", with([](LeakBack& b) { b.deeper += 1 * mm; }));
  if (!back.lip) {
    add("one more bend: a lip over the seat's edge", with([](LeakBack& b) { b.lip = true; }));
  }
  return remedies;
}

}  // namespace backfit

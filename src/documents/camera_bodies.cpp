// SPDX-License-Identifier: MIT
#include "documents/camera_bodies.hpp"

#include <algorithm>

#include "conversion/lens_spacer_design.hpp"

namespace backfit {
namespace {

constexpr Length shell = 1 * mm;
constexpr Length overshoot = 1 * mm;
constexpr Length lip = 0.5 * mm;            // inside the seat's groove
constexpr Length before_the_seat = 5 * mm;  // of what stands beside it

const char* name_of_wall(CameraWall wall) {
  switch (wall) {
    case CameraWall::left:
      return "left wall";
    case CameraWall::right:
      return "right wall";
    case CameraWall::top:
      return "upper wall";
    case CameraWall::bottom:
      break;
  }
  return "lower wall";
}

// A rectangular frame about the axis, its opening so wide and high.
Solid frame(Length width, Length height, Length rim, Length low, Length high) {
  return difference_of(rounded_prism(width + 2 * rim, height + 2 * rim, Length{}, low, high),
                       {rounded_prism(width, height, Length{}, low - overshoot, high + overshoot)});
}

class Bodies {
 public:
  explicit Bodies(const Report& report) : r_(report), a_(report.assembly), c_(a_.camera) {}

  std::vector<Surrounding> of(Around room) && {
    switch (room) {
      case Around::none:
        break;
      case Around::gate:
        add_gate();
        break;
      case Around::seat:
        if (c_.seat) add_seat(*c_.seat), add_neighbours(*c_.seat);
        break;
      case Around::back_plate:
        if (a_.plate) {
          add("back plate", translated(solid_of(*a_.plate), {{}, {}, seat_z()}));
          add_neighbours(*c_.seat);
        }
        break;
      case Around::chamber:
        add_gate();
        if (c_.chamber) add_chamber(*c_.chamber);
        break;
      case Around::pack:
        if (c_.pack) add_pack(*c_.pack);
        break;
      case Around::lens_board:
        add_lens_board();
        break;
    }
    return std::move(list_);
  }

 private:
  void add(std::string name, const Solid& body) { list_.push_back({std::move(name), body}); }
  Length seat_z() const { return c_.seat->behind_film->value; }

  void add_gate() {
    const Length z = -c_.gate.before_film->value;
    add("old gate", frame(c_.gate.width->value, c_.gate.height->value, shell, z - shell, z));
  }

  void add_seat(const Seat& s) {
    const SeatGroove& g = s.groove;
    const Length z = seat_z(), floor = z - g.depth->value;
    const Length radius = g.inner_corner_radius ? (*g.inner_corner_radius)->value : Length{};
    const Length inside = radius - lip >= smallest_detail ? radius - lip : Length{};
    add("seat", difference_of(
                    rounded_prism(s.width->value, s.height->value, s.corner_radius->value,
                                  floor - shell, z),
                    {rounded_prism(g.inner_width->value - 2 * lip, g.inner_height->value - 2 * lip,
                                   inside, floor - shell - overshoot, z + overshoot),
                     rounded_ring(g.inner_width->value, g.inner_height->value, radius,
                                  g.width->value, floor, z + overshoot)}));
  }

  void add_neighbours(const Seat& s) {
    for (const Neighbour& n : s.neighbours) {
      if (n.behind_seat->value <= -before_the_seat) continue;
      const Length x = n.width->value / 2, y = n.height->value / 2;
      add(*n.name, box({n.x->value - x, n.y->value - y, seat_z() - before_the_seat},
                       {n.x->value + x, n.y->value + y, seat_z() + n.behind_seat->value}));
    }
  }

  // Four walls around a room about the axis, from `low` to `high` along the light, `cutters` out
  // of them; and the back that closes it at `high`.
  void add_walls(Length width, Length height, Length low, Length high,
                 const std::vector<Solid>& cutters) {
    const Length x = width / 2, y = height / 2;
    const auto wall = [&](CameraWall which, Point3 from, Point3 to) {
      add(name_of_wall(which), difference_of(box(from, to), cutters));
    };
    wall(CameraWall::left, {-x - shell, -y, low}, {-x, y, high});
    wall(CameraWall::right, {x, -y, low}, {x + shell, y, high});
    wall(CameraWall::bottom, {-x, -y - shell, low}, {x, -y, high});
    wall(CameraWall::top, {-x, y, low}, {x, y + shell, high});
    add(closed_back, box({-x, -y, high}, {x, y, high + shell}));
  }

  void add_chamber(const Chamber& chamber) {
    std::vector<Solid> cutters;
    if (r_.insert && r_.insert->hole) {
      const KnobHole& hole = *r_.insert->hole;
      const Solid along = cylinder(hole.diameter, -2 * shell, 2 * shell);
      const bool sideways = hole.wall == CameraWall::left || hole.wall == CameraWall::right;
      cutters.push_back(translated(
          sideways ? quarter_turned_about_y(along) : quarter_turned_about_x(along), hole.middle));
    }
    add_walls(chamber.width->value, chamber.height->value, -chamber.before_film->value,
              chamber.behind_film->value, cutters);
    for (const ChamberPart& p : chamber.parts) {
      if (comes_out(*p.name)) continue;
      const Length x = p.width->value / 2, y = p.height->value / 2, z = p.behind_film->value;
      add(*p.name, box({p.x->value - x, p.y->value - y, z},
                       {p.x->value + x, p.y->value + y, z + p.depth->value}));
    }
  }

  bool comes_out(const std::string& name) const {
    if (!r_.insert) return false;
    const auto& cut = r_.insert->path.cut_away;
    return std::ranges::find(cut, name) != cut.end() ||
           std::ranges::any_of(r_.insert->meetings, [&](const ChamberMeeting& m) {
             return m.name == name && m.taken_out;
           });
  }

  void add_pack(const PackRoom& pack) {
    const Length x = pack.width->value / 2, y = pack.height->value / 2;
    const Length front = -pack.before_film->value;
    std::vector<Solid> cutters;
    if (pack.slit) {
      const TabSlit& slit = *pack.slit;
      const Length half = slit.length->value / 2, z = slit.behind_film->value;
      const Length up = slit.height->value / 2, out = 2 * shell;
      switch (*slit.wall) {
        case CameraWall::left:
          cutters.push_back(box({-x - out, -half, z - up}, {-x + shell, half, z + up}));
          break;
        case CameraWall::right:
          cutters.push_back(box({x - shell, -half, z - up}, {x + out, half, z + up}));
          break;
        case CameraWall::bottom:
          cutters.push_back(box({-half, -y - out, z - up}, {half, -y + shell, z + up}));
          break;
        case CameraWall::top:
          cutters.push_back(box({-half, y - shell, z - up}, {half, y + out, z + up}));
          break;
      }
    }
    add_walls(2 * x, 2 * y, front, front + pack.depth->value, cutters);
  }

  void add_lens_board() {
    const auto spacer = lens_spacer(r_);
    if (!spacer || !c_.lens_board) return;
    const Length stands = -c_.lens_board->before_film->value;
    const Solid layer = layer_of(*spacer, shell);
    add("lens standard", translated(layer, {{}, {}, stands}));
    add("lens board", translated(layer, {{}, {}, spacer->front - shell}));
  }

  const Report& r_;
  const Assembly& a_;
  const Camera& c_;
  std::vector<Surrounding> list_;
};

}  // namespace

std::vector<Surrounding> bodies_of(const Report& report, Around room) {
  return Bodies(report).of(room);
}

Place place_of(const Report& report, const std::string& name) {
  const Camera& c = report.assembly.camera;
  if (name == "back plate") return report.assembly.plan.back->place;
  if (name == "old gate") return c.gate.place;
  if (name.starts_with("lens ") && c.lens_board) return c.lens_board->place;
  if (c.seat) {
    for (const Neighbour& n : c.seat->neighbours) {
      if (*n.name == name) return n.place;
    }
  }
  const bool in_pack = report.assembly.method() == Method::pack_holder;
  if (in_pack && c.pack) return name == closed_back ? c.pack->depth.place : c.pack->place;
  if (c.chamber) {
    for (const ChamberPart& p : c.chamber->parts) {
      if (*p.name == name) return p.place;
    }
    if (name == closed_back) return c.chamber->behind_film.place;
    if (name.ends_with(" wall")) return c.chamber->place;
  }
  return c.seat ? c.seat->place : c.gate.place;
}

}  // namespace backfit

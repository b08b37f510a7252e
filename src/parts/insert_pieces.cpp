// SPDX-License-Identifier: MIT
// All pieces of the insert as they are printed, with the sizes to check them by.
#include <algorithm>
#include <cassert>

#include "parts/insert_shapes.hpp"
#include "parts/printing.hpp"
#include "parts/roll_insert.hpp"

namespace backfit {
namespace {

// A piece on its low or its high side; `made` and its place on the bed differ by `shift`.
struct Laid {
  Piece piece;
  double sense;
  Point3 shift;

  Laid(const char* name, std::vector<Solid> in_place, const Solid& upright, double up,
       const char* lies)
      : piece{name, std::move(in_place), laid(upright, side(up)), laid(upright, side(up)), lies},
        sense(up) {
    const Bounds b = bounds_of(upright);
    const Length y = (b.low.y + b.high.y) / 2;
    shift = {-(b.low.x + b.high.x) / 2, up > 0 ? -y : y, up > 0 ? -b.low.z : b.high.z};
  }
  static BedSide side(double up) { return up > 0 ? BedSide::low_z : BedSide::high_z; }

  Point3 on_bed(const Point3& p) const {
    return {p.x + shift.x, sense * p.y + shift.y, sense * p.z + shift.z};
  }
  // A size between two places in the piece's own axes.
  void add(const char* what, PieceView view, const Point3& from, const Point3& to,
           std::optional<Length> within = {}, bool round = false) {
    const Point3 a = on_bed(from), b = on_bed(to);
    const Length x = abs(b.x - a.x), y = abs(b.y - a.y), z = abs(b.z - a.z);
    const Length across = view == PieceView::right ? z : x;
    const Length up = view == PieceView::front ? z : y;
    piece.sizes.push_back(
        {what, std::max(across, up), within, PieceSize::Shown{view, a, b}, round});
  }
  void add(const char* what, Length value) { piece.sizes.push_back({what, value}); }
};

// Of something turned about z: its diameter at the height z.
void add_round(Laid& part, const char* what, Length diameter, Length z) {
  part.add(what, PieceView::front, {-diameter / 2, {}, z}, {diameter / 2, {}, z}, {}, true);
}

Laid body_of(const RollInsert& i) {
  const Solid solid = insert_body(i);
  Laid body("body", {solid}, solid, 1, "gate down");
  body.piece.hidden_lines = false;
  const RollInsert::Gate& g = i.gate;
  const RollInsert::Spools& s = i.spools;
  using enum PieceView;
  const auto symmetric = [&](const char* what, Length half_x, Length half_y, Length z) {
    body.add(what, half_y > Length{} ? above : front, {-half_x, -half_y, z}, {half_x, half_y, z});
  };
  body.add("picture, along the film", above, {-g.frame_length / 2, {}, {}},
           {g.frame_length / 2, {}, {}});
  symmetric("picture, across the film", {}, g.frame_width / 2, {});
  body.add("spools, apart", above, {s.supply.x, i.half_width(), {}},
           {s.take_up.x, i.half_width(), {}});
  symmetric("between the cheeks", {}, i.body.half_width, {});
  symmetric("over the cheeks", {}, i.half_width(), {});
  body.add("over the end walls", above, {-i.half_length(), {}, {}}, {i.half_length(), {}, {}});
  body.add("floor in the old gate, along the film", front, {-g.spigot_half_length, {}, g.front},
           {g.spigot_half_length, {}, g.front});
  body.add("floor in the old gate, across the film", above,
           {-i.half_length(), -g.spigot_half_width, g.front},
           {-i.half_length(), g.spigot_half_width, g.front});
  body.add("rails, along the film", front, {g.rails_low, {}, g.front}, {g.rails_high, {}, g.front});
  body.add("from the floor's front to the rails (the film plane)", front,
           {i.half_length(), {}, g.front}, {i.half_length(), {}, {}});
  body.add("film plane to the lid", front, {i.half_length(), {}, {}},
           {i.half_length(), {}, i.body.back});
  body.add("rails to the pressure plate's seat", g.seat);
  body.add("bores of the cheeks, ⌀", s.journal + 2 * i.gap);
  body.add("groove for the lid's lip, width", i.trap.lip + 2 * i.gap);
  body.add("groove for the lid's lip, depth", i.trap.depth + i.gap);
  return body;
}

Laid lid_of(const RollInsert& i) {
  const Solid solid = insert_lid(i);
  Laid lid("lid", {solid}, solid, -1, "outside down");
  lid.piece.on_bed = laid(with_words(i, solid), BedSide::high_z);
  lid.piece.hidden_lines = false;
  const Length middle = i.rim() / 2, half = i.trap.lip / 2;
  const Length x = i.half_length() - middle + half, y = i.half_width() - middle + half;
  const Length low = i.body.back - i.trap.depth;
  lid.add("over the lip, along the film", PieceView::above, {-x, {}, low}, {x, {}, low});
  lid.add("over the lip, across the film", PieceView::above, {{}, -y, low}, {{}, y, low});
  lid.add("lip, depth", PieceView::front, {i.half_length(), {}, i.body.back},
          {i.half_length(), {}, low});
  lid.add("plate, thickness", PieceView::front, {i.half_length(), {}, i.lid_top()},
          {i.half_length(), {}, i.body.back});
  lid.add("lip, thickness", i.trap.lip);
  return lid;
}

Laid plate_of(const RollInsert& i) {
  const Solid solid = pressure_plate(i);
  Laid plate("pressure plate", {solid}, solid, 1, "film side down");
  plate.add("along the film", 2 * i.plate.half_length);
  plate.add("thickness", i.plate.thickness);
  plate.add("over its ears", 2 * (i.body.half_width + i.ear_groove() - i.gap));
  return plate;
}

Laid pin_of(const RollInsert& i) {
  const RollInsert::Spools& s = i.spools;
  const double side = i.knob.side;
  const Length end = spool_end(i);
  const Solid solid = spool_pin(i);
  Laid pin("spool pin",
           {laid_across(solid, s.supply, end, 1), laid_across(solid, s.supply, -end, -1),
            laid_across(solid, s.take_up, -side * end, -side)},
           solid, -1, "head down");
  const Length step = s.play + i.body.cheek - s.collar_depth;
  add_round(pin, "stub, ⌀", s.end_hole - 2 * i.gap, -s.stub);
  add_round(pin, "journal, ⌀", s.journal, (s.play + step) / 2);
  add_round(pin, "collar, ⌀", s.collar, step);
  pin.add("stub beyond the journal", PieceView::front, {s.journal / 2, {}, -s.stub},
          {s.journal / 2, {}, s.play});
  pin.add("stub and journal", PieceView::front, {s.collar / 2, {}, -s.stub},
          {s.collar / 2, {}, step});
  return pin;
}

Laid shaft_of(const RollInsert& i) {
  const RollInsert::Spools& s = i.spools;
  const double side = i.knob.side;
  const Solid solid = drive_shaft(i);
  Laid shaft("drive shaft", {laid_across(solid, s.take_up, side * spool_end(i), side)}, solid, -1,
             "slotted end down");
  const Length step = s.play + i.body.cheek - s.collar_depth;
  shaft.add("key, length", PieceView::above, {-s.slot_length / 2 + i.gap, {}, -s.stub},
            {s.slot_length / 2 - i.gap, {}, -s.stub});
  shaft.add("key, width", s.slot_width - 2 * i.gap);
  add_round(shaft, "journal, ⌀", s.journal, (s.play + step) / 2);
  add_round(shaft, "collar, ⌀", s.collar, step);
  const Bounds b = bounds_of(solid);
  add_round(shaft, "tail, ⌀", i.knob.tail, b.high.z);
  shaft.add("key and journal", PieceView::front, {s.collar / 2, {}, -s.stub},
            {s.collar / 2, {}, step});
  return shaft;
}

Laid knob_of(const RollInsert& i) {
  const double side = i.knob.side;
  const Solid solid = winding_knob(i);
  Laid knob("knob", {laid_across(solid, i.spools.take_up, side * camera_outside(i), side)}, solid,
            -1, "face down");
  const RollInsert::Knob& k = i.knob;
  add_round(knob, "stem, ⌀", k.tail, bounds_of(solid).low.z);
  knob.add("grip, height", PieceView::front, {k.diameter / 2, {}, k.felt},
           {k.diameter / 2, {}, k.felt + k.height});
  knob.add("screw's hole, ⌀", k.screw + 2 * i.gap);
  return knob;
}

// Rollers alike are one piece.
std::vector<Laid> rollers_of(const RollInsert& i) {
  const auto alike = [](const RollInsert::Roller& a, const RollInsert::Roller& b) {
    return abs(a.radius - b.radius) < smallest_detail && abs(a.hub - b.hub) < smallest_detail;
  };
  std::vector<RollInsert::Roller> kinds;
  for (const RollInsert::Roller& r : i.rollers) {
    if (std::ranges::none_of(kinds, [&](const auto& k) { return alike(k, r); })) kinds.push_back(r);
  }
  std::vector<Laid> pieces;
  for (std::size_t k = 0; k < kinds.size(); ++k) {
    const Solid solid = film_roller(i, kinds[k]);
    std::vector<Solid> in_place;
    for (const RollInsert::Roller& r : i.rollers) {
      if (alike(kinds[k], r)) in_place.push_back(laid_across(solid, r.centre, {}, 1));
    }
    const std::string name = kinds.size() > 1 ? "roller " + std::to_string(k + 1) : "roller";
    Laid roller(name.c_str(), std::move(in_place), solid, 1, "standing, cone down");
    add_round(roller, "under the film, ⌀", 2 * kinds[k].radius, {});
    roller.add("bore, ⌀", i.rod + 2 * i.gap);
    pieces.push_back(std::move(roller));
  }
  return pieces;
}

}  // namespace

std::vector<Piece> pieces_of(const RollInsert& i) {
  assert(faults(i).empty());
  std::vector<Piece> pieces;
  for (Laid part : {body_of(i), lid_of(i), plate_of(i), pin_of(i), shaft_of(i), knob_of(i)}) {
    pieces.push_back(std::move(part.piece));
  }
  for (Laid& roller : rollers_of(i)) pieces.push_back(std::move(roller.piece));
  return pieces;
}

}  // namespace backfit

// SPDX-License-Identifier: MIT
#include "conversion/leak_insert.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <utility>

#include "conversion/insert_frame.hpp"
#include "conversion/seam_remedies.hpp"
#include "solid/lettering.hpp"

namespace backfit {
namespace {

// Walls' numbers in the hollow.
enum : std::uint32_t { of_camera, of_insert };

class Insert : InsertFrame {
 public:
  using InsertFrame::InsertFrame;

  SeamScene scene(std::size_t columns, std::size_t rows) const {
    SeamScene s;
    s.parts = {"camera", "insert's body", "lid", "pins and knob"};
    s.shelter = "the camera's closed back";
    add_front(s, columns, rows);
    add_room(s);
    add_film(s);
    add_seams(s, *this);
    if (!how.foil) add_walls(s);
    Diagnostics read_before;  // with the plan
    s.readings = wall_readings(*assembly.plan.printer, read_before);
    s.steps = steps_to_read(*assembly.plan.printer);
    s.not_counted.emplace_back(
        "the gate's ends, from the room of the spools: less than on the film there");
    s.not_counted.emplace_back(
        "the edges of wound film: under flanges, and under paper that is wider; wind it tight");
    if (!part.rollers.empty()) s.not_counted.emplace_back("the rods' holes: sealant shuts them");
    if (assembly.plan.window_cover) {
      s.not_counted.emplace_back("the red window's cover: part of the camera's closed back");
    }
    for (const RollInsert::Notch& n : part.notches) {
      s.not_counted.push_back("the notch for the " + n.name + ": felt shuts it");
    }
    return s;
  }

 private:
  // Lens, old gate and the floor's window, closed behind by the film.
  void add_front(SeamScene& s, std::size_t columns, std::size_t lines) const {
    const Length w = assembly.window.width, h = assembly.window.height, z = design.set_back;
    const Chamber& c = *assembly.camera.chamber;
    std::vector<HollowRoom> rooms{
        {c.width->value, c.height->value, -assembly.pupil_distance().value, throat + z, of_camera}};
    if (auto spacer = leak_spacer(assembly)) {
      const SpacerStack stack(std::move(*spacer), rooms.front(), how.spacer);
      rooms = stack.rooms();
      stack.add(s);
    }
    rooms.push_back({w, h, throat + z, z + behind_film, of_insert});
    s.hollow = hollow_of(rooms, {painted_metal, blackened});
    s.film = {{-w / 2, h / 2, z}, {w, {}, {}}, {{}, -h, {}}, columns, lines};
  }

  // Of the body inside, from the camera's front wall to the lid; the block of floor, film and plate
  // stands across it.
  Length block_top() const { return part.gate.seat + part.plate.thickness; }
  std::pair<Length, Length> block() const {
    return {std::min(part.gate.rails_low, -part.plate.half_length),
            std::max(part.gate.rails_high, part.plate.half_length)};
  }
  void add_room(SeamScene& s) const {
    const Length x = part.body.half_length, y = part.body.half_width;
    const Length low = front_wall, high = part.body.back + touch;
    const auto [from, to] = block();
    const auto face = [&](const std::array<SpacePoint, 4>& corners, std::uint32_t stuff) {
      add_face(s.hollow, corners, stuff);
    };
    for (const double side : {-1.0, 1.0}) {
      const Length u = side * x, v = side * y;
      face({at({u, -y, low}), at({u, y, low}), at({u, y, high}), at({u, -y, high})}, of_insert);
      face({at({-x, v, low}), at({x, v, low}), at({x, v, high}), at({-x, v, high})}, of_insert);
      const Length end = side < 0 ? from : to;
      face({at({end, -y, low}), at({end, y, low}), at({end, y, block_top()}),
            at({end, -y, block_top()})},
           of_insert);
      // The camera's wall before it; in the middle stands the floor.
      face({at({u, -y, low}), at({end, -y, low}), at({end, y, low}), at({u, y, low})}, of_camera);
    }
    face({at({-x, -y, high}), at({x, -y, high}), at({x, y, high}), at({-x, y, high})}, of_insert);
    face({at({from, -y, block_top()}), at({to, -y, block_top()}), at({to, y, block_top()}),
          at({from, y, block_top()})},
         of_insert);
  }

  // What of the half wound film lies beside the gate's block, as two pieces.
  void add_film(SeamScene& s) const {
    const StripPath path = film_of(design.problem, layout, 0.5);
    const Length half = part.spools.film_width / 2;
    const auto [from, to] = block();
    s.pieces = {{"film from the supply spool to the gate", {}},
                {"film from the gate to the take-up spool", {}}};
    const auto add = [&](std::uint32_t piece, SectionPoint a, SectionPoint b) {
      const Length size = distance(a, b);
      if (size < smallest_detail) return;
      // In the gate the film runs to +x and its emulsion looks to -z. x, z, y are left-handed.
      add_face(s.hollow,
               {at({a.x, -half, a.z}), at({a.x, half, a.z}), at({b.x, half, b.z}),
                at({b.x, -half, b.z})},
               of_insert, piece);
      s.pieces[piece - 1].area += 2 * half * size;
    };
    for (std::size_t k = 0; k < path.strands.size(); ++k) {
      const Strand& strand = path.strands[k];
      if (k != layout.gate) {
        add(k < layout.gate ? 1 : 2, strand.from, strand.to);
        continue;
      }
      if (strand.from.x < from) add(1, strand.from, {from, strand.from.z});
      if (strand.to.x > to) add(2, {to, strand.to.z}, strand.to);
    }
    std::erase_if(s.pieces, [](const SeamScene::Piece& p) { return !(p.area > Area{}); });
  }

  void add_walls(SeamScene& s) const {
    const Length x = part.body.half_length, y = part.body.half_width, high = part.body.back + touch;
    const auto add = [&](const char* name, const InsertWay& out, Length thickness,
                         const Point3& corner, const InsertWay& across, Length wide,
                         const InsertWay& along, Length high_) {
      s.walls.push_back({name, out.z != 0 ? "behind" : side_of(out), thickness + how.thicker,
                         at(corner), turned(across, wide), turned(along, high_),
                         turned(out, 1 * mm)});
    };
    // Across x along looks in.
    add("lid", along_light, part.body.wall, {-x, -y, high}, {0, 1, 0}, 2 * y, {1, 0, 0}, 2 * x);
    const RollInsert::Words& words = part.words;
    if (words.height > Length{}) {
      const Length side = std::sqrt(engraved_area() / (mm * mm)) * mm;
      add("lid under its words", along_light, part.body.wall - words.depth,
          {words.x - side / 2, words.y - side / 2, high}, {0, 1, 0}, side, {1, 0, 0}, side);
    }
    for (const InsertSide& side : insert_sides) {
      const Length half = side.end ? y : x, out = half_inside(side);
      const Length low = std::max(front_wall, part.body.front);
      // Up first where the side's own direction and the edge's turn the other way.
      const double turn = (side.end ? 1 : -1) * side.sign;
      const Point3 corner = side.place(out, turn * half, low);
      add(side.end ? "end wall" : "cheek", side.out(), side.end ? part.body.wall : part.body.cheek,
          corner, side.end ? InsertWay{0, -turn, 0} : InsertWay{-turn, 0, 0}, 2 * half, along_light,
          high - low);
    }
  }
  // Of the strokes, all together.
  Area engraved_area() const {
    const Lettering lettering = lettering_for(part.words.height);
    Area sum{};
    for (const std::string& line : part.words.lines) {
      for (const auto& stroke : strokes_of(line, lettering)) {
        Area twice{};
        for (std::size_t k = 0; k < stroke.size(); ++k) {
          const OutlineCorner &a = stroke[k], &b = stroke[(k + 1) % stroke.size()];
          twice += a.x * b.y - b.x * a.y;
        }
        sum += 0.5 * std::abs(twice / (mm * mm)) * (mm * mm);
      }
    }
    return sum;
  }
};

}  // namespace

InsertFrame::InsertFrame(const Assembly& a, const InsertStudy& s, const LeakInsert& insert)
    : assembly(a), design(s.path.design), layout(*s.path.layout), part(*s.part), how(insert) {
  const Chamber& c = *a.camera.chamber;
  const bool upright = design.goes == FilmTravel::up || design.goes == FilmTravel::down;
  chamber_x = (upright ? c.height : c.width)->value / 2;
  chamber_y = (upright ? c.width : c.height)->value / 2;
  gate_y = (upright ? a.camera.gate.width : a.camera.gate.height)->value / 2;
  front_wall = -c.before_film->value - design.set_back;
  const Length edge = std::min(-a.camera.gate.before_film->value - design.set_back, front_wall);
  throat = std::min(edge - body_wall, part.gate.front);
  foot = how.foot_gap.value_or(std::max(smallest_detail, part.body.front - front_wall));
  touch = how.lid_gap.value_or(std::max(smallest_detail, a.plan.printer->error->half_width));
}

SpacePoint InsertFrame::at(const Point3& p) const {
  const Point3 there = in_camera(design, p);
  return {there.x, there.y, there.z};
}

SpacePoint InsertFrame::turned(const InsertWay& w, Length size) const {
  const SpacePoint from = at({}), to = at({w.x * size, w.y * size, w.z * size});
  return {to.x - from.x, to.y - from.y, to.z - from.z};
}

std::string InsertFrame::side_of(const InsertWay& w) const {
  const SpacePoint p = turned(w, 1 * mm);
  if (abs(p.x) > abs(p.y)) return p.x > Length{} ? "right" : "left";
  return p.y > Length{} ? "above" : "below";
}

SeamScene seam_scene(const Assembly& a, const InsertStudy& study, const LeakInsert& insert,
                     std::size_t columns, std::size_t rows) {
  assert(study.part && study.path.layout && a.camera.chamber && a.plan.printer);
  return Insert(a, study, insert).scene(columns, rows);
}

std::vector<SeamRemedy> seam_remedies(const Assembly& a, const InsertStudy& study,
                                      const LeakInsert& insert, std::size_t columns,
                                      std::size_t rows) {
  std::vector<SeamRemedy> remedies;
  const auto scene = [&a, &study, columns, rows](const LeakInsert& how) {
    return seam_scene(a, study, how, columns, rows);
  };
  const auto add = adding_to(remedies, insert, scene);
  if (!insert.felt_under_feet) {
    add("felt under cheeks and end walls", [](LeakInsert& i) { i.felt_under_feet = true; });
  }
  if (!insert.felt_round_floor) {
    add("felt round the floor in the old gate", [](LeakInsert& i) { i.felt_round_floor = true; });
  }
  if (!insert.felt_in_bores) {
    add("felt rings round pins and shaft", [](LeakInsert& i) { i.felt_in_bores = true; });
  }
  if (insert.window_open) {
    add("the red window covered", [](LeakInsert& i) { i.window_open = false; });
  }
  if (!insert.matt_all_over) {
    add("matt black outside as well", [](LeakInsert& i) { i.matt_all_over = true; });
  }
  if (seam_scene(a, study, insert, 1, 1).counts_walls()) {
    add("printed walls 1 mm thicker", [](LeakInsert& i) { i.thicker += 1 * mm; });
    add("foil or opaque tape over the printed walls", [](LeakInsert& i) { i.foil = true; });
  }
  add("the lid's lip 1 mm deeper", [](LeakInsert& i) { i.deeper += 1 * mm; });
  if (leak_spacer(a) && !insert.spacer.taped) {
    add(tape_remedy, [](LeakInsert& i) { i.spacer.taped = true; });
  }
  return remedies;
}

}  // namespace backfit

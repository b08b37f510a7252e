// SPDX-License-Identifier: MIT
#include "documents/insert_set.hpp"

#include <fmt/format.h>

#include "conversion/plate_design.hpp"
#include "documents/millimetres.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

using paper::in_mm;

std::string print_words(const Report& report) {
  const Assembly& a = report.assembly;
  const RollInsert& i = *report.insert->part;
  const Printer& printer = *a.plan.printer;
  return fmt::format(
      "Print solid, {}, nozzle {}, layers of {}, matt black if there is any. The lid's words are "
      "engraved in the face on the bed. All that slides has {} a side, from the plan's clearance: "
      "print the gauge first, and if its peg wants another gap, mend the plan and make this sheet "
      "anew. No wall is under {}.",
      *a.material->name, text(*printer.nozzle, 1), text(*printer.layer_height, 2), text(i.gap),
      text(i.smallest_wall, 1));
}

std::vector<NeededPart> bought(const Assembly& a, const RollInsert& i) {
  std::vector<NeededPart> list{{fmt::format("empty {}", *a.spool->name)}};
  if (!i.rollers.empty()) {
    const Length rod = 2 * i.half_width() - i.smallest_wall - i.gap;
    list.push_back({fmt::format("steel rod ⌀{} × {} mm, ends rounded", in_mm(i.rod), in_mm(rod, 1)),
                    static_cast<int>(i.rollers.size())});
  }
  list.push_back({fmt::format("countersunk screw M{} × {}", in_mm(i.screws.thread),
                              in_mm(i.screws.length - 2 * mm + i.ear_drop() + i.body.wall, 0)),
                  2});
  list.push_back(
      {fmt::format("screw M{} × {}, for the knob", in_mm(i.knob.screw), in_mm(20 * mm, 0))});
  list.push_back({fmt::format("felt, 1 mm: ring ⌀{} / ⌀{} under the knob, disc ⌀{} for the brake",
                              in_mm(i.knob.diameter - 2 * mm, 0), in_mm(i.knob.tail + 1 * mm, 0),
                              in_mm(i.spools.pad, 1))});
  list.push_back({"black felt or yarn round the floor in the old gate, 0.5 m"});
  list.push_back({fmt::format("foam, {} mm when pressed, on the ears of the pressure plate",
                              in_mm(i.plate.foam)),
                  static_cast<int>(2 * i.plate.ears.size())});
  list.push_back({"foam, soft, between pins and the camera's walls", 4});
  if (i.window) {
    list.push_back(
        {fmt::format("red filter, deep, ⌀{} mm, and a cover for it", in_mm(i.window->filter))});
  }
  return list;
}

// From the insert's axes to the camera's, as in_camera() does with places.
Solid placed(const Solid& body, const PathDesign& design) {
  const auto turned = [&] {
    switch (design.goes) {
      case FilmTravel::up:
        return quarter_turned_about_z(body);
      case FilmTravel::down:
        return quarter_turned_about_z(quarter_turned_about_z(quarter_turned_about_z(body)));
      case FilmTravel::left:
        return quarter_turned_about_z(quarter_turned_about_z(body));
      case FilmTravel::right:
        break;
    }
    return body;
  };
  return translated(turned(), {{}, {}, design.set_back});
}

bool apart(const Bounds& a, const Bounds& b) {
  return a.high.x < b.low.x || b.high.x < a.low.x || a.high.y < b.low.y || b.high.y < a.low.y ||
         a.high.z < b.low.z || b.high.z < a.low.z;
}

}  // namespace

PieceSet insert_set(const Report& report) {
  const RollInsert& i = *report.insert->part;
  const PathDesign& design = report.insert->path.design;
  PieceSet set{"insert", print_words(report), pieces_of(i), {}, bought(report.assembly, i)};
  const bool upright = design.goes == FilmTravel::up || design.goes == FilmTravel::down;
  set.cut = CutPlane{upright ? CutPlane::Axis::x : CutPlane::Axis::y, {}};
  for (const double side : {-1.0, 1.0}) {
    const Point3 head{i.screws.x, side * (i.half_width() + i.boss() / 2), i.lid_top()};
    set.screws.push_back(
        {"screw of the lid", in_camera(design, head), 2 * i.screws.thread, true, true});
  }
  for (Piece& piece : set.pieces) {
    for (Solid& body : piece.in_place) body = placed(body, design);
    Point3 away;  // in the insert's axes
    if (piece.name == "lid") away.z = 90 * mm;
    if (piece.name == "pressure plate") away.z = 45 * mm;
    if (piece.name == "drive shaft") away.y = i.knob.side * 30 * mm;
    if (piece.name == "knob") away.y = i.knob.side * 45 * mm;
    if (piece.name.starts_with("roller")) away.z = -45 * mm;
    const Point3 moved = in_camera(design, away);
    set.apart.push_back({moved.x, moved.y, away.z});
    if (piece.name == "body" &&
        i.body.front - i.gate.front > *report.assembly.plan.printer->layer_height) {
      piece.support =
          fmt::format("outside only: ends, cheeks and screw blocks begin {} above the bed",
                      text(i.body.front - i.gate.front, 1));
    }
  }
  return set;
}

void demand_free_way(const Report& report, const PieceSet& insert) {
  const RollInsert& i = *report.insert->part;
  const PathStudy& path = report.insert->path;
  struct Moving {
    const char* name;
    Solid body;
    Bounds around;
  };
  std::vector<Moving> moving;
  const auto add = [&](const char* name, const Solid& body) {
    const Solid there = placed(body, path.design);
    moving.push_back({name, there, bounds_of(there)});
  };
  add("supply spool", full_spool(i, i.spools.supply));
  add("take-up spool", full_spool(i, i.spools.take_up));
  const Length half = i.spools.film_width / 2;
  for (const SectionOutline& outline : film_sweep(path.design.problem, *path.layout)) {
    std::vector<OutlineCorner> corners;
    for (const SectionPoint& p : outline) corners.push_back({p.x, p.z});
    add("film", quarter_turned_about_x(prism(corners, -half, half)));
  }
  for (const Piece& piece : insert.pieces) {
    for (const Solid& body : piece.in_place) {
      const Bounds around = bounds_of(body);
      for (const Moving& m : moving) {
        if (apart(around, m.around) || common_volume(body, m.body) <= 1e-3 * mm3) continue;
        throw SolidFailure(
            fmt::format("of the insert, {} and {} run into each other", piece.name, m.name));
      }
    }
  }
}

}  // namespace backfit

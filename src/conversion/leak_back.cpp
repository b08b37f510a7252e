// SPDX-License-Identifier: MIT
#include "conversion/leak_back.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <utility>

namespace backfit {
namespace {

// Faces as light meets them. Common practice: matt black paint scatters 3 to 5 %, a smooth black
// print 4 to 6 % and mirrors as plastics do, felt about 1 %.
constexpr Wall bare_print{0.05, 1.5}, blackened{0.04, 1}, painted_metal{0.05, 1}, felt{0.01, 1};
// Their numbers in the hollow.
enum : std::uint32_t { of_camera, of_plate, of_holder };

constexpr Length body_wall = 2 * mm;        // of the front, where none was measured
constexpr Length holder_rim = 12 * mm;      // from the picture to the holder's far end, at least
constexpr Length holder_past_rib = 5 * mm;  // from its rib's middle to its near end
constexpr Length felt_width = 5 * mm;       // of a strip, from the holder's edge inwards
constexpr Length lip_depth = 3 * mm;        // over the seat's edge
constexpr Length behind_film = 0.2 * mm;    // so that the floor isn't in the film's plane

// In camera axes, with all gaps.
struct Planes {
  Length front, throat, floor, seat, plate, plate_rear, holder, film;
};

// The room behind the gate, within the groove, or the gate into the bellows.
struct Opening {
  Length width, height;
};

Opening room_of(const Assembly& a) {
  const SeatGroove& groove = a.camera.seat->groove;
  Opening room{groove.inner_width->value - 2 * body_wall,
               groove.inner_height->value - 2 * body_wall};
  if (a.camera.chamber) {
    room.width = std::min(room.width, a.camera.chamber->width->value);
    room.height = std::min(room.height, a.camera.chamber->height->value);
  }
  return room;
}

Opening gate_of(const Assembly& a) {
  const Opening room = room_of(a);
  return {std::min(a.camera.gate.width->value, room.width),
          std::min(a.camera.gate.height->value, room.height)};
}

class Back {
 public:
  Back(const Assembly& a, const LeakBack& back)
      : a_(a), back_(back), plate_(*a.plate), clearance_(a.plan.printer->clearance->value) {
    const Length off = std::max(0.01 * mm, a.plan.printer->error->half_width);
    seat_gap_ = back.seat_gap.value_or(off);
    const bool shut = back.felt_round_holder && !back.felt;
    holder_gap_ = shut ? Length{} : back.holder_gap.value_or(off);
    std::vector<double> estimates;
    for (const Input& input : a.inputs.all.list()) estimates.push_back(input.value);
    const Length gate = -a.camera.gate.before_film->value;
    z_.front = -a.pupil_distance().value;
    z_.seat = a.camera.seat->behind_film->value;
    z_.floor = a.camera.chamber ? std::min(gate, -a.camera.chamber->before_film->value) : gate;
    z_.throat = std::min(gate, z_.floor) - body_wall;
    z_.plate = z_.seat + seat_gap_;
    z_.plate_rear = z_.plate + plate_.thickness;
    z_.holder = z_.plate_rear + holder_gap_;
    z_.film = z_.holder + a.behind_plate(Draw(estimates));
  }

  SeamScene scene(std::size_t columns, std::size_t rows) const {
    SeamScene s;
    s.parts = {"camera", "plate", "holder"};
    s.hollow = hollow();
    const Length w = a_.window.width, h = a_.window.height;
    s.film = {{-w / 2, h / 2, z_.film}, {w, {}, {}}, {{}, -h, {}}, columns, rows};
    for (const Side side : sides) s.seams.push_back(seat_seam(side));
    if (holder_gap_ == Length{}) {
      s.not_counted.push_back("the holder's seam: felt shuts it; no readings of what felt passes");
    } else {
      for (const Side side : sides) s.seams.push_back(holder_seam(side));
    }
    if (back_.slide_gap) {
      s.seams.push_back(slide_slot());
    } else {
      s.not_counted.push_back("the dark slide's slot: shut by its felts");
    }
    if (a_.sheet_holder) {
      s.not_counted.push_back("the joints of the printed holder's frames and flap");
    }
    if (!back_.foil) {
      for (const Side side : sides) {
        s.walls.push_back(plate_wall(side));
        if (a_.sheet_holder && upright() == is_upright(side)) s.walls.push_back(holder_wall(side));
      }
    }
    Diagnostics read_before;  // with the plan
    s.readings = wall_readings(*a_.plan.printer, read_before);
    s.steps = steps_to_read(*a_.plan.printer);
    return s;
  }

 private:
  enum class Side { right, left, above, below };
  static constexpr std::array<Side, 4> sides{Side::right, Side::left, Side::above, Side::below};

  static bool is_upright(Side side) { return side == Side::right || side == Side::left; }
  static double sign(Side side) { return side == Side::right || side == Side::above ? 1 : -1; }
  static std::string name(Side side) {
    return side == Side::right   ? "right"
           : side == Side::left  ? "left"
           : side == Side::above ? "above"
                                 : "below";
  }
  // Of two sizes, the one across a seam on that side.
  static Length across(Side side, Length width, Length height) {
    return is_upright(side) ? width : height;
  }

  Surfaces hollow() const {
    const Opening room = room_of(a_), gate = gate_of(a_);
    std::vector<HollowRoom> rooms{{room.width, room.height, z_.front, z_.throat, of_camera}};
    const bool deep = z_.seat - z_.floor > smallest_detail;
    rooms.push_back({gate.width, gate.height, z_.throat, deep ? z_.floor : z_.plate, of_camera});
    if (deep) rooms.push_back({room.width, room.height, z_.floor, z_.plate, of_camera});
    rooms.push_back({plate_.window_width, plate_.window_height, z_.plate, z_.holder, of_plate});
    rooms.push_back(
        {a_.window.width, a_.window.height, z_.holder, z_.film + behind_film, of_holder});
    return hollow_of(rooms, {painted_metal, blackened, painted_metal});
  }

  // Opens inwards on that side of a room of the hollow, the section's left behind.
  LeakSeam opening(Side side, std::string what, const Opening& room, Length front,
                   Length rear) const {
    LeakSeam seam;
    seam.name = std::move(what);
    seam.side = name(side);
    const Length x = room.width / 2, y = room.height / 2;
    const double s = sign(side);
    const SpacePoint in =
        is_upright(side) ? SpacePoint{-s * mm, {}, {}} : SpacePoint{{}, -s * mm, {}};
    const SpacePoint low =
        is_upright(side) ? SpacePoint{s * x, -y, front} : SpacePoint{-x, s * y, front};
    const SpacePoint high =
        is_upright(side) ? SpacePoint{s * x, y, rear} : SpacePoint{x, s * y, rear};
    set_mouth(seam, in, {{}, {}, 1 * mm}, low, high);
    return seam;
  }

  // From outside along the flat faces, round the tongue in its groove, and along them again. On
  // the right lies the camera.
  LeakSeam seat_seam(Side side) const {
    const Opening gate = gate_of(a_);
    const Opening room = z_.seat - z_.floor > smallest_detail ? room_of(a_) : gate;
    LeakSeam seam = opening(side, "seat seam", room, z_.seat, z_.plate);
    const SeatGroove& groove = a_.camera.seat->groove;
    const BackPlate::Tongue& tongue = plate_.tongue;
    const Length inner = across(side, groove.inner_width->value, groove.inner_height->value);
    const Length outer = inner + 2 * groove.width->value;
    const Length edge = across(side, plate_.width, plate_.height);
    const Length ring = across(side, tongue.inner_width, tongue.inner_height);
    const Length depth = groove.depth->value + back_.deeper, tip = tongue.depth + back_.deeper;
    const Length beside = (outer - ring) / 2 - tongue.wall, within = (ring - inner) / 2;
    const Length down = tip - seat_gap_;
    GapProfile& p = seam.profile;
    p.widths = {seat_gap_, beside, depth - down, within, seat_gap_};
    p.arms = {(edge - outer) / 2, down, tongue.wall, down,
              (inner - across(side, room.width, room.height)) / 2};
    p.turns = {Turn::right, Turn::left, Turn::left, Turn::right};
    const Wall outside = back_.matt_all_over ? blackened : bare_print;
    const Wall floor = back_.felt_in_groove ? felt : painted_metal;
    const Wall on_tongue = back_.felt_in_groove ? felt : blackened;
    seam.walls.right = {painted_metal, floor, floor, floor, painted_metal};
    seam.walls.left = {outside, on_tongue, on_tongue, on_tongue, blackened};
    if (back_.lip) {
      p.widths.insert(p.widths.begin(), clearance_);
      p.arms.insert(p.arms.begin(), lip_depth);
      p.turns.insert(p.turns.begin(), Turn::right);
      seam.walls.right.insert(seam.walls.right.begin(), painted_metal);
      seam.walls.left.insert(seam.walls.left.begin(), outside);
    }
    p.gap = p.widths.front();
    seam.length = is_upright(side) ? plate_.height : plate_.width;
    return seam;
  }

  bool upright() const { return plate_.rib_groove.size_x > plate_.rib_groove.size_y; }

  // Between plate and holder; on the rib's side round the rib in its groove. On the right lies the
  // plate.
  LeakSeam holder_seam(Side side) const {
    LeakSeam seam = opening(side, "holder seam", {plate_.window_width, plate_.window_height},
                            z_.plate_rear, z_.holder);
    const BackPlate::RibGroove& rib = plate_.rib_groove;
    const Length window = across(side, plate_.window_width, plate_.window_height) / 2;
    const Length half_holder = (upright() ? rib.size_x : rib.size_y) / 2 - clearance_;
    const Length to_rib = upright() ? rib.centre.y : rib.centre.x;
    const Side rib_side = upright() ? Side::above : Side::right;
    const Length far_end = (upright() ? a_.window.height : a_.window.width) / 2 + holder_rim;
    const Length end = holder_end(side);
    const Wall print = back_.matt_all_over ? blackened : bare_print;
    GapProfile& p = seam.profile;
    p.gap = holder_gap_;
    if (side == rib_side) {
      const Length groove = upright() ? rib.size_y : rib.size_x;
      const Length height = rib.depth - clearance_, down = height - holder_gap_;
      p.widths = {holder_gap_, clearance_, rib.depth - down, clearance_, holder_gap_};
      p.arms = {end - to_rib - groove / 2, down, groove - 2 * clearance_, down,
                to_rib - groove / 2 - window};
      p.turns = {Turn::right, Turn::left, Turn::left, Turn::right};
    } else {
      p.arms = {end - window};
    }
    if (back_.felt_round_holder) {
      (side == rib_side ? p.arms.back() : p.arms.front()) -= felt_width;
      seam.passes = transmission(*back_.felt, felt_width);
    }
    seam.walls.right.assign(p.arms.size(), print);
    seam.walls.left.assign(p.arms.size(), painted_metal);
    seam.length =
        upright() == is_upright(side) ? to_rib + holder_past_rib + far_end : 2 * half_holder;
    return seam;
  }

  // From the axis to the holder's end on that side, or the plate's where that is nearer.
  Length holder_end(Side side) const {
    const BackPlate::RibGroove& rib = plate_.rib_groove;
    const Length to_rib = upright() ? rib.centre.y : rib.centre.x;
    if (upright() == is_upright(side)) {
      const Length half = (upright() ? rib.size_x : rib.size_y) / 2 - clearance_;
      return std::min(across(side, plate_.width, plate_.height) / 2, half);
    }
    const bool rib_side = side == (upright() ? Side::above : Side::right);
    return std::min(across(side, plate_.width, plate_.height) / 2,
                    rib_side ? to_rib + holder_past_rib
                             : (upright() ? a_.window.height : a_.window.width) / 2 + holder_rim);
  }

  // Through the plate from its open face beside the holder. Where that lies before the hollow,
  // straight through; else slanting between holder and seat to the window's edge.
  PrintedWall plate_wall(Side side) const {
    const Opening room = z_.seat - z_.floor > smallest_detail ? room_of(a_) : gate_of(a_);
    const Length window = across(side, plate_.window_width, plate_.window_height) / 2;
    const Length before = across(side, room.width, room.height) / 2, holder = holder_end(side);
    const bool straight = holder < before;
    PrintedWall wall{"plate's wall", name(side), plate_.thickness + back_.thicker, {}, {}, {}, {}};
    const bool shows = before > window;  // some of the plate's face, from the hollow
    if (!straight) {
      wall.thickness = hypot(std::max(Length{}, holder - (shows ? before : window)),
                             shows ? wall.thickness : Length{});
    }
    wall.outwards = {{}, {}, 1 * mm};
    const double s = sign(side);
    const Length half = across(is_upright(side) ? Side::above : Side::right, plate_.window_width,
                               plate_.window_height) /
                        2;
    // Along the seam so that across x along points into the hollow.
    const double way = straight == is_upright(side) ? s : -s;
    const Length edge = straight ? std::max(holder, window) : window;
    const Length strip = straight ? before - edge : Length{};
    if (is_upright(side)) {
      wall.corner = {s * edge, -way * half, z_.plate};
      wall.across = {{}, 2 * way * half, {}};
      wall.along = {s * strip, {}, {}};
    } else {
      wall.corner = {-way * half, s * edge, z_.plate};
      wall.across = {2 * way * half, {}, {}};
      wall.along = {{}, s * strip, {}};
    }
    if (!straight) wall.along = {{}, {}, plate_.thickness};
    return wall;
  }

  // Of a printed holder, beside the groove that its slide leaves open when it is drawn.
  PrintedWall holder_wall(Side side) const {
    const SheetHolder& h = *a_.sheet_holder;
    const Length half = across(side, a_.window.width, a_.window.height) / 2;
    const Length beside = across(side, a_.window.height, a_.window.width) / 2;
    const double s = sign(side), way = is_upright(side) ? -s : s;
    PrintedWall wall{"holder's side", name(side), (h.width - h.groove()) / 2, {}, {}, {}, {}};
    // Along the seam first, so that across x along points into the hollow.
    if (is_upright(side)) {
      wall.corner = {s * half, -way * beside, z_.holder};
      wall.across = {{}, 2 * way * beside, {}};
      wall.outwards = {s * mm, {}, {}};
    } else {
      wall.corner = {-way * beside, s * half, z_.holder};
      wall.across = {2 * way * beside, {}, {}};
      wall.outwards = {{}, s * mm, {}};
    }
    wall.along = {{}, {}, z_.film - z_.holder};
    return wall;
  }

  // At the end away from the rib, a third of the way to the film, felt on both sides.
  LeakSeam slide_slot() const {
    const Side side = upright() ? Side::below : Side::left;
    const Length low = z_.holder + (z_.film - z_.holder) / 3;
    LeakSeam seam = opening(side, "dark slide's slot", {a_.window.width, a_.window.height}, low,
                            low + *back_.slide_gap);
    seam.profile = {*back_.slide_gap, {holder_rim}, {}};
    seam.walls = walls_all(seam.profile, felt);
    seam.length = across(side, a_.window.height, a_.window.width);
    return seam;
  }

  const Assembly& a_;
  const LeakBack& back_;
  const BackPlate& plate_;
  Length clearance_, seat_gap_, holder_gap_;
  Planes z_;
};

}  // namespace

SeamScene seam_scene(const Assembly& a, const LeakBack& back, std::size_t columns,
                     std::size_t rows) {
  assert(a.method() == Method::back_on_seat && a.plate);
  return Back(a, back).scene(columns, rows);
}

std::vector<SeamRemedy> seam_remedies(const Assembly& a, const LeakBack& back, std::size_t columns,
                                      std::size_t rows) {
  std::vector<SeamRemedy> remedies;
  const auto add = [&](std::string what, const auto& change) {
    LeakBack changed = back;
    change(changed);
    remedies.push_back({std::move(what), [&a, changed, columns, rows] {
                          return seam_scene(a, changed, columns, rows);
                        }});
  };
  if (!back.felt_round_holder) {
    add("felt along the holder's edges", [](LeakBack& b) { b.felt_round_holder = true; });
  }
  if (back.slide_gap) {
    add("felts that meet in the dark slide's slot", [](LeakBack& b) { b.slide_gap.reset(); });
  }
  if (!back.felt_in_groove) {
    add("the groove lined with felt", [](LeakBack& b) { b.felt_in_groove = true; });
  }
  if (!back.matt_all_over) {
    add("matt black all over the plate", [](LeakBack& b) { b.matt_all_over = true; });
  }
  if (seam_scene(a, back, 1, 1).counts_walls()) {
    add("the plate 1 mm thicker", [](LeakBack& b) { b.thicker += 1 * mm; });
    add("foil or opaque tape over the print's open faces", [](LeakBack& b) { b.foil = true; });
  }
  add("groove and tongue 1 mm deeper", [](LeakBack& b) { b.deeper += 1 * mm; });
  if (!back.lip) {
    add("one more bend: a lip over the seat's edge", [](LeakBack& b) { b.lip = true; });
  }
  return remedies;
}

}  // namespace backfit

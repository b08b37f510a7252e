// SPDX-License-Identifier: MIT
#include "conversion/leak_pack.hpp"

#include <algorithm>
#include <cassert>
#include <string>
#include <utility>

#include "conversion/camera_front.hpp"
#include "conversion/pack_design.hpp"
#include "conversion/seam_remedies.hpp"
#include "conversion/seam_sides.hpp"

namespace backfit {
namespace {

// Walls' numbers in the hollow.
enum : std::uint32_t { of_camera, of_holder };

class Pack {
 public:
  Pack(const Assembly& a, const LeakPack& pack)
      : a_(a),
        how_(pack),
        h_(*a.pack_holder),
        camera_(a, pose_of_pack_holder(a).face, pack.spacer),
        quarters_(pose_of_pack_holder(a).quarters),
        face_gap_(pack.face_gap.value_or(flat_gap(*a.plan.printer))),
        lid_gap_(pack.lid_gap.value_or(flat_gap(*a.plan.printer))),
        thickness_(a.film.thickness->value->value) {
    face_ = camera_.rest() + face_gap_;
    film_ = film_plane(a) + face_gap_;
    // Where the slot ends behind the sheet, which lies in its middle, the lid lies on the ledge.
    ledge_ = film_ - (h_.sheet_slot - thickness_) / 2 + h_.sheet_slot;
  }

  SeamScene scene(std::size_t columns, std::size_t rows) const {
    SeamScene s;
    s.parts = {"camera", "holder", "lid"};
    s.shelter = a_.camera.pack->slit ? "the camera's closed back with felt in its slit"
                                     : "the camera's closed back";
    add_hollow(s);
    s.film = film_at(a_, film_, columns, rows);
    add_face_seams(s);
    add_mouth(s);
    add_lid_seams(s);
    if (!how_.foil) add_walls(s);
    camera_.add_spacer(s);
    if (h_.slide) {
      s.not_counted.emplace_back("the joint of the holder's face and tray: glue shuts it");
    }
    s.not_counted.emplace_back(
        "round the sheet's edges to its face: less than on its back, and rails press it");
    if (a_.plan.window_cover) {
      s.not_counted.emplace_back("the red window's cover: part of the camera's closed back");
    }
    Diagnostics read_before;  // with the plan
    s.readings = wall_readings(*a_.plan.printer, read_before);
    s.steps = steps_to_read(*a_.plan.printer);
    return s;
  }

 private:
  // Of the holder's sizes along u and v in the camera.
  FrameSize placed(Length u, Length v) const {
    return quarters_ % 2 == 0 ? FrameSize{u, v} : FrameSize{v, u};
  }
  FrameSize outline() const { return placed(h_.width, h_.length); }
  FrameSize slot() const { return placed(h_.slot_width(), h_.slot_height()); }
  // What opens between camera and holder.
  FrameSize before_face() const { return larger(camera_.last(), a_.window); }
  // That v points to, the way its slide is drawn.
  SeamSide drawn_to() const {
    constexpr std::array<SeamSide, 4> turned{SeamSide::above, SeamSide::left, SeamSide::below,
                                             SeamSide::right};
    return turned[static_cast<std::size_t>(quarters_ % 4)];
  }
  bool across_slide(SeamSide side) const { return is_upright(side) != is_upright(drawn_to()); }
  const Wall& outside() const { return how_.matt_all_over ? blackened : bare_print; }

  void add_hollow(SeamScene& s) const {
    std::vector<HollowRoom> rooms = camera_.rooms(camera_.rest(), of_camera);
    const FrameSize mouth = before_face();
    rooms.push_back({mouth.width, mouth.height, camera_.rest(), face_, of_camera});
    // Closed within the sheet, on whose other side is a room of its own.
    const Length shut = film_ + std::min(behind_film, thickness_ / 2);
    rooms.push_back({a_.window.width, a_.window.height, face_, shut, of_holder});
    s.hollow = hollow_of(rooms, {painted_metal, blackened});
    add_rooms(s.hollow,
              {{slot().width, slot().height, film_ + thickness_, ledge_ + lid_gap_, of_holder, 1}},
              {});
    s.pieces = {{"the sheet's back", slot().width * slot().height}};
  }

  // Down between holder and camera, and along its face to the gate. On the right lies the camera.
  void add_face_seams(SeamScene& s) const {
    const PackRoom& pack = *a_.camera.pack;
    if (how_.felt_beside && !how_.felt) {
      s.not_counted.emplace_back(
          "the gap beside the holder: felt shuts it; no readings of what "
          "felt passes");
      return;
    }
    for (const SeamSide side : seam_sides) {
      LeakSeam seam = seam_at(side, "holder's face", before_face(), camera_.rest(), face_);
      const Length beside =
          (across(side, {pack.width->value, pack.height->value}) - across(side, outline())) / 2;
      GapProfile& p = seam.profile;
      p.gap = std::max(smallest_detail, beside);
      p.widths = {p.gap, face_gap_};
      p.arms = {h_.thickness(), (across(side, outline()) - across(side, before_face())) / 2};
      p.turns = {Turn::left};
      if (how_.felt_beside) press_felt(seam, p.arms.front(), *how_.felt);
      seam.walls = {{painted_metal, painted_metal}, {outside(), outside()}};
      seam.length = along(side, outline());
      s.seams.push_back(std::move(seam));
    }
  }

  // Past the drawn slide, from the holder's end to the slide's, felt on one side; the camera's slit
  // lies before it.
  void add_mouth(SeamScene& s) const {
    if (!h_.slide) return;
    if (!how_.slide_gap) {
      s.not_counted.emplace_back("the dark slide's mouth: shut by its felt");
      return;
    }
    const Length low = face_ + h_.slide->wall;
    LeakSeam seam =
        seam_at(drawn_to(), "dark slide's mouth", a_.window, low, low + *how_.slide_gap);
    seam.profile = {
        *how_.slide_gap, {h_.length / 2 - (h_.slide->stops - h_.slide->end_length)}, {}};
    seam.walls = {{felt_face}, {bare_print}};
    seam.length = h_.mouth();
    s.seams.push_back(std::move(seam));
  }

  // Down between lid and tray and in over the ledge. On the right lies the tray.
  void add_lid_seams(SeamScene& s) const {
    if (how_.tape.value_or(h_.slide.has_value())) {
      s.not_counted.emplace_back("the lid's edges: black tape shuts them");
      return;
    }
    for (const SeamSide side : seam_sides) {
      LeakSeam seam = seam_at(side, "lid's edge", slot(), ledge_, ledge_ + lid_gap_);
      GapProfile& p = seam.profile;
      p.gap = h_.gap;
      p.widths = {h_.gap, lid_gap_};
      p.arms = {h_.lid, h_.ledge};
      p.turns = {Turn::left};
      seam.walls = walls_all(p, bare_print);
      seam.length = along(side, placed(h_.lid_width(), h_.lid_height()));
      s.seams.push_back(std::move(seam));
    }
  }

  // Into the picture's opening beside the slide's groove, and to the sheet's back through lid and
  // tray. Before the holder's face lies the camera.
  void add_walls(SeamScene& s) const {
    const auto add = [&](SeamSide side, const char* name, Length thickness,
                         const FrameSize& opening, Length front, Length rear) {
      s.walls.push_back(edge_wall(side, name, thickness + how_.thicker, opening, front, rear));
    };
    for (const SeamSide side : seam_sides) {
      Length to_groove = (across(side, outline()) - across(side, a_.window)) / 2;
      if (h_.slide && across_slide(side)) to_groove = (h_.width - h_.groove()) / 2;
      if (h_.slide && !across_slide(side) && side != drawn_to()) {
        to_groove = h_.length / 2 + h_.groove_end();
      }
      add(side, "holder's side", to_groove, a_.window, face_, film_);
      add(side, "tray's side", (across(side, outline()) - across(side, slot())) / 2, slot(),
          film_ + thickness_, ledge_);
    }
    // Across x along looks forward.
    const Length w = slot().width, h = slot().height;
    s.walls.push_back({"lid",
                       "behind",
                       h_.lid + how_.thicker,
                       {-w / 2, -h / 2, ledge_ + lid_gap_},
                       {{}, h, {}},
                       {w, {}, {}},
                       {{}, {}, 1 * mm}});
  }

  const Assembly& a_;
  const LeakPack& how_;
  const PackHolder& h_;
  CameraFront camera_;
  int quarters_;
  Length face_gap_, lid_gap_, thickness_, face_, film_, ledge_;
};

}  // namespace

SeamScene seam_scene(const Assembly& a, const LeakPack& pack, std::size_t columns,
                     std::size_t rows) {
  assert(a.pack_holder && a.plan.printer);
  return Pack(a, pack).scene(columns, rows);
}

std::vector<SeamRemedy> seam_remedies(const Assembly& a, const LeakPack& pack, std::size_t columns,
                                      std::size_t rows) {
  std::vector<SeamRemedy> remedies;
  const auto scene = [&a, columns, rows](const LeakPack& how) {
    return seam_scene(a, how, columns, rows);
  };
  const auto add = adding_to(remedies, pack, scene);
  if (!pack.felt_beside) {
    add("felt in the gap beside the holder", [](LeakPack& p) { p.felt_beside = true; });
  }
  if (pack.slide_gap) {
    add("a felt that fills the dark slide's mouth", [](LeakPack& p) { p.slide_gap.reset(); });
  }
  if (!pack.tape.value_or(a.pack_holder->slide.has_value())) {
    add("black tape along the lid's edges", [](LeakPack& p) { p.tape = true; });
  }
  if (!pack.matt_all_over) {
    add("matt black outside as well", [](LeakPack& p) { p.matt_all_over = true; });
  }
  if (seam_scene(a, pack, 1, 1).counts_walls()) {
    add("printed walls 1 mm thicker", [](LeakPack& p) { p.thicker += 1 * mm; });
    add("foil or opaque tape over the holder's back and sides", [](LeakPack& p) { p.foil = true; });
  }
  if (leak_spacer(a) && !pack.spacer.taped) {
    add(tape_remedy, [](LeakPack& p) { p.spacer.taped = true; });
  }
  return remedies;
}

}  // namespace backfit

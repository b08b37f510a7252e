// SPDX-License-Identifier: MIT
#include "conversion/leak_own.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>
#include <utility>

#include "conversion/camera_front.hpp"
#include "conversion/cover_design.hpp"
#include "conversion/seam_remedies.hpp"
#include "conversion/seam_sides.hpp"

namespace backfit {
namespace {

// Walls' numbers in the hollow.
enum : std::uint32_t { of_camera, of_cover };

bool has_paper(const Assembly& a) { return a.spool.has_value(); }

Length film_thickness(const Assembly& a) {
  return a.film.thickness ? a.film.thickness->value->value : behind_film;
}

// Over film that shows its back to the window.
std::optional<WindowCover> leak_cover(const Assembly& a) {
  if (a.method() != Method::insert || has_paper(a)) return {};
  return window_cover(a);
}

// The room behind the film and the window's way into it, about the window's middle. The round
// window counts as a square as large, its filter as clear.
class Cover {
 public:
  Cover(const Assembly& a, const LeakOwn& own, const WindowCover& cover, Length film)
      : a_(a), how_(own), c_(cover), side_(std::sqrt(std::numbers::pi) / 2 * cover.window) {
    back_ = film + film_thickness(a);
    outside_ = std::max(cover.place.z, back_ + 1 * mm);
    floor_ = outside_ + cover.base;
    slider_ = floor_ + cover.felt;
  }

  void add(SeamScene& s) const {
    s.parts.emplace_back("window cover");
    s.not_counted.emplace_back("the window cover's frame on the camera: its tape shuts it");
    add_hollow(s);
    if (how_.window_open) {
      add_open_window(s);
      return;
    }
    add_seams(s);
    if (!how_.foil) add_slider(s);
  }

 private:
  SpacePoint middle() const { return {c_.place.x, c_.place.y, {}}; }
  void shift(SpacePoint& p) const { p = {p.x + c_.place.x, p.y + c_.place.y, p.z}; }

  // As wide as the gate, but at least as the frame is. What of the film lies straight before the
  // window, where it is brightest, is sunk a little so that it is a piece of its own.
  void add_hollow(SeamScene& s) const {
    const FrameSize room =
        larger({a_.camera.gate.width->value, a_.camera.gate.height->value}, {c_.side(), c_.side()});
    add_rooms(s.hollow,
              {{side_, side_, back_, back_ + smallest_detail, of_camera, 1},
               {room.width, room.height, back_ + smallest_detail, outside_, of_camera},
               {side_, side_, outside_, slider_, of_cover}},
              middle());
    s.pieces = {{"the film's back before the red window", side_ * side_}};
  }

  // Down beside the slider, and in through the felt under it. At the end that it opens to there is
  // felt alone. On the right lies the frame.
  void add_seams(SeamScene& s) const {
    if (!how_.felt) {
      s.not_counted.emplace_back(
          "the window cover's slider: felt shuts it; no readings of what felt passes");
      return;
    }
    for (const SeamSide side : seam_sides) {
      LeakSeam seam = seam_at(side, "window cover's slider", {side_, side_}, floor_, slider_);
      shift(seam.corner);
      GapProfile& p = seam.profile;
      if (side == SeamSide::above) {
        p = {c_.felt, {c_.felt}, {}};
      } else {
        // The sides lean in by half a right angle.
        const Length deep = is_upright(side) ? std::numbers::sqrt2 * c_.slider : c_.slider;
        p = {c_.gap, {deep, c_.felt}, {Turn::left}, {c_.gap, c_.felt}};
      }
      seam.walls = walls_all(p, bare_print);
      seam.passes = transmission(*how_.felt, c_.overlap);
      seam.length = c_.side();
      s.seams.push_back(std::move(seam));
    }
  }

  // Across x along looks forward.
  void add_slider(SeamScene& s) const {
    s.not_counted.emplace_back(
        "what the felt takes of the light through the slider: it comes on top");
    PrintedWall wall{"window cover's slider",  "behind",
                     c_.slider + how_.thicker, {-side_ / 2, -side_ / 2, slider_},
                     {{}, side_, {}},          {side_, {}, {}},
                     {{}, {}, 1 * mm}};
    shift(wall.corner);
    s.walls.push_back(std::move(wall));
  }

  void add_open_window(SeamScene& s) const {
    LeakSeam seam;
    seam.name = "red window, uncovered";
    seam.side = "behind";
    const Length half = side_ / 2;
    set_mouth(seam, {{}, {}, -1 * mm}, {1 * mm, {}, {}}, {-half, -half, slider_},
              {half, half, slider_});
    shift(seam.corner);
    seam.profile = {side_, {c_.height() - c_.base}, {}};
    seam.walls = walls_all(seam.profile, blackened);
    seam.length = side_;
    s.seams.push_back(std::move(seam));
  }

  const Assembly& a_;
  const LeakOwn& how_;
  const WindowCover& c_;
  Length side_, back_, outside_, floor_, slider_;
};

}  // namespace

bool has_small_parts(const Assembly& a) { return leak_spacer(a) || leak_cover(a); }

SeamScene seam_scene(const Assembly& a, const LeakOwn& own, std::size_t columns, std::size_t rows) {
  assert(has_small_parts(a) && a.plan.printer);
  SeamScene s;
  s.parts = {"camera"};
  const CameraFront camera(a, -a.camera.gate.before_film->value, own.spacer);
  const Length film = film_plane(a);
  // Closed within the film, on whose other side may be a room of its own.
  s.hollow =
      hollow_of(camera.rooms(film + film_thickness(a) / 2, of_camera), {painted_metal, blackened});
  s.film = film_at(a, film, columns, rows);
  camera.add_spacer(s);
  if (const auto cover = leak_cover(a)) {
    Cover(a, own, *cover, film).add(s);
  } else if (a.plan.window_cover) {
    s.not_counted.emplace_back(
        a.method() == Method::insert
            ? "the red window's cover: backing paper lies between it and the film"
            : "the red window's cover: the film lies shut in its holder");
  }
  s.not_counted.emplace_back("the camera's own seams, bellows and back: as tight as they were");
  s.not_counted.emplace_back(a.method() == Method::insert
                                 ? "the insert, which is not printed: it lies within the camera"
                                 : "the camera's own holder: as tight as it was");
  Diagnostics read_before;  // with the plan
  s.readings = wall_readings(*a.plan.printer, read_before);
  s.steps = steps_to_read(*a.plan.printer);
  return s;
}

std::vector<SeamRemedy> seam_remedies(const Assembly& a, const LeakOwn& own, std::size_t columns,
                                      std::size_t rows) {
  std::vector<SeamRemedy> remedies;
  const auto scene = [&a, columns, rows](const LeakOwn& how) {
    return seam_scene(a, how, columns, rows);
  };
  const auto add = adding_to(remedies, own, scene);
  if (own.window_open && leak_cover(a)) {
    add("the red window covered", [](LeakOwn& o) { o.window_open = false; });
  }
  if (leak_cover(a) && seam_scene(a, own, 1, 1).counts_walls()) {
    add("the window cover's slider 1 mm thicker", [](LeakOwn& o) { o.thicker += 1 * mm; });
    add("foil or opaque tape over the slider", [](LeakOwn& o) { o.foil = true; });
  }
  if (leak_spacer(a) && !own.spacer.taped) {
    add(tape_remedy, [](LeakOwn& o) { o.spacer.taped = true; });
  }
  return remedies;
}

}  // namespace backfit

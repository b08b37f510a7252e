// SPDX-License-Identifier: MIT
#include "conversion/leak_back.hpp"

#include <algorithm>
#include <cassert>

#include "conversion/leak_adapter.hpp"
#include "conversion/seam_remedies.hpp"
#include "conversion/seated_plate.hpp"

namespace backfit {
namespace {

constexpr Length holder_rim = 12 * mm;      // from the picture to the holder's far end, at least
constexpr Length holder_past_rib = 5 * mm;  // from its rib's middle to its near end

class Back : SeatedPlate {
 public:
  Back(const Assembly& a, const LeakBack& back)
      : SeatedPlate(a, back, {a.plate->width, a.plate->height},
                    {a.plate->window_width, a.plate->window_height}, a.plate->thickness,
                    a.plate->tongue),
        rib_(a.plate->rib_groove) {
    const bool shut = back.felt_round_holder && !back.felt;
    holder_gap_ = shut ? Length{} : back.holder_gap.value_or(flat);
    std::vector<double> estimates;
    for (const Input& input : a.inputs.all.list()) estimates.push_back(input.value);
    holder_ = rear + holder_gap_;
    film_ = holder_ + a.behind_plate(Draw(estimates));
  }

  SeamScene scene(std::size_t columns, std::size_t rows) const {
    SeamScene s;
    s.parts = {"camera", "plate", "holder"};
    s.hollow = hollow();
    s.film = film_at(assembly, film_, columns, rows);
    for (const SeamSide side : seam_sides) s.seams.push_back(seat_seam(side));
    if (holder_gap_ == Length{}) {
      s.not_counted.emplace_back(
          "the holder's seam: felt shuts it; no readings of what felt passes");
    } else {
      for (const SeamSide side : seam_sides) s.seams.push_back(holder_seam(side));
    }
    if (how.slide_gap) {
      s.seams.push_back(slide_slot());
    } else {
      s.not_counted.emplace_back("the dark slide's slot: shut by its felts");
    }
    if (assembly.sheet_holder) {
      s.not_counted.emplace_back("the joints of the printed holder's frames and flap");
    }
    if (!how.foil) {
      for (const SeamSide side : seam_sides) {
        s.walls.push_back(wall(side, "plate's wall", holder_end(side)));
        if (assembly.sheet_holder && upright() == is_upright(side)) {
          s.walls.push_back(holder_wall(side));
        }
      }
    }
    add_common(s);
    return s;
  }

 private:
  Surfaces hollow() const {
    std::vector<HollowRoom> all = rooms();
    all.back().rear = holder_;
    all.push_back(
        {assembly.window.width, assembly.window.height, holder_, film_ + behind_film, of_holder});
    return hollow_of(all, {painted_metal, blackened, painted_metal});
  }

  bool upright() const { return rib_.size_x > rib_.size_y; }

  // Between plate and holder; on the rib's side round the rib in its groove. On the right lies the
  // plate.
  LeakSeam holder_seam(SeamSide side) const {
    LeakSeam seam = seam_at(side, "holder seam", window, rear, holder_);
    const Length opening = across(side, window) / 2;
    const Length half_holder = (upright() ? rib_.size_x : rib_.size_y) / 2 - clearance;
    const Length to_rib = upright() ? rib_.centre.y : rib_.centre.x;
    const SeamSide rib_side = upright() ? SeamSide::above : SeamSide::right;
    const Length far_end =
        (upright() ? assembly.window.height : assembly.window.width) / 2 + holder_rim;
    const Length end = holder_end(side);
    GapProfile& p = seam.profile;
    if (side == rib_side) {
      const Length groove = upright() ? rib_.size_y : rib_.size_x;
      p = round_tongue({.face = holder_gap_,
                        .before = end - to_rib - groove / 2,
                        .after = to_rib - groove / 2 - opening,
                        .beside = clearance,
                        .within = clearance,
                        .wall = groove - 2 * clearance,
                        .tip = rib_.depth - clearance,
                        .depth = rib_.depth});
    } else {
      p = {holder_gap_, {end - opening}, {}};
    }
    if (how.felt_round_holder) {
      press_felt(seam, side == rib_side ? p.arms.back() : p.arms.front(), *how.felt);
    }
    seam.walls.right.assign(p.arms.size(), outside());
    seam.walls.left.assign(p.arms.size(), painted_metal);
    seam.length =
        upright() == is_upright(side) ? to_rib + holder_past_rib + far_end : 2 * half_holder;
    return seam;
  }

  // From the axis to the holder's end on that side, or the plate's where that is nearer.
  Length holder_end(SeamSide side) const {
    const Length to_rib = upright() ? rib_.centre.y : rib_.centre.x;
    const Length edge = across(side, outline) / 2;
    if (upright() == is_upright(side)) {
      return std::min(edge, (upright() ? rib_.size_x : rib_.size_y) / 2 - clearance);
    }
    const bool rib_side = side == (upright() ? SeamSide::above : SeamSide::right);
    const Length half = (upright() ? assembly.window.height : assembly.window.width) / 2;
    return std::min(edge, rib_side ? to_rib + holder_past_rib : half + holder_rim);
  }

  // Of a printed holder, beside the groove that its slide leaves open when it is drawn.
  PrintedWall holder_wall(SeamSide side) const {
    const SheetHolder& h = *assembly.sheet_holder;
    return edge_wall(side, "holder's side", (h.width - h.groove()) / 2, assembly.window, holder_,
                     film_);
  }

  // At the end away from the rib, a third of the way to the film, felt on both sides.
  LeakSeam slide_slot() const {
    const SeamSide side = upright() ? SeamSide::below : SeamSide::left;
    const Length low = holder_ + (film_ - holder_) / 3;
    LeakSeam seam = seam_at(side, "dark slide's slot", assembly.window, low, low + *how.slide_gap);
    seam.profile = {*how.slide_gap, {holder_rim}, {}};
    seam.walls = walls_all(seam.profile, felt_face);
    seam.length = along(side, assembly.window);
    return seam;
  }

  const BackPlate::RibGroove& rib_;
  Length holder_gap_, holder_, film_;
};

}  // namespace

SeamScene seam_scene(const Assembly& a, const LeakBack& back, std::size_t columns,
                     std::size_t rows) {
  if (a.method() == Method::instant_back) return adapter_scene(a, back, columns, rows);
  assert(a.method() == Method::back_on_seat && a.plate);
  return Back(a, back).scene(columns, rows);
}

std::vector<SeamRemedy> seam_remedies(const Assembly& a, const LeakBack& back, std::size_t columns,
                                      std::size_t rows) {
  std::vector<SeamRemedy> remedies;
  const auto scene = [&a, columns, rows](const LeakBack& how) {
    return seam_scene(a, how, columns, rows);
  };
  const auto add = adding_to(remedies, back, scene);
  const bool instant = a.method() == Method::instant_back;
  const std::string plate = instant ? "adapter" : "plate";
  if (!back.felt_round_holder && !(instant && a.adapter->groove)) {
    add(instant ? "felt round the instant back's opening" : "felt along the holder's edges",
        [](LeakBack& b) { b.felt_round_holder = true; });
  }
  if (back.slide_gap && !instant) {
    add("felts that meet in the dark slide's slot", [](LeakBack& b) { b.slide_gap.reset(); });
  }
  if (!back.felt_in_groove) {
    add(instant ? "the seat's groove lined with felt" : "the groove lined with felt",
        [](LeakBack& b) { b.felt_in_groove = true; });
  }
  if (!back.matt_all_over) {
    add("matt black all over the " + plate, [](LeakBack& b) { b.matt_all_over = true; });
  }
  if (seam_scene(a, back, 1, 1).counts_walls()) {
    add("the " + plate + " 1 mm thicker", [](LeakBack& b) { b.thicker += 1 * mm; });
    add("foil or opaque tape over the print's open faces", [](LeakBack& b) { b.foil = true; });
  }
  add(instant ? "the seat's groove and the tongue in it 1 mm deeper"
              : "groove and tongue 1 mm deeper",
      [](LeakBack& b) { b.deeper += 1 * mm; });
  if (!back.lip) {
    add("one more bend: a lip over the seat's edge", [](LeakBack& b) { b.lip = true; });
  }
  if (leak_spacer(a) && !back.spacer.taped) {
    add(tape_remedy, [](LeakBack& b) { b.spacer.taped = true; });
  }
  return remedies;
}

}  // namespace backfit

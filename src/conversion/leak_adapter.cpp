// SPDX-License-Identifier: MIT
#include "conversion/leak_adapter.hpp"

#include <algorithm>
#include <cassert>
#include <utility>

#include "conversion/seated_plate.hpp"

namespace backfit {
namespace {

class Adapter : SeatedPlate {
 public:
  Adapter(const Assembly& a, const LeakBack& back)
      : SeatedPlate(a, back, {a.adapter->width, a.adapter->height},
                    {a.adapter->window_width, a.adapter->window_height}, a.adapter->thickness,
                    a.adapter->tongue),
        part_(*a.adapter),
        mounting_(*a.plan.back->mounting),
        opening_{mounting_.opening_width->value, mounting_.opening_height->value},
        back_(nearer(reach_of({part_.back_width, part_.back_height}, part_.back_middle),
                     reach_of(outline))),
        back_gap_(back.holder_gap.value_or(flat)) {
    // Felt lies round the opening where nothing else keeps light out.
    felted_ = back.felt_round_holder && !part_.groove;
    if (felted_ && !back.felt) back_gap_ = {};
    face_ = rear + back_gap_;
    film_ = film_plane(a) + seat_gap + back_gap_;
  }

  SeamScene scene(std::size_t columns, std::size_t rows) const {
    SeamScene s;
    s.parts = {"camera", "adapter", "instant back"};
    s.hollow = hollow();
    s.film = film_at(assembly, film_, columns, rows);
    for (const SeamSide side : seam_sides) s.seams.push_back(seat_seam(side));
    if (back_gap_ == Length{}) {
      s.not_counted.emplace_back(
          "the instant back's seam: felt shuts it; no readings of what felt passes");
    } else {
      for (const SeamSide side : seam_sides) s.seams.push_back(back_seam(side));
    }
    s.not_counted.emplace_back(
        "the instant back's own seams and the slot that its pictures leave by: bought as tight as "
        "it was");
    if (part_.loose_tongue) {
      s.not_counted.emplace_back("the loose tongue's side in the adapter: glue shuts it");
    }
    s.not_counted.emplace_back("the screws of adapter and back: they fill their holes");
    if (!how.foil) {
      for (const SeamSide side : seam_sides) {
        s.walls.push_back(wall(side, "adapter's wall", back_.to(side)));
      }
    }
    add_common(s);
    return s;
  }

 private:
  Surfaces hollow() const {
    std::vector<HollowRoom> all = rooms();
    if (back_gap_ > Length{}) {
      const FrameSize mouth = larger(window, opening_);
      all.push_back({mouth.width, mouth.height, rear, face_, of_plate});
    }
    all.push_back({opening_.width, opening_.height, face_, film_ + behind_film, of_holder});
    return hollow_of(all, {painted_metal, blackened, bare_print});
  }

  // From the edge of adapter or back, whichever is nearer, round the tongue if there is one, to the
  // opening. On the right lies the adapter.
  LeakSeam back_seam(SeamSide side) const {
    const FrameSize mouth = larger(window, opening_);
    LeakSeam seam = seam_at(side, "instant back's seam", mouth, rear, face_);
    const Length inside = across(side, mouth) / 2;
    GapProfile& p = seam.profile;
    if (part_.groove) {
      const AdapterPlate::Groove& g = *part_.groove;
      const Length from = reach_of({g.inner_width, g.inner_height}, part_.back_middle).to(side);
      p = round_tongue(trap_way(back_.to(side) - from - g.width, from - inside));
    } else {
      p = {back_gap_, {back_.to(side) - inside}, {}};
      if (felted_) press_felt(seam, p.arms.back(), *how.felt);
    }
    seam.walls.right.assign(p.arms.size(), blackened);
    if (!how.matt_all_over) seam.walls.right.front() = seam.walls.right.back() = bare_print;
    seam.walls.left.assign(p.arms.size(), bare_print);  // the back's plastic, as smooth
    seam.length = along(side, back_.size());
    return seam;
  }

  // The back's own tongue in the adapter's groove; or the loose one, glued there, in the back's
  // groove, whose ring is the same.
  TongueWay trap_way(Length before, Length after) const {
    const AdapterPlate::Groove& g = *part_.groove;
    const Length trap = mounting_.trap->depth->value;
    const bool loose = part_.loose_tongue.has_value();
    return {.face = back_gap_,
            .before = before,
            .after = after,
            .beside = clearance,
            .within = clearance,
            .wall = g.width - 2 * clearance,
            .tip = loose ? part_.loose_tongue->height - g.depth : trap,
            .depth = loose ? trap : g.depth,
            .groove_on_right = !loose};
  }

  const AdapterPlate& part_;
  const MountingPlan& mounting_;
  FrameSize opening_;
  SideReach back_;  // of the instant back on the adapter
  Length back_gap_, face_, film_;
  bool felted_ = false;
};

}  // namespace

SeamScene adapter_scene(const Assembly& a, const LeakBack& back, std::size_t columns,
                        std::size_t rows) {
  assert(a.method() == Method::instant_back && a.adapter);
  return Adapter(a, back).scene(columns, rows);
}

}  // namespace backfit

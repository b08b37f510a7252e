// SPDX-License-Identifier: MIT
// What keeps a sheet holder from being made or from working.
#include <algorithm>
#include <utility>

#include "parts/fault_list.hpp"
#include "parts/screws.hpp"
#include "parts/sheet_holder.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

// What a slide covers beside the picture, and rails of a sheet; what of a stop still holds when the
// slide lies to one side; screws on sale. Common practice, no source.
constexpr Length least_cover = 2 * mm;
constexpr Length least_rail = 0.8 * mm;
constexpr Length least_stop = 0.5 * mm;
constexpr Length least_reach = 3 * mm;
constexpr Length least_pin = 1 * mm;
// Felt pressed to less than this of its thickness scratches and jams, to more it doesn't seal.
// Common practice, no source.
constexpr double least_felt = 0.4, most_felt = 0.85;

class FaultFinder {
 public:
  explicit FaultFinder(const SheetHolder& holder) : h_(holder) {}

  std::vector<PartFault> faults() && {
    find_sizes();
    if (!faults_.clean())
      return std::move(faults_).take();  // distances mean something between real sizes
    find_walls();
    find_slide();
    find_sheet();
    find_felt();
    find_rib();
    find_flap();
    find_screws();
    return std::move(faults_).take();
  }

 private:
  void need_wall(const std::string& what, Length there, const std::string& remedy) {
    faults_.need("holder-wall-thin", what, there, h_.smallest_wall, remedy);
  }

  void find_sizes() {
    const SheetHolder& h = h_;
    const std::pair<const char*, Length> sizes[] = {
        {"the gap of the printer's gauge", h.gap},
        {"the smallest wall", h.smallest_wall},
        {"the picture's width", h.picture_width},
        {"the picture's height", h.picture_height},
        {"the sheet's width", h.sheet_width},
        {"the sheet's height", h.sheet_height},
        {"the sheet's play", h.sheet_play},
        {"the wall before the slide", h.front},
        {"the slide's slot", h.slide_slot},
        {"the rails' thickness", h.rail},
        {"the sheet's slot", h.film_slot},
        {"the septum", h.septum},
        {"the outside width", h.width},
        {"the slide's thickness", h.slide.thickness},
        {"the slide's width", h.slide.width},
        {"the slide's wide end", h.slide.end_width},
        {"the slide's wide end along it", h.slide.end_length},
        {"the slide's reach into the flap", h.slide.reach},
        {"the felt's thickness", h.felt.thickness},
        {"the felt's width", h.felt.width},
        {"the felt's pocket", h.felt.pocket},
        {"the rib's width", h.rib.width},
        {"the rib's height", h.rib.height},
        {"the rib's groove", h.rib.sunk},
        {"an arm beside the flap", h.flap.arm},
        {"the flap's pins", h.flap.pin},
        {"a pin's reach into an arm", h.flap.pin_in_arm},
        {"the flap's relief", h.flap.relief},
        {"the screws", h.screws.thread},
        {"the grip", h.grip.depth},
        {"the grip's slot", h.grip.slot}};
    for (const auto& [name, size] : sizes) faults_.need_size(name, size);
    const auto need_place = [&](const std::string& name, Length place) {
      if (abs(place) <= largest_size / 10) return;
      faults_.add("holder-size", name + " lies at " + text(place), "measure again");
    };
    need_place("the mouth", h.top);
    need_place("the loading end", h.bottom);
    need_place("the slide's stop", h.slide.stops);
    need_place("the rib", h.rib.from_middle);
    for (const std::vector<Length>* list : {&h.felt.at, &h.screws.left, &h.screws.right}) {
      for (const Length v : *list) need_place("a felt or screw", v);
    }
  }

  void find_walls() {
    const SheetHolder& h = h_;
    const std::string deeper = "a thinner slide, or a nozzle that makes thinner walls";
    need_wall("before the felt the frame's wall is", h.front - h.felt.pocket, deeper);
    need_wall("under the rib's groove the frame's wall is", h.front - h.rib.sunk, deeper);
    need_wall("the flap's wall before the slide is", h.front - h.flap.relief, deeper);
    need_wall("the flap's wall between slide and sheet is", h.rail - h.gap, deeper);
    need_wall("the septum is", h.septum, "a thicker septum");
    need_wall("the edge of the frame beside the sheet's end is",
              h.top - h.sheet_height / 2 - h.sheet_play, "a longer mouth");
    const Length bar = (h.width - h.groove()) / 2;
    faults_.need("holder-too-narrow",
                 "beside the slide's groove the frame, which takes the screws, has", bar,
                 h.screw_head() + 2 * h.smallest_wall,
                 "a holder wider by " + text(2 * (h.screw_head() + 2 * h.smallest_wall - bar), 1) +
                     ", or thinner screws");
    faults_.need("holder-too-narrow", "beside the sheet's slot the rails have to their screws",
                 h.screw_u() - h.screw_pilot() / 2 - h.sheet_width / 2 - h.sheet_play,
                 h.smallest_wall, "a wider holder");
    const Length grip = h.grip_thickness() / 2, middle = h.front + h.slide_slot / 2;
    faults_.need("grips-clash", "from a grip's middle to the middle of the holder there is",
                 h.thickness() / 2 - middle, grip + h.gap / 2,
                 "a thicker septum, or a thinner slide");
    faults_.need("grips-clash", "a grip's middle lies behind the face by", middle, grip,
                 "a deeper holder, or a thinner slide");
    faults_.need("grips-clash", "beyond its slot a grip has", h.grip.depth - h.grip.slot,
                 h.smallest_wall, "a wider grip");
  }

  void find_slide() {
    const SheetHolder& h = h_;
    const SheetHolder::Slide& s = h.slide;
    faults_.need("slide-uncovers", "on each side of the picture the slide covers",
                 (s.width - h.picture_width) / 2 - h.gap, least_cover,
                 "a wider slide, in a wider holder");
    faults_.need("slide-uncovers", "into the flap the slide reaches", s.reach, least_reach,
                 "a longer flap");
    faults_.need("slide-unstopped", "of each of its stops the slide's wide end keeps",
                 (s.end_width - s.width) / 2 - 2 * h.gap, least_stop, "a wider end");
    faults_.need("slide-unstopped", "the slide's wide end is along it", s.end_length,
                 h.smallest_wall, "a longer end");
    faults_.need("slide-uncovers", "drawn to its stops the slide's end clears the picture by",
                 s.stops - s.end_length - h.picture_height / 2, Length{}, "stops farther out");
    faults_.need("slide-tight", "in its slot the slide has", h.slide_slot - s.thickness, 2 * h.gap,
                 "a thinner slide");
    faults_.need("slide-unstopped", "beyond the stops the mouth is", h.top - s.stops,
                 h.smallest_wall, "a longer mouth");
  }

  void find_sheet() {
    const SheetHolder& h = h_;
    const std::string smaller = "a smaller picture";
    const auto held = [&](const std::string& way, Length sheet, Length picture) {
      faults_.need("sheet-falls-through",
                   "the rails hold the sheet, pushed to one side, " + way + " by",
                   (sheet - picture) / 2 - h.sheet_play, least_rail, smaller);
    };
    held("across", h.sheet_width, h.picture_width);
    held("along", h.sheet_height, h.picture_height);
  }

  void find_felt() {
    const SheetHolder& h = h_;
    const Length room = h.felt.pocket + h.slide_slot - h.slide.thickness;
    faults_.need("felt-jams", "between slide and pocket the felt has", room,
                 least_felt * h.felt.thickness, "thinner felt");
    faults_.need("felt-loose", "pressed by the slide a felt of this thickness seals a room of",
                 most_felt * h.felt.thickness, room, "thicker felt, or a shallower pocket");
    if (h.felt.at.empty()) {
      faults_.add("felt-loose", "no felt closes the slide's mouth", "a longer mouth");
    }
    Length from = h.slide.stops;
    for (const Length v : h.felt.at) {
      need_wall("beside a felt the mouth has", v - from, "a longer mouth");
      from = v + h.felt.width;
    }
    need_wall("outside the last felt the mouth has", h.top - from, "a longer mouth");
  }

  void find_rib() {
    const SheetHolder& h = h_;
    const Length half = h.rib_groove() / 2, at = h.rib.from_middle;
    const std::string elsewhere = "another place of the rib";
    need_wall("between picture and rib the face has", at - half - h.picture_height / 2, elsewhere);
    need_wall("beyond the rib the face has", h.top - at - half, "a longer mouth");
    if (h.front - h.rib.sunk - h.felt.pocket >= h.smallest_wall - FaultList::rounding) return;
    for (const Length v : h.felt.at) {
      const Length apart = std::max(v - at - half, at - half - v - h.felt.width);
      need_wall("between the rib's groove and a felt's pocket the frame has", apart, elsewhere);
    }
  }

  void find_flap() {
    const SheetHolder& h = h_;
    const SheetHolder::Flap& f = h.flap;
    const std::string wider = "a wider holder";
    need_wall("outside a pin its arm has", f.arm - f.pin_in_arm, "wider arms");
    need_wall("under a pin's notch the frame is", h.frame() - h.pin_notch(), "a thinner pin");
    need_wall("around a pin's hole the flap has", h.pin_radius() - h.pin_notch() / 2,
              "a thinner pin");
    faults_.need("flap-pin-short", "into the flap its pins reach", f.pin_in_flap, least_pin, wider);
    faults_.need("flap-pin-short", "into an arm its pin reaches", f.pin_in_arm, least_pin, wider);
    need_wall("between a pin's hole and the slide's groove the flap has",
              (h.flap_width() - h.groove()) / 2 - f.pin_in_flap, wider);
    need_wall("between a pin's hole and the sheets' groove the flap has",
              (h.flap_width() - h.sheet_width) / 2 - h.sheet_play - f.pin_in_flap, wider);
    need_wall("behind its grooves the flap has",
              h.flap_length() - std::max(h.slide_groove(), h.sheet_groove()), "a longer flap");
    need_wall("behind its pins the flap has", h.flap_length() - h.pin_radius() - h.pin_notch() / 2,
              "a longer flap");
  }

  // All screws of one bar: those of this face, and those of the other, which meet in the core.
  void find_screws() {
    const SheetHolder& h = h_;
    const Length head = h.screw_head(), wall = h.smallest_wall;
    const auto in_face = [&](const std::vector<Length>& list) {
      if (list.size() < 2) {
        faults_.add("screws-crowded", "a side of the frame has fewer than two screws",
                    "thinner screws");
      }
      for (std::size_t k = 0; k < list.size(); ++k) {
        const Length v = list[k];
        const std::string at = "beside the screw at " + text(v, 1);
        faults_.need("screws-crowded", at + " the end of the frame leaves",
                     std::min(h.top - v, v - h.seam() - h.gap) - head / 2, wall, "another place");
        faults_.need("screws-crowded", at + " the rib's groove leaves",
                     abs(v - h.rib.from_middle) - (h.rib_groove() + head) / 2, wall,
                     "another place");
        for (std::size_t other = k + 1; other < list.size(); ++other) {
          faults_.need("screws-crowded", at + " the next leaves", abs(list[other] - v) - head, wall,
                       "fewer screws");
        }
      }
    };
    in_face(h.screws.left);
    in_face(h.screws.right);
    for (const Length left : h.screws.left) {
      for (const Length right : h.screws.right) {
        faults_.need("screws-crowded", "in the rails the screws of both sides lie apart",
                     abs(left - right) - h.screw_pilot(), wall, "another place");
      }
    }
    need_wall("under a screw's head the frame is", h.frame() - (head - h.screw_hole()) / 2,
              "thinner screws");
    if (!screw_length(h)) {
      faults_.add("screws-crowded",
                  "no countersunk screw of 4 mm or more ends within the " +
                      text(h.frame() + h.core()) + " of frame and core",
                  "a thicker septum");
    }
  }

  const SheetHolder& h_;
  FaultList faults_{"holder-size"};
};

}  // namespace

std::vector<PartFault> faults(const SheetHolder& holder) { return FaultFinder(holder).faults(); }

std::optional<Length> screw_length(const SheetHolder& h) {
  return screw_on_sale(h.frame() + h.core() - 0.5 * mm);  // a rest, so that it never shows
}

}  // namespace backfit

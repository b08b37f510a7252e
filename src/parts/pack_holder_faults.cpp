// SPDX-License-Identifier: MIT
// What keeps a pack holder from being made or from working.
#include <algorithm>
#include <utility>

#include "parts/fault_list.hpp"
#include "parts/pack_holder.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

// What a slide covers beside the picture, and rails of a sheet; what of a stop still holds when the
// slide lies to one side; what a lid lies on. Common practice, no source.
constexpr Length least_cover = 1.5 * mm, least_rail = 0.8 * mm, least_stop = 0.5 * mm;
constexpr Length least_ledge = 1 * mm;
constexpr double least_felt = 0.4, most_felt = 0.85;  // of its thickness, as of a sheet holder

class FaultFinder {
 public:
  explicit FaultFinder(const PackHolder& holder) : h_(holder) {}

  std::vector<PartFault> faults() && {
    find_sizes();
    if (!faults_.clean())
      return std::move(faults_).take();  // distances mean something between real sizes
    find_tray();
    if (h_.slide) find_slide(*h_.slide);
    return std::move(faults_).take();
  }

 private:
  void need_wall(const std::string& what, Length there, const std::string& remedy) {
    faults_.need("pack-holder-wall-thin", what, there, h_.smallest_wall, remedy);
  }

  void find_sizes() {
    const PackHolder& h = h_;
    std::vector<std::pair<const char*, Length>> sizes{{"the gap of the printer's gauge", h.gap},
                                                      {"the smallest wall", h.smallest_wall},
                                                      {"the picture's width", h.picture_width},
                                                      {"the picture's height", h.picture_height},
                                                      {"the sheet's width", h.sheet_width},
                                                      {"the sheet's height", h.sheet_height},
                                                      {"the sheet's play", h.sheet_play},
                                                      {"the outside width", h.width},
                                                      {"the outside length", h.length},
                                                      {"the rails' thickness", h.rail},
                                                      {"the sheet's slot", h.sheet_slot},
                                                      {"the lid's thickness", h.lid},
                                                      {"the lid's ledge", h.ledge}};
    if (h.slide) {
      const PackHolder::Slide& s = *h.slide;
      sizes.insert(sizes.end(), {{"the wall before the slide", s.wall},
                                 {"the slide's slot", s.slot},
                                 {"the slide's thickness", s.thickness},
                                 {"the slide's width", s.width},
                                 {"the slide's wide end", s.end_width},
                                 {"the slide's wide end along it", s.end_length},
                                 {"the slide's reach", s.reach},
                                 {"the slide's stops", s.stops},
                                 {"the slide's tab", s.tab},
                                 {"the felt", s.felt},
                                 {"the felt's width", s.felt_width},
                                 {"the felt's pocket", s.pocket},
                                 {"the felt's place", s.felt_at}});
    }
    for (const auto& [name, size] : sizes) faults_.need_size(name, size);
  }

  void find_tray() {
    const PackHolder& h = h_;
    const std::string smaller = "a smaller picture";
    need_wall("before the sheet the rails are", h.rail, "thicker rails");
    need_wall("the lid is", h.lid, "a thicker lid");
    need_wall("beside the lid the tray has across", (h.width - h.lid_width()) / 2 - h.gap, smaller);
    need_wall("beside the lid the tray has along", (h.length - h.lid_height()) / 2 - h.gap,
              smaller);
    faults_.need("lid-falls-in", "around the sheet's slot the lid lies on a ledge of",
                 h.ledge - h.gap, least_ledge, "a wider ledge");
    faults_.need("sheet-falls-through", "the rails hold the sheet, pushed to one side, by",
                 std::min(h.sheet_width - h.picture_width, h.sheet_height - h.picture_height) / 2 -
                     h.sheet_play,
                 least_rail, smaller);
  }

  void find_slide(const PackHolder::Slide& s) {
    const PackHolder& h = h_;
    const std::string smaller = "a smaller picture", thinner = "a thinner slide";
    need_wall("before the felt the face's wall is", s.wall - s.pocket, "a thicker wall");
    need_wall("beside the slide's groove the face has", (h.width - h.groove()) / 2, smaller);
    need_wall("beyond the slide's groove the face has", h.length / 2 + h.groove_end(), smaller);
    faults_.need("slide-uncovers", "on each side of the picture the slide covers",
                 (s.width - h.picture_width) / 2 - h.gap, least_cover, "a wider slide");
    faults_.need("slide-uncovers", "beyond the picture the slide reaches", s.reach, least_cover,
                 "a longer slide");
    faults_.need("slide-unstopped", "of each of its stops the slide's wide end keeps",
                 (s.end_width - s.width) / 2 - 2 * h.gap, least_stop, "a wider end");
    faults_.need("slide-unstopped", "the slide's wide end is along it", s.end_length,
                 h.smallest_wall, "a longer end");
    faults_.need("slide-uncovers", "drawn to its stops the slide's end clears the picture by",
                 s.stops - s.end_length - h.picture_height / 2, Length{}, smaller);
    faults_.need("slide-tight", "in its slot the slide has", s.slot - s.thickness, 2 * h.gap,
                 thinner);
    const Length room = s.pocket + s.slot - s.thickness;
    faults_.need("felt-jams", "between slide and pocket the felt has", room, least_felt * s.felt,
                 "thinner felt");
    faults_.need("felt-loose", "pressed by the slide a felt of this thickness seals a room of",
                 most_felt * s.felt, room, "thicker felt");
    need_wall("between the stops and the felt the mouth has", s.felt_at - s.stops, smaller);
    need_wall("outside the felt the mouth has", h.length / 2 - s.felt_at - s.felt_width, smaller);
  }

  const PackHolder& h_;
  FaultList faults_{"pack-holder-size"};
};

}  // namespace

std::vector<PartFault> faults(const PackHolder& holder) { return FaultFinder(holder).faults(); }

}  // namespace backfit

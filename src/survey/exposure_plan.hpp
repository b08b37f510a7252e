// SPDX-License-Identifier: MIT
// What is loaded and how it shall be lit, for the exposure card: part of a conversion file.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "files/fields.hpp"
#include "quantity/light.hpp"

namespace backfit {

enum class LightColour { day, lamp };
enum class FlashContact { x, m };

// A filter on the lens.
struct FilterPlan {
  Place place;
  Stated<std::string> name;
  Stated<Measured<double>> factor;
};

// Electronic flash by its guide number, or a bulb by its type.
struct FlashPlan {
  Place place;
  std::optional<Stated<Length>> guide_number;         // as the maker prints it: stop times distance
  std::optional<Stated<IsoSpeed>> for_speed;          // that the guide number is printed for
  std::optional<Stated<std::string>> bulb;            // an id of the shipped bulbs
  std::optional<Stated<Measured<double>>> reflector;  // light in the beam against the bare bulb
  std::optional<Stated<FlashContact>> contact;
};

struct PictureCost {
  Place place;
  Stated<Money> pack;
  Stated<int> pictures;                     // in a pack
  std::optional<Stated<Money>> processing;  // of one picture
};

// What it costs in the currency of the prices.
double cost_of(const PictureCost& cost);

// A step wedge laid over the material: densities of the wedge and of the material under it.
struct WedgeTest {
  Place place;
  std::vector<Stated<double>> steps, read;
  Stated<double> base_plus_fog;
  Stated<Measured<Illuminance>> light;  // on the wedge
  Stated<Measured<Time>> time;
  Stated<LightColour> lit_by;
};

// The filters of the last test of colour paper by reversal, and what a grey card became.
struct PackTest {
  Place place;
  std::optional<Stated<double>> yellow, magenta, cyan;  // densities; left out: none
  std::vector<Stated<double>> grey;   // densities of its print behind red, green and blue
  std::optional<Stated<double>> aim;  // left out: 0.75, a grey card's own
};

struct ExposurePlan {
  Place place;
  Stated<std::string> emulsion;              // an id of the shipped emulsions
  std::optional<Stated<IsoSpeed>> index;     // found by your own test
  std::optional<Stated<LightColour>> light;  // left out: daylight
  std::vector<FilterPlan> filters;
  std::optional<Stated<Measured<Length>>> subject;  // from the lens; left out: far away
  std::optional<Stated<double>> scene_stops;        // from shadow to light
  std::optional<Stated<Time>> longest_by_hand;      // left out: 1/30 s
  std::optional<Stated<bool>> share_corners;        // give half of what the picture's corner lacks
  std::optional<WedgeTest> wedge;
  std::optional<PackTest> pack;
  std::optional<FlashPlan> flash;
  std::optional<PictureCost> cost;
};

void describe(Fields& fields, FilterPlan& filter);
void describe(Fields& fields, FlashPlan& flash);
void describe(Fields& fields, PictureCost& cost);
void describe(Fields& fields, WedgeTest& wedge);
void describe(Fields& fields, PackTest& pack);
void describe(Fields& fields, ExposurePlan& exposure);

template <>
std::span<const std::pair<std::string_view, LightColour>> choices_of<LightColour>();
template <>
std::span<const std::pair<std::string_view, FlashContact>> choices_of<FlashContact>();

}  // namespace backfit

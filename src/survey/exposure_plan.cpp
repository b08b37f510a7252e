// SPDX-License-Identifier: MIT
#include "survey/exposure_plan.hpp"

namespace backfit {

template <>
std::span<const std::pair<std::string_view, LightColour>> choices_of<LightColour>() {
  static constexpr std::pair<std::string_view, LightColour> list[] = {
      {"daylight", LightColour::day}, {"tungsten", LightColour::lamp}};
  return list;
}
template <>
std::span<const std::pair<std::string_view, FlashContact>> choices_of<FlashContact>() {
  static constexpr std::pair<std::string_view, FlashContact> list[] = {{"X", FlashContact::x},
                                                                       {"M", FlashContact::m}};
  return list;
}

void describe(Fields& f, FilterPlan& p) {
  f.value("name", p.name, {"which filter", "yellow"});
  f.value("factor", p.factor, {"how many times the light", "2x"});
}

void describe(Fields& f, FlashPlan& p) {
  f.value("guide_number", p.guide_number,
          {"of an electronic flash, as its maker prints it: stop times distance", "24 m"});
  f.value("for_speed", p.for_speed, {"film speed of that guide number", "ISO 100/21°"});
  f.value("bulb", p.bulb, {"of a bulb instead: an id that `backfit films --bulbs` lists", "no-11"});
  f.value(
      "reflector", p.reflector,
      {"of a bulb: light in the beam against the bare bulb, 5 to 8 in a polished bowl", "6.5x"});
  f.value("contact", p.contact, {"the contact that fires it"});
}

void describe(Fields& f, PictureCost& p) {
  f.value("pack", p.pack, {"price of a pack of the material", "35.00"});
  f.value("pictures", p.pictures, {"pictures in it", "25"});
  f.value("processing", p.processing, {"chemicals of one picture", "0.30"});
}

double cost_of(const PictureCost& c) {
  return c.pack->amount / *c.pictures + (c.processing ? c.processing->value.amount : 0);
}

void describe(Fields& f, WedgeTest& p) {
  const About density{"", "", Tool::none, Sign::not_negative};
  About about = density;
  about.meaning = "densities of the wedge's steps";
  about.example = "0.05, 0.20, 0.35, 0.50, 0.65";
  f.values("steps", p.steps, about, true);
  about.meaning = "densities of the material under them, in the same order";
  about.example = "1.42, 1.05, 0.66, 0.35, 0.18";
  f.values("read", p.read, about, true);
  about.meaning = "density of the material where no light fell";
  about.example = "0.08";
  f.value("base_plus_fog", p.base_plus_fog, about);
  f.value("light", p.light, {"on the wedge, by a lux meter", "4.0 lx ± 10 %"});
  f.value("time", p.time, {"how long it shone", "2 s ± 3 %"});
  f.value("lit_by", p.lit_by, {"colour of that light"});
}

void describe(Fields& f, PackTest& p) {
  const auto filter = [](std::string_view meaning, std::string_view example) {
    return About{meaning, example, Tool::none, Sign::not_negative};
  };
  f.value("yellow", p.yellow, filter("density of yellow in the pack", "0.60"));
  f.value("magenta", p.magenta, filter("density of magenta in the pack", "0.40"));
  f.value("cyan", p.cyan, filter("density of cyan in the pack", "0.10"));
  f.values(
      "grey", p.grey,
      filter("densities of a grey card's print behind red, green and blue", "0.82, 0.74, 0.61"),
      true);
  f.value("aim", p.aim, {"density that the print of the grey card shall have", "0.75"});
}

void describe(Fields& f, ExposurePlan& p) {
  f.value("emulsion", p.emulsion,
          {"what kind of film or paper it is: an id that `backfit films --emulsions` lists",
           "cubic-400-british"});
  f.value("index", p.index,
          {"exposure index of your own test in daylight; left out: the shipped one", "EI 250"});
  f.value("light", p.light, {"colour of the light; left out: daylight"});
  f.value("subject", p.subject,
          {"lens to subject, for the card's column of near exposures; left out: far away",
           "1.5 m ± 0.05", Tool::ruler});
  f.value("scene_stops", p.scene_stops, {"range of the scene from shadow to light, stops", "7"});
  f.value("longest_by_hand", p.longest_by_hand,
          {"longest time that you hold the camera by hand; left out: 1/30 s", "1/30 s"});
  f.value(
      "share_corners", p.share_corners,
      {"whether half of what the picture's corner loses is given on top, as negatives bear it"});
  f.records("filters", p.filters, {"A filter on the lens"}, false);
  f.record("flash", p.flash, {"The flash, electronic or bulb"});
  f.record("wedge", p.wedge, {"A step wedge laid over the material, to find its index"});
  f.record("pack", p.pack, {"Colour paper by reversal: filters of the last test, what it gave"});
  f.record("cost", p.cost, {"What a picture costs, in the currency of the prices"});
}

}  // namespace backfit

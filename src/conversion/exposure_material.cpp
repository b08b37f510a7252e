// SPDX-License-Identifier: MIT
#include "conversion/exposure_material.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "conversion/looked_up.hpp"

namespace backfit {
namespace {

// A film's box speed and a meter's mark are trusted to a third of a stop (common practice).
constexpr Stops within_a_third{1.0 / 3 * std::numbers::inv_sqrt3};
// What a law of long times that stands alone, and a stop more for one from memory, may be off by:
// sheets of one film have differed by 0.6 stop at 10 s.
constexpr Stops lone_law_doubt{0.3}, memory_law_doubt{0.5};

ReciprocityLaw law_of(const LongTimeLaw& law) {
  if (*law.law == LawForm::exponent) return PowerLaw{**law.exponent};
  if (*law.law == LawForm::added) return AddedLaw{**law.coefficient};
  TableLaw table;
  for (std::size_t i = 0; i < law.calculated.size(); ++i) {
    table.points.emplace_back(*law.calculated[i], *law.corrected[i]);
  }
  return table;
}

// Half of the indices in use, as a rectangular distribution in stops; a third of a stop without.
Stops doubt_of_index(const Emulsion& e) {
  if (!e.index_from || !e.index_to) return within_a_third;
  const double span = std::log2(e.index_to->value->value / e.index_from->value->value);
  return {std::max(within_a_third.value, span / 2 * std::numbers::inv_sqrt3)};
}

bool flash_makes_sense(const FlashPlan& flash, Diagnostics& diagnostics) {
  const bool number = flash.guide_number.has_value(), bulb = flash.bulb.has_value();
  if (number == bulb) {
    diagnostics.error(flash.place, number ? "a flash has a guide_number or a bulb, not both"
                                          : "the flash has neither a guide_number nor a bulb");
    return false;
  }
  if (number && !flash.for_speed) {
    diagnostics.error(flash.guide_number->place,
                      "a guide number is for one film speed: 'for_speed' is missing",
                      "for_speed = \"ISO 100/21°\"");
    return false;
  }
  if (bulb && !flash.reflector) {
    diagnostics.error(flash.bulb->place,
                      "a bulb's light needs its reflector: 'reflector' is missing",
                      "reflector = \"6.5x ± 1.5\"");
    return false;
  }
  return true;
}

}  // namespace

std::optional<SensitiveBand> band_of(Sees sees) {
  switch (sees) {
    case Sees::panchromatic:
      return panchromatic;
    case Sees::orthochromatic:
      return orthochromatic;
    case Sees::blue_only:
      return blue_only;
    case Sees::blue_and_green:
      return blue_and_green;
    case Sees::colour:
      break;
  }
  return {};
}

IsoSpeed ExposureMaterial::index_in_light() const { return {index.value * factor_of(light_gain)}; }

LawTime ExposureMaterial::long_time(Time calculated) const {
  return laws.empty() ? LawTime{calculated} : corrected_by(laws.front().law, calculated);
}

Stops ExposureMaterial::long_time_doubt(Time calculated) const {
  if (laws.empty()) return {};
  const Time used = long_time(calculated).time;
  Stops doubt = laws.front().from_memory ? memory_law_doubt : lone_law_doubt;
  for (const HeldLaw& other : laws) {
    const double apart = std::abs(stops_of(corrected_by(other.law, calculated).time / used).value);
    doubt.value = std::max(doubt.value, apart * std::numbers::inv_sqrt3);
  }
  return doubt;
}

std::optional<ExposureMaterial> exposure_material(const Assembly& assembly,
                                                  const ExposureShelf& shelf,
                                                  Diagnostics& diagnostics) {
  if (!assembly.plan.exposure) return {};
  const ExposurePlan& plan = *assembly.plan.exposure;
  const Emulsion* emulsion = looked_up(shelf.exposure.emulsions, plan.emulsion, "emulsion",
                                       "backfit films --emulsions", diagnostics);
  bool good = emulsion != nullptr;
  const Bulb* bulb = nullptr;
  if (plan.flash) {
    good &= flash_makes_sense(*plan.flash, diagnostics);
    if (plan.flash->bulb) {
      bulb = looked_up(shelf.process.bulbs, *plan.flash->bulb, "flash bulb",
                       "backfit films --bulbs", diagnostics);
      good &= bulb != nullptr;
    }
  }
  for (const FilterPlan& f : plan.filters) {
    if (f.factor->value >= 1) continue;
    diagnostics.error(f.factor.place, fmt::format("a filter takes light: its factor is 1x or more, "
                                                  "not {:g}x",
                                                  f.factor->value));
    good = false;
  }
  if (plan.cost && !assembly.plan.prices) {
    diagnostics.error(plan.cost->place, "a cost needs the currency of [prices]",
                      "add [prices] with currency = \"EUR\"");
    good = false;
  }
  if (plan.index && plan.wedge) {
    diagnostics.error(plan.wedge->place, "the index is given, and a wedge to find it from",
                      "leave index or [exposure.wedge] out");
    good = false;
  }
  std::optional<WedgeFound> wedge;
  std::optional<NextPack> pack;
  if (emulsion != nullptr && plan.wedge) {
    wedge = found_by_wedge(*plan.wedge, *emulsion, diagnostics);
    good &= wedge.has_value();
  }
  if (emulsion != nullptr && plan.pack) {
    pack = next_pack(*plan.pack, *emulsion, diagnostics);
    good &= pack.has_value();
  }
  if (!good) return {};

  ExposureMaterial m;
  m.emulsion = *emulsion;
  m.index_is_own = plan.index || wedge;
  m.index = plan.index ? **plan.index : *emulsion->index.value;
  m.index_doubt = m.index_is_own ? within_a_third : doubt_of_index(*emulsion);
  m.light = plan.light ? **plan.light : LightColour::day;
  Stops lamp_gain;
  if (const auto band = band_of(*emulsion->sees)) {
    lamp_gain = gain_by_colour(*band, tungsten, daylight);
    if (m.light == LightColour::lamp) {
      m.light_gain = lamp_gain;
      m.light_doubt = colour_model_doubt;
    }
  }
  if (wedge) {
    const bool by_lamp = wedge->lit_by == LightColour::lamp;
    m.index = {wedge->in_its_light.value / (by_lamp ? factor_of(lamp_gain) : 1)};
    m.index_doubt = wedge->standard_uncertainty;
    // One doubt of the model of colour, wherever light and wedge differ; none where they agree.
    const bool differ = lamp_gain.value != 0 && m.light != wedge->lit_by;
    if (differ) {
      m.index_doubt = {std::hypot(m.index_doubt.value, colour_model_doubt.value)};
    }
    m.light_doubt = {};
  }
  m.wedge = wedge;
  m.pack = pack;
  for (const LongTimeLaw* law : shelf.exposure.laws_of(*emulsion->id)) {
    m.laws.push_back({*law->edition, law_of(*law), *law->status == Standing::from_memory});
  }
  for (const FilterPlan& f : plan.filters) {
    const Measured<double>& factor = *f.factor;
    m.filters.push_back({*f.name + " filter",
                         stops_of(factor.value),
                         {factor.standard_uncertainty() / factor.value / std::numbers::ln2}});
  }
  if (bulb != nullptr) m.bulb = *bulb;
  if (plan.cost) m.picture_cost = cost_of(*plan.cost);
  return m;
}

}  // namespace backfit

// SPDX-License-Identifier: MIT
#include "catalogue/exposure_data.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "catalogue/citing.hpp"
#include "files/reader.hpp"

namespace backfit {

template <>
std::span<const std::pair<std::string_view, Process>> choices_of<Process>() {
  static constexpr std::pair<std::string_view, Process> list[] = {
      {"negative", Process::negative},
      {"reversal film", Process::reversal_film},
      {"direct positive", Process::direct_positive},
      {"reversal paper", Process::reversal_paper},
      {"instant", Process::instant}};
  return list;
}
template <>
std::span<const std::pair<std::string_view, Sees>> choices_of<Sees>() {
  static constexpr std::pair<std::string_view, Sees> list[] = {
      {"panchromatic", Sees::panchromatic},
      {"orthochromatic", Sees::orthochromatic},
      {"blue only", Sees::blue_only},
      {"blue and green", Sees::blue_and_green},
      {"colour", Sees::colour}};
  return list;
}
template <>
std::span<const std::pair<std::string_view, LawForm>> choices_of<LawForm>() {
  static constexpr std::pair<std::string_view, LawForm> list[] = {
      {"exponent", LawForm::exponent}, {"added", LawForm::added}, {"table", LawForm::table}};
  return list;
}

void describe(Fields& f, LightLevel& l) {
  f.value("id", l.id, {"short name for files"});
  f.value("name", l.name, {"name for people"});
  f.value("condition", l.condition, {"what it is a level of"});
  f.record("from_lx", l.from_lx, {"illuminance, or the least of it, in lux"});
  f.record("to_lx", l.to_lx, {"the most of it"});
  f.value("note", l.note, {"what it is not good for"});
}

void describe(Fields& f, Emulsion& e) {
  f.value("id", e.id, {"short name for files"});
  f.value("name", e.name, {"name for people"});
  f.value("process", e.process, {"what it becomes"});
  f.value("sees", e.sees, {"which light it records"});
  f.record("index", e.index, {"speed in daylight"});
  f.record("index_from", e.index_from, {"least index in use"});
  f.record("index_to", e.index_to, {"greatest index in use"});
  f.record("log_range", e.log_range, {"log10 of the range of exposure that it takes"});
  f.value("note", e.note, {"what it is not good for"});
}

void describe(Fields& f, LongTimeLaw& l) {
  f.value("emulsion", l.emulsion, {"the emulsion"});
  f.value("edition", l.edition, {"whose and of when"});
  f.value("law", l.law, {"its form"});
  f.value("exponent", l.exponent, {"of an exponent law"});
  f.value("coefficient", l.coefficient, {"of an added law"});
  f.values("calculated", l.calculated, {"times of a table"}, false);
  f.values("corrected", l.corrected, {"what they become"}, false);
  f.value("source", l.source, {"id of its source"});
  f.value("status", l.status, {"how it came here"});
}

void describe(Fields& f, Cited<Mired>& c) {
  f.value("value", c.value, {"the number", "-10", Tool::none, Sign::any});
  f.value("source", c.source, {"id of its source"});
  f.value("status", c.status, {"how it came here"});
}

void describe(Fields& f, ColourFilter& c) {
  f.value("id", c.id, {"short name for files"});
  f.value("name", c.name, {"name for people"});
  f.record("shift_mired", c.shift_mired, {"shift in mired"});
  f.record("stops", c.stops, {"stops more"});
}

namespace {

bool complete(const LongTimeLaw& law) {
  switch (*law.law) {
    case LawForm::exponent:
      return law.exponent.has_value();
    case LawForm::added:
      return law.coefficient.has_value();
    case LawForm::table: {
      const auto rising = [](const std::vector<Stated<Time>>& times) {
        return std::ranges::is_sorted(times, std::ranges::less_equal{},
                                      [](const Stated<Time>& t) { return *t; });
      };
      return !law.calculated.empty() && law.calculated.size() == law.corrected.size() &&
             rising(law.calculated) && rising(law.corrected);
    }
  }
  return false;
}

}  // namespace

const Emulsion* ExposureData::emulsion(std::string_view id) const { return with_id(emulsions, id); }
const ColourFilter* ExposureData::filter(std::string_view id) const { return with_id(filters, id); }

std::vector<const LongTimeLaw*> ExposureData::laws_of(std::string_view emulsion) const {
  std::vector<const LongTimeLaw*> found;
  for (const LongTimeLaw& law : laws) {
    if (*law.emulsion == emulsion) found.push_back(&law);
  }
  return found;
}

std::vector<const LightLevel*> ExposureData::levels_of(std::string_view condition) const {
  std::vector<const LightLevel*> found;
  for (const LightLevel& level : light) {
    if (*level.condition == condition) found.push_back(&level);
  }
  return found;
}

double dispute_stops(const std::vector<const LightLevel*>& levels) {
  assert(!levels.empty());
  double least = *levels.front()->from_lx.value, most = least;
  for (const LightLevel* level : levels) {
    least = std::min(least, *level->from_lx.value);
    most = std::max(most, level->to_lx ? *level->to_lx->value : *level->from_lx.value);
  }
  return std::log2(most / least);
}

std::optional<ExposureData> read_exposure_data(const std::filesystem::path& data,
                                               Diagnostics& diagnostics) {
  ExposureData d;
  bool good = read_data_file(
      data / "light.toml", [&](Fields& f) { f.records("light", d.light, {"Light"}, true); },
      diagnostics);
  good &= read_data_file(
      data / "emulsions.toml",
      [&](Fields& f) { f.records("emulsion", d.emulsions, {"Emulsions"}, true); }, diagnostics);
  good &= read_data_file(
      data / "reciprocity.toml",
      [&](Fields& f) { f.records("reciprocity", d.laws, {"Laws of long times"}, true); },
      diagnostics);
  good &= read_data_file(
      data / "filters.toml", [&](Fields& f) { f.records("filter", d.filters, {"Filters"}, true); },
      diagnostics);
  if (!good) return {};
  for (const LongTimeLaw& law : d.laws) {
    if (complete(law)) continue;
    diagnostics.error(
        law.law.place,
        "an exponent law has an exponent, an added law a coefficient, a table as many "
        "calculated as corrected times, both rising");
    good = false;
  }
  if (!good) return {};
  return d;
}

}  // namespace backfit

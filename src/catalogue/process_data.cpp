// SPDX-License-Identifier: MIT
#include "catalogue/process_data.hpp"

#include "catalogue/citing.hpp"
#include "files/reader.hpp"

namespace backfit {

void describe(Fields& f, Bulb& b) {
  f.value("id", b.id, {"short name for files"});
  f.value("name", b.name, {"name for people"});
  f.value("class", b.class_, {"class by time to peak"});
  f.record("time_to_peak", b.time_to_peak, {"from firing to the peak"});
  f.record("light_lm_s", b.light_lm_s, {"light of the whole flash, lumen seconds"});
  f.record("peak_lm", b.peak_lm, {"peak flux, lumens"});
  f.value("note", b.note, {"what it is not good for"});
}

void describe(Fields& f, Hazard& h) {
  f.value("id", h.id, {"short name for files"});
  f.value("advice", h.advice, {"the usual caution"});
  f.value("source", h.source, {"id of its source"});
  f.value("status", h.status, {"how it came here"});
}

void describe(Fields& f, ProcessStep& s) {
  f.value("id", s.id, {"short name for files"});
  f.value("name", s.name, {"name for people"});
  f.value("dark", s.dark, {"in total darkness"});
  f.record("from_s", s.from_s, {"shortest time, seconds"});
  f.record("to_s", s.to_s, {"longest time, seconds"});
  f.record("from_celsius", s.from_celsius, {"temperature, or the lowest"});
  f.record("to_celsius", s.to_celsius, {"the highest"});
  f.value("how", s.how, {"what matters"});
  f.values("hazards", s.hazards, {"ids of its hazards"}, false);
}

const Bulb* ProcessData::bulb(std::string_view id) const { return with_id(bulbs, id); }
const Hazard* ProcessData::hazard(std::string_view id) const { return with_id(hazards, id); }

std::optional<ProcessData> read_process_data(const std::filesystem::path& data,
                                             Diagnostics& diagnostics) {
  ProcessData d;
  bool good = read_data_file(
      data / "bulbs.toml", [&](Fields& f) { f.records("bulb", d.bulbs, {"Bulbs"}, true); },
      diagnostics);
  good &= read_data_file(
      data / "reversal.toml", [&](Fields& f) { f.records("step", d.reversal, {"Steps"}, true); },
      diagnostics);
  good &= read_data_file(
      data / "hazards.toml", [&](Fields& f) { f.records("hazard", d.hazards, {"Hazards"}, true); },
      diagnostics);
  if (!good) return {};
  for (const ProcessStep& step : d.reversal) {
    for (const auto& id : step.hazards) {
      if (d.hazard(*id) != nullptr) continue;
      diagnostics.error(id.place, "no hazard '" + *id + "' in hazards.toml");
      good = false;
    }
  }
  if (!good) return {};
  return d;
}

}  // namespace backfit

// SPDX-License-Identifier: MIT
// Flash bulbs, the steps of the reversal process, and the cautions, as shipped, each with its
// source.
#pragma once
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "catalogue/catalogue.hpp"

namespace backfit {

struct Bulb {
  Place place;
  Stated<std::string> id, name;
  Stated<std::string> class_;  // by time to peak: F, MF, M, S
  Cited<Time> time_to_peak;
  Cited<double> light_lm_s;
  std::optional<Cited<double>> peak_lm;
  std::optional<Stated<std::string>> note;
};

// The usual caution at a step, quoted whole.
struct Hazard {
  Place place;
  Stated<std::string> id, advice;
  Stated<std::string> source;
  Stated<Standing> status;
};

struct ProcessStep {
  Place place;
  Stated<std::string> id, name;
  Stated<bool> dark;  // in total darkness
  std::optional<Cited<double>> from_s, to_s;
  std::optional<Cited<double>> from_celsius, to_celsius;
  std::optional<Stated<std::string>> how;
  std::vector<Stated<std::string>> hazards;  // ids of ProcessData::hazards
};

struct ProcessData {
  std::vector<Bulb> bulbs;
  std::vector<ProcessStep> reversal;  // in order
  std::vector<Hazard> hazards;

  // The entry with this id, or null.
  const Bulb* bulb(std::string_view id) const;
  const Hazard* hazard(std::string_view id) const;
};

// The data in the folder `data`. Adds errors and returns empty when a file is missing or has a
// mistake, or when a step names a hazard that isn't there.
std::optional<ProcessData> read_process_data(const std::filesystem::path& data,
                                             Diagnostics& diagnostics);

}  // namespace backfit

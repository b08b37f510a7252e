// SPDX-License-Identifier: MIT
// Light levels, emulsions, their laws of long times, and filters as shipped, each with its source.
#pragma once
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "quantity/light.hpp"

namespace backfit {

// A published illuminance of a condition, one value or from one to another, in lux.
struct LightLevel {
  Place place;
  Stated<std::string> id, name, condition;
  Cited<double> from_lx;
  std::optional<Cited<double>> to_lx;
  std::optional<Stated<std::string>> note;
};

template <>
struct Codec<Mired> {
  static CellForm form() { return {CellForm::Form::number}; }
  static Mired from(const Cell& c) { return {c.number}; }
};

enum class Process { negative, reversal_film, direct_positive, reversal_paper, instant };
enum class Sees { panchromatic, orthochromatic, blue_only, blue_and_green, colour };

// A light-sensitive material. The indices are for daylight.
struct Emulsion {
  Place place;
  Stated<std::string> id, name;
  Stated<Process> process;
  Stated<Sees> sees;
  Cited<IsoSpeed> index;
  std::optional<Cited<IsoSpeed>> index_from, index_to;  // what others use
  std::optional<Cited<double>> log_range;               // log10 of exposure that it takes
  std::optional<Stated<std::string>> note;
};

enum class LawForm { exponent, added, table };

// A law of long times, quoted whole: one edition of it has one source.
struct LongTimeLaw {
  Place place;
  Stated<std::string> emulsion, edition;
  Stated<LawForm> law;
  std::optional<Stated<double>> exponent, coefficient;
  std::vector<Stated<Time>> calculated, corrected;
  Stated<std::string> source;
  Stated<Standing> status;
};

struct ColourFilter {
  Place place;
  Stated<std::string> id, name;
  Cited<Mired> shift_mired;
  std::optional<Cited<double>> stops;  // more exposure
};

struct ExposureData {
  std::vector<LightLevel> light;
  std::vector<Emulsion> emulsions;
  std::vector<LongTimeLaw> laws;
  std::vector<ColourFilter> filters;

  // The entry with this id, or null.
  const Emulsion* emulsion(std::string_view id) const;
  const ColourFilter* filter(std::string_view id) const;
  // The laws of one emulsion, the one to use first; empty when none is held.
  std::vector<const LongTimeLaw*> laws_of(std::string_view emulsion) const;
  // The levels of one condition, in the file's order.
  std::vector<const LightLevel*> levels_of(std::string_view condition) const;
};

template <>
std::span<const std::pair<std::string_view, Sees>> choices_of<Sees>();

// The least over the greatest illuminance of `levels` in stops: how far publications of one
// condition disagree. Requires levels.
double dispute_stops(const std::vector<const LightLevel*>& levels);

// The data in the folder `data`. Adds errors and returns empty when a file is missing or has a
// mistake, or when a law lacks what its form needs.
std::optional<ExposureData> read_exposure_data(const std::filesystem::path& data,
                                               Diagnostics& diagnostics);

}  // namespace backfit

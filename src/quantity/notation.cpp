// SPDX-License-Identifier: MIT
#include "quantity/notation.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "quantity/light.hpp"

namespace backfit {
namespace {

constexpr UnitName length_units[] = {{"mm", 1},      {"cm", 10},   {"m", 1000},
                                     {"µm", 1e-3},   {"um", 1e-3}, {"in", 25.4},
                                     {"inch", 25.4}, {"\"", 25.4}, {"ft", 304.8}};
constexpr UnitName time_units[] = {{"s", 1}, {"ms", 1e-3}, {"µs", 1e-6}, {"us", 1e-6}, {"min", 60}};
constexpr UnitName angle_units[] = {{"deg", deg.base()}, {"°", deg.base()}, {"rad", 1}};
constexpr UnitName resistance_units[] = {{"Ω", ohm.base()},   {"ohm", ohm.base()},
                                         {"kΩ", kohm.base()}, {"kohm", kohm.base()},
                                         {"MΩ", Mohm.base()}, {"Mohm", Mohm.base()}};
constexpr UnitName capacitance_units[] = {
    {"µF", uF.base()}, {"uF", uF.base()}, {"nF", nF.base()}, {"pF", 1e-3 * nF.base()}};
constexpr UnitName voltage_units[] = {{"V", volt.base()}, {"mV", 1e-3 * volt.base()}};
constexpr UnitName current_units[] = {{"mA", mA.base()}, {"A", 1}, {"µA", 1e-6}, {"uA", 1e-6}};
constexpr UnitName dioptre_units[] = {{"dpt", dioptre.base()}, {"1/m", dioptre.base()}};
constexpr UnitName density_units[] = {{"g/cm3", gram_per_cm3.base()},
                                      {"g/cm³", gram_per_cm3.base()},
                                      {"kg/m3", 1e-3 * gram_per_cm3.base()}};
constexpr UnitName illuminance_units[] = {{"lx", lux.base()}, {"fc", foot_candle.base()}};
constexpr UnitName f_number_units[] = {{"f/", 1, true}};
constexpr UnitName speed_units[] = {{"ISO", 1, true}, {"EI", 1, true}};
constexpr UnitName factor_units[] = {{"x", 1}, {"×", 1}, {"%", 0.01}};

constexpr QuantityKind length_kind{"length", length_units, "73.0 mm ± 0.1"};
constexpr QuantityKind time_kind{"time", time_units, "1/125 s"};
constexpr QuantityKind angle_kind{"angle", angle_units, "57 deg ± 3"};
constexpr QuantityKind resistance_kind{"resistance", resistance_units, "47 kΩ 5%"};
constexpr QuantityKind capacitance_kind{"capacitance", capacitance_units, "1 µF 10%"};
constexpr QuantityKind voltage_kind{"voltage", voltage_units, "6.0 V ± 0.1"};
constexpr QuantityKind current_kind{"current", current_units, "300 mA"};
constexpr QuantityKind dioptre_kind{"power of a lens", dioptre_units, "2 dpt"};
constexpr QuantityKind density_kind{"density", density_units, "1.24 g/cm3"};
constexpr QuantityKind illuminance_kind{"illuminance", illuminance_units, "4.0 lx ± 10 %"};
constexpr QuantityKind f_number_kind{"f-number", f_number_units, "f/8.8"};
constexpr QuantityKind speed_kind{"film speed", speed_units, "ISO 400/27°"};
constexpr QuantityKind factor_kind{"factor", factor_units, "2.2x"};

constexpr std::array kinds{&length_kind,      &time_kind,        &angle_kind,    &resistance_kind,
                           &capacitance_kind, &voltage_kind,     &current_kind,  &dioptre_kind,
                           &density_kind,     &illuminance_kind, &f_number_kind, &speed_kind,
                           &factor_kind};

std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t up = row[j];
      row[j] = std::min({row[j] + 1, row[j - 1] + 1, diagonal + (a[i - 1] == b[j - 1] ? 0 : 1)});
      diagonal = up;
    }
  }
  return row[b.size()];
}

}  // namespace

std::span<const QuantityKind* const> all_kinds() { return kinds; }

template <>
const QuantityKind& kind_of<Length>() {
  return length_kind;
}
template <>
const QuantityKind& kind_of<Time>() {
  return time_kind;
}
template <>
const QuantityKind& kind_of<Angle>() {
  return angle_kind;
}
template <>
const QuantityKind& kind_of<Resistance>() {
  return resistance_kind;
}
template <>
const QuantityKind& kind_of<Capacitance>() {
  return capacitance_kind;
}
template <>
const QuantityKind& kind_of<Voltage>() {
  return voltage_kind;
}
template <>
const QuantityKind& kind_of<Current>() {
  return current_kind;
}
template <>
const QuantityKind& kind_of<Dioptre>() {
  return dioptre_kind;
}
template <>
const QuantityKind& kind_of<MassDensity>() {
  return density_kind;
}
template <>
const QuantityKind& kind_of<Illuminance>() {
  return illuminance_kind;
}
template <>
const QuantityKind& kind_of<FNumber>() {
  return f_number_kind;
}
template <>
const QuantityKind& kind_of<IsoSpeed>() {
  return speed_kind;
}
template <>
const QuantityKind& kind_of<double>() {
  return factor_kind;
}

std::string notation_pattern(const QuantityKind& kind) {
  const std::string number = R"([+-]?(\d+(\.\d+)?([eE][+-]?\d+)?|(\d+ +)?\d+/\d+))";
  std::string units;
  for (const UnitName& u : kind.units) {
    units += units.empty() ? "" : "|";
    for (const char c : u.spelling) {
      if (std::string_view("/.+*?()[]{}|^$\\").find(c) != std::string_view::npos) units += '\\';
      units += c;
    }
  }
  const std::string tolerance =
      R"(( *(±|\+/-|\+-) *)" + number + R"( *()" + units + R"(|%)?| +)" + number + R"( *%)?)";
  if (kind.units.front().before)
    return "^ *(" + units + ") *" + number + R"((/\d+°)?)" + tolerance + " *$";
  return "^ *" + number + " *(" + units + ")" + tolerance + " *$";
}

std::string_view nearest_name(std::string_view word, std::span<const std::string_view> names) {
  const std::size_t allowed = word.size() <= 3 ? 1 : 2;
  std::size_t best = allowed + 1;
  std::string_view found;
  for (const std::string_view name : names) {
    const std::size_t d = edit_distance(word, name);
    if (d < best) {
      best = d;
      found = name;
    }
  }
  return found;
}

std::string fixed(double value, int decimals) {
  std::string s = fmt::format("{:.{}f}", value, decimals);
  if (s.starts_with('-') && s.find_first_not_of("-0.") == std::string::npos) s.erase(0, 1);
  return s;
}

std::string text(Length value, int decimals) {
  if (abs(value) >= metre) return fixed(value / metre, decimals) + " m";
  return fixed(value / mm, decimals) + " mm";
}

std::string distance_text(Length distance) {
  if (std::isinf(distance / mm)) return "infinity";
  return text(distance, distance >= metre ? 2 : 0);
}

namespace {

// "8.63", `unit`, " ± 0.27": both rounded so that the half-width keeps two figures.
std::string with_half_width(Length value, Length standard_uncertainty, std::string_view unit) {
  const double expanded_mm = coverage_95 * (standard_uncertainty / mm);
  if (!(expanded_mm > 0)) return fixed(value / mm, 2) + std::string(unit);
  const int decimals = std::clamp(1 - static_cast<int>(std::floor(std::log10(expanded_mm))), 0, 3);
  return fixed(value / mm, decimals) + std::string(unit) + " ± " + fixed(expanded_mm, decimals);
}

}  // namespace

std::string text_with_u(Length value, Length standard_uncertainty) {
  return with_half_width(value, standard_uncertainty, " mm");
}

std::string mm_with_u(Length value, Length standard_uncertainty) {
  return with_half_width(value, standard_uncertainty, "");
}

std::string odds_text(double probability) {
  if (probability > 0.999) return "over 99.9 %";
  if (probability < 0.001) return "under 0.1 %";
  const double percent = 100 * probability;
  return fixed(percent, percent > 99 || percent < 1 ? 1 : 0) + " %";
}

std::string text(FNumber number) { return fmt::format("f/{:.3g}", number.value); }

}  // namespace backfit

// SPDX-License-Identifier: MIT
#include "cli/reading_options.hpp"

#include <fmt/format.h>

namespace backfit {

CLI::Validator within(double least, double greatest) {
  return CLI::Validator(
      [least, greatest](std::string& text) {
        double value = 0;
        const bool fits =
            CLI::detail::lexical_cast(text, value) && value >= least && value <= greatest;
        return fits ? std::string()
                    : fmt::format("'{}' is no number from {:g} to {:g}", text, least, greatest);
      },
      "", "within");
}

Reading read_option(const char* option, const std::string& text, const QuantityKind& kind,
                    Sign sign) {
  const auto read = read_quantity(text, kind, sign);
  if (const auto* reading = std::get_if<Reading>(&read)) return *reading;
  const NotationFault& fault = std::get<NotationFault>(read);
  throw CLI::ValidationError(
      option, fault.remedy.empty()
                  ? fault.message
                  : fmt::format("{}\n    = help: write \"{}\"", fault.message, fault.remedy));
}

Measured<Length> length_of(const char* option, const std::string& text) {
  const Reading r = read_option(option, text, kind_of<Length>(), Sign::positive);
  return {r.value * mm, r.tolerance.value_or(0) * mm};
}

}  // namespace backfit

// SPDX-License-Identifier: MIT
#include "documents/trap_answer.hpp"

#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "documents/fog_words.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

using Json = nlohmann::ordered_json;

constexpr Time minute = 60 * second;

// Six figures, the same from every compiler.
Json number(double value) {
  if (!std::isfinite(value)) return nullptr;
  return std::stod(fmt::format("{:.6g}", value));
}

// In stops; less is not worth a figure.
constexpr double least_doubt = 0.05;

std::string row(std::string_view what, const std::string& text) {
  return fmt::format("  {:<18}{}\n", what, text);
}

std::string plain(Length length) { return fmt::format("{:g}", length / mm); }

std::string with_width(const Measured<Length>& m) {
  return m.half_width == Length{} ? plain(m.value) + " mm"
                                  : plain(m.value) + " mm ± " + plain(m.half_width);
}

std::string title_of(const TrapQuestions& asked) {
  std::string out;
  if (const auto* gap = std::get_if<TrapQuestions::Gap>(&asked.way)) {
    out = fmt::format("gap of {}, arms", with_width(gap->gap));
    for (std::size_t i = 0; i < gap->arms.size(); ++i) {
      if (i > 0) out += gap->turns[i - 1] == Turn::left ? " L" : " R";
      out += " " + plain(gap->arms[i]);
    }
    out += " mm";
  } else {
    const auto& hole = std::get<TrapQuestions::Hole>(asked.way);
    out = fmt::format("bore of {}, {} long", with_width(hole.diameter), with_width(hole.length));
  }
  out += fmt::format(", walls scatter {:g} %", 100 * asked.reflectance.value);
  if (asked.reflectance.half_width > 0) {
    out += fmt::format(" ± {:g}", 100 * asked.reflectance.half_width);
  }
  if (asked.gloss_index > 1) out += fmt::format(" and mirror like index {:g}", asked.gloss_index);
  return out + "\n";
}

}  // namespace

std::string trap_summary(const TrapStudy& s) {
  std::string out = title_of(s.asked);
  if (s.through == 0) {
    return out + row("passes", "nothing: no straight way, and black walls");
  }
  const double doubt = coverage_95 * s.stops_u;
  out += row("passes", fmt::format("{:.2e} of the light at its mouth", s.through) +
                           (doubt < least_doubt
                                ? std::string()
                                : fmt::format(" ({:.1e} to {:.1e})", s.through * std::exp2(-doubt),
                                              s.through * std::exp2(doubt))));
  out += row("attenuation", fmt::format("{:.1f} stops ± {}", s.attenuation.value,
                                        doubt < least_doubt ? "under 0.05" : fixed(doubt, 1)));
  if (s.attenuation.budget.empty()) {
    out += row("limit", "all taken as exact; written with ± it tells how sure this is");
  } else {
    const Contribution& first = s.attenuation.budget.front();
    out +=
        row("limit", fmt::format("{} makes {:.0f} % of the doubt", first.name, 100 * first.share));
  }
  out += row("an hour of sun",
             fmt::format("{:.2g} lx·s on film against the inner mouth", s.an_hour / lux_second));
  if (s.an_hour_inside) {
    const auto& seam = s.asked.seam;
    out += row("", fmt::format("{:.2g} lm·s through {}", *s.an_hour_inside / lumen_second,
                               seam ? plain(*seam) + " mm of seam" : "the hole"));
  }
  for (const FogTime& f : s.fog) {
    const double factor = std::exp(coverage_95 * f.relative_u);
    out +=
        row(fmt::format("fog of {:.2f}", f.rise.value),
            fmt::format("ISO {:g} film against the mouth: {} of sun ({} to {})", s.asked.film.value,
                        fog_time_text(f.time), fog_time_text(f.time / factor), fog_time_text(f.time * factor)));
  }
  if (s.sees_through) {
    out +=
        row("note", "a straight line leads through: the sun, once it stands in it, passes whole");
  }
  return out;
}

std::string trap_json(const TrapStudy& s) {
  Json j{{"schema", "backfit.trap/1"},
         {"transmission", number(s.through)},
         {"transmission_u", number(s.through_u)},
         {"mesh_error", number(s.mesh_error)},
         {"stops", number(s.attenuation.value)},
         {"stops_u", number(s.stops_u)},
         {"stops_budget", Json::array()},
         {"sees_through", s.sees_through},
         {"sun_lx", number(full_sun.value / lux)},
         {"hour_lx_s", number(s.an_hour / lux_second)},
         {"hour_inside_lm_s",
          s.an_hour_inside ? number(*s.an_hour_inside / lumen_second) : Json(nullptr)},
         {"iso", number(s.asked.film.value)},
         {"minutes_to_fog", Json::array()}};
  for (const Contribution& c : s.attenuation.budget) {
    j["stops_budget"].push_back({{"input", c.name},
                                 {"contribution_stops", number(c.contribution)},
                                 {"share", number(c.share)}});
  }
  for (const FogTime& f : s.fog) {
    j["minutes_to_fog"].push_back({{"density_rise", number(f.rise.value)},
                                   {"minutes", number(f.time / minute)},
                                   {"minutes_u", number(f.relative_u * (f.time / minute))}});
  }
  return j.dump(2) + "\n";
}

}  // namespace backfit

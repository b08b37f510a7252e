// SPDX-License-Identifier: MIT
#include "documents/leak_answer.hpp"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

#include "documents/fog_words.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

std::string row(std::string_view what, const std::string& text) {
  return fmt::format("  {:<16}{}\n", what, text);
}

std::string hour_words(const LeakStudy& s) {
  const double whole = s.whole / lux, hour = leak_time / second;
  double mean = 0;
  for (const LeakPatch& p : s.patches) mean += p.all.mean / static_cast<double>(s.patches.size());
  return fmt::format("{:.2g} lx·s on the worst patch, {:.2g} on the mean", *s.an_hour / lux_second,
                     mean * whole * hour);
}

std::string seam_words(const LeakSeamLight& seam) {
  const std::string passed =
      seam.through > 0 ? fmt::format("{} stops less inside", fixed(-std::log2(seam.through), 1))
                       : "dark";
  return fmt::format("{:>3.0f} %  {}, {}: {} from {} mm wide, {:.0f} mm long", 100 * seam.share,
                     seam.name, seam.side, passed, fixed(seam.gap / mm, 2), seam.length / mm);
}

// The film's light in stops below daylight: a map of numbers as the film lies, from behind.
std::string map_lines(const LeakStudy& s) {
  std::string out;
  for (std::size_t r = 0; r < s.film.rows; ++r) {
    std::string line;
    for (std::size_t c = 0; c < s.film.columns; ++c) {
      const TallyResult& t = s.patches[r * s.film.columns + c].all;
      line += t.interval ? fmt::format("{:>7}", fixed(-std::log2(t.mean), 1))
                         : fmt::format("{:>7}", t.mean > 0 ? "?" : "dark");
    }
    out += row(r == 0 ? "stops, by place" : "", line);
  }
  return out;
}

}  // namespace

std::string verdict_words(const LeakStudy& s) {
  switch (s.verdict) {
    case LeakVerdict::tight:
      return "light-tight: the worst patch stays under 0.02 for an hour of sun";
    case LeakVerdict::leaks:
      return "leaks: the worst patch is over 0.02 within an hour of sun";
    case LeakVerdict::cannot_tell:
      return "cannot tell: an hour of sun brings about 0.02, within the doubt";
    case LeakVerdict::not_converged:
      return "not converged: more walks are needed before any number means something";
    case LeakVerdict::no_light_found:
      break;
  }
  return "no light found, which is no proof that there is none";
}

std::string remedy_words(const LeakStudy& s, const LeakStudy::Remedied& r) {
  if (!r.light.interval) {
    return r.light.mean > 0 ? "not converged" : "no light found";
  }
  const double factor = r.light.mean / s.worst_light.mean;
  const double u = std::hypot(r.light.standard_error / r.light.mean,
                              s.worst_light.standard_error / s.worst_light.mean) /
                   std::numbers::ln2;
  const double stops = -std::log2(factor);
  return fmt::format("{} stops ± {}{}", fixed(stops, 1), fixed(coverage_95 * u, 1),
                     std::abs(stops) < coverage_95 * u ? ", no change that shows" : "");
}

std::string light_words(const TallyResult& t) {
  if (t.interval) {
    return fmt::format("{:.2e} of daylight ({:.1e} to {:.1e})", t.mean, t.interval->low,
                       t.interval->high);
  }
  if (t.mean == 0) return fmt::format("no way found by {} walks", t.histories);
  return fmt::format(
      "not converged: {} walks, as good as {:.1f} equal ones, one with {:.0f} % of all",
      t.histories, t.effective_histories, 100 * t.largest_share);
}

std::string sun_words(const LeakStudy& s) {
  if (!(s.asked.sun > Illuminance{})) return "none";
  const auto dot = [](const SpacePoint& a, const SpacePoint& b) {
    return (a.x / mm) * (b.x / mm) + (a.y / mm) * (b.y / mm) + (a.z / mm) * (b.z / mm);
  };
  const auto along = [&](const SpacePoint& d) { return dot(s.towards, d) / std::sqrt(dot(d, d)); };
  const double x = along(s.film.width), down = along(s.film.height);
  const SpacePoint &w = s.film.width, &h = s.film.height;
  const SpacePoint front{w.y / mm * h.z - w.z / mm * h.y, w.z / mm * h.x - w.x / mm * h.z,
                         w.x / mm * h.y - w.y / mm * h.x};
  const double before = along(front);
  const double degrees = std::asin(std::min(1.0, std::abs(before))) * 180 / std::numbers::pi;
  const char* side = std::abs(x) > std::abs(down) ? (x > 0 ? "the right" : "the left")
                                                  : (down > 0 ? "below" : "above");
  return fmt::format("{:.0f} lx from {}, {:.0f}° {} the film's plane{}", s.asked.sun / lux, side,
                     degrees, before > 0 ? "before" : "behind",
                     s.asked.towards   ? ""
                     : s.seams.empty() ? ", the worst of 96 directions"
                                       : ", the worst found");
}

std::string leak_summary(const std::string& title, const LeakStudy& s) {
  std::string out = title + "\n";
  out += s.seams.empty() ? row("parts", fmt::format("{} with {} triangles, cut into {} zones",
                                                    s.parts.size(), s.triangles, s.zones))
                         : row("parts", fmt::format("{} with {} seams between them", s.parts.size(),
                                                    s.seams.size()));
  for (const std::string& way : s.not_counted) {
    out += row(&way == &s.not_counted.front() ? "not counted" : "", way);
  }
  out += row("sun", sun_words(s));
  out += row("sky", fmt::format("{:.0f} lx from all round", s.asked.sky / lux));
  out += map_lines(s);
  const LeakPatch& worst = s.patches[s.worst];
  out += row("worst patch", fmt::format("x {:.1f}, y {:.1f} mm from the film's middle",
                                        worst.x / mm + 0.0, worst.y / mm + 0.0));
  out += row("its light", light_words(s.worst_light));
  if (s.an_hour) {
    out += row("an hour of sun", hour_words(s));
    for (const FogTime& f : s.fog) {
      const double factor = std::exp(coverage_95 * f.relative_u);
      out += row(fmt::format("fog of {:.2f}", f.rise.value),
                 fmt::format("ISO {:g} film: {} of sun ({} to {})", s.asked.film.value,
                             fog_time_text(f.time), fog_time_text(f.time / factor),
                             fog_time_text(f.time * factor)));
    }
  }
  for (const LeakSeamLight& seam : s.seams) {
    if (seam.share < 0.005 && &seam - s.seams.data() >= 4) break;
    out += row(&seam == &s.seams.front() ? "seams" : "", seam_words(seam));
  }
  for (const LeakWay& way : s.ways) {
    if (!s.seams.empty()) break;
    if (way.share < 0.005) break;
    out += row(&way == &s.ways.front() ? "ways" : "",
               fmt::format("{:>3.0f} %  {}", 100 * way.share, way.seams));
  }
  for (const LeakStudy::Remedied& r : s.remedies) {
    out += row(&r == &s.remedies.front() ? "would help" : "",
               fmt::format("{}: {}", r.what, remedy_words(s, r)));
  }
  return out + row("verdict", verdict_words(s));
}

}  // namespace backfit

// SPDX-License-Identifier: MIT
#include "documents/leak_answer.hpp"

#include <fmt/format.h>

#include <algorithm>
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
  if (seam.thickness) {
    return fmt::format("{:>3.0f} %  {}, {}: {} through {} mm, {:.0f} mm long", 100 * seam.share,
                       seam.name, seam.side, passed, fixed(*seam.thickness / mm, 1),
                       seam.length / mm);
  }
  return fmt::format("{:>3.0f} %  {}, {}: {} from {} mm wide, {:.0f} mm long", 100 * seam.share,
                     seam.name, seam.side, passed, fixed(seam.gap / mm, 2), seam.length / mm);
}

std::string parts_words(const LeakStudy& s) {
  if (s.seams.empty()) {
    return fmt::format("{} with {} triangles, cut into {} zones", s.parts.size(), s.triangles,
                       s.zones);
  }
  const auto walls = std::ranges::count_if(
      s.seams, [](const LeakSeamLight& seam) { return seam.thickness.has_value(); });
  const auto seams = static_cast<std::ptrdiff_t>(s.seams.size()) - walls;
  const auto counted = [](std::ptrdiff_t count, const char* what) {
    return fmt::format("{} {}{}", count, what, count == 1 ? "" : "s");
  };
  return fmt::format("{} with {} between them", s.parts.size(), counted(seams, "seam")) +
         (walls > 0 ? " and " + counted(walls, "printed wall") : "");
}

bool alike(const LeakStuff& a, const LeakStuff& b) {
  if (!a.soft || !b.soft) return !a.soft && !b.soft && a.finish == b.finish;
  return a.soft->scattering_per_mm == b.soft->scattering_per_mm &&
         a.soft->absorption_per_mm == b.soft->absorption_per_mm;
}

std::string stuff_words(const LeakStuff& s) {
  if (s.soft) {
    const auto stops = [&](Length deep) {
      return fixed(-std::log2(transmission(*s.soft, deep)), 1);
    };
    return fmt::format("felt or foam, {} stops through 1 mm, {} through 2 mm", stops(1 * mm),
                       stops(2 * mm));
  }
  return fmt::format("faces scatter {:g} %, {}", 100 * s.finish.reflectance,
                     s.finish.gloss_index > 1
                         ? fmt::format("mirror as index {:g}", s.finish.gloss_index)
                         : std::string("dead matt"));
}

// Which part is of what; last what most are of.
std::string stuff_lines(const LeakStudy& s) {
  struct Group {
    LeakStuff stuff;
    std::string names;
    std::size_t count = 0;
  };
  std::vector<Group> groups;
  for (std::size_t i = 0; i < s.stuffs.size(); ++i) {
    auto group =
        std::ranges::find_if(groups, [&](const Group& g) { return alike(g.stuff, s.stuffs[i]); });
    if (group == groups.end()) group = groups.insert(group, {s.stuffs[i], {}});
    group->names += (group->names.empty() ? "" : ", ") + s.parts[i];
    ++group->count;
  }
  if (groups.empty()) return {};
  const auto most = std::ranges::max_element(groups, {}, &Group::count);
  if (most->count > 1) {
    most->names = groups.size() > 1 ? "the others" : "all";
    std::rotate(most, most + 1, groups.end());
  }
  std::string out;
  for (const Group& g : groups) {
    out += row(&g == &groups.front() ? "materials" : "", g.names + ": " + stuff_words(g.stuff));
  }
  return out;
}

std::string place_words(const LeakPatch& p) {
  if (!p.name.empty()) return p.name;
  return fmt::format("x {:.1f}, y {:.1f} mm from the film's middle", p.x / mm + 0.0,
                     p.y / mm + 0.0);
}

// The film's light in stops below daylight: a map of numbers as the film lies, from behind.
std::string map_lines(const LeakStudy& s) {
  std::string out;
  for (std::size_t r = 0; r < s.film.rows; ++r) {
    std::string line;
    for (std::size_t c = 0; c < s.film.columns; ++c) {
      line += fmt::format("{:>7}", patch_words(s.patches[r * s.film.columns + c].all));
    }
    out += row(r == 0 ? "stops, by place" : "", line);
  }
  for (const LeakPatch& piece : s.pieces) {
    out += row(&piece == &s.pieces.front() ? "beside it" : "",
               fmt::format("{:>7}  {}", patch_words(piece.all), piece.name));
  }
  return out;
}

}  // namespace

std::string verdict_words(const LeakStudy& s) {
  const auto words = [](LeakVerdict verdict) -> std::string {
    switch (verdict) {
      case LeakVerdict::tight:
        return ": the worst patch stays under 0.02 for an hour of sun";
      case LeakVerdict::leaks:
        return ": the worst patch is over 0.02 within an hour of sun";
      case LeakVerdict::cannot_tell:
        return ": an hour of sun brings about 0.02, within the doubt";
      case LeakVerdict::not_converged:
        return ": more walks are needed before any number means something";
      case LeakVerdict::no_light_found:
        break;
    }
    return ", which is no proof that there is none";
  };
  std::string sheltered;
  if (!s.shelter.empty() && !s.fog.empty() && s.fog.front().time < leak_time) {
    sheltered = fmt::format(", unless {} takes {} stops", s.shelter,
                            fixed(std::log2(leak_time / s.fog.front().time), 1));
  }
  return short_verdict(s) + words(s.verdict) + sheltered +
         (s.wall_need ? "; printed walls are not counted" : "");
}

std::string short_verdict(const LeakStudy& s) {
  const bool alone = s.wall_need && s.verdict == LeakVerdict::tight;
  return std::string(name_of(s.verdict)) + (alone ? " by its seams alone" : "");
}

std::string wall_words(const WallNeed& need) {
  return fmt::format(
      "each printed wall that daylight meets must take {} stops or more, the {} of {} mm as well; "
      "print steps of {:g} and {:g} mm, and write what a light meter loses behind each as two "
      "[[printer.wall_readings]]",
      fixed(need.least.value, 1), need.wall, fixed(need.thickness / mm, 1), need.steps[0] / mm,
      need.steps[1] / mm);
}

std::string patch_words(const TallyResult& t) {
  if (t.interval) return fixed(-std::log2(t.mean), 1);
  return t.mean > 0 ? "?" : "dark";
}

std::string remedy_words(const LeakStudy& s, const LeakStudy::Remedied& r) {
  if (!r.light.interval) {
    return r.light.mean > 0 ? "not converged" : "no light found";
  }
  const RemedyChange change = change_by(s, r);
  return fmt::format("{} stops ± {}{}", fixed(change.stops, 1), fixed(change.within, 1),
                     change.shows() ? "" : ", no change that shows");
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
  const std::string alike = s.suns_alike == 0   ? ""
                            : s.suns_alike == 1 ? "; its mirror image does as much"
                                                : "; its mirror images do as much";
  return fmt::format("{:.0f} lx from {}, {:.0f}° {} the film's plane{}{}", s.asked.sun / lux, side,
                     degrees, before > 0 ? "before" : "behind",
                     s.asked.towards   ? ""
                     : s.seams.empty() ? ", the worst of 96 directions"
                                       : ", the worst found",
                     alike);
}

std::string leak_summary(const std::string& title, const LeakStudy& s) {
  std::string out = title + "\n";
  out += row("parts", parts_words(s));
  out += stuff_lines(s);
  if (!s.shelter.empty()) {
    out += row("taken as open", s.shelter + ": what it holds back comes on top");
  }
  for (const std::string& way : s.not_counted) {
    out += row(&way == &s.not_counted.front() ? "not counted" : "", way);
  }
  out += row("sun", sun_words(s));
  out += row("sky", fmt::format("{:.0f} lx from all round", s.asked.sky / lux));
  const LeakFilm& film = s.asked.film;
  out += row("film", fmt::format("{}, {}", film.name, film.from));
  if (!film.rule.empty()) out += row("", film.rule);
  out += map_lines(s);
  out += row("worst patch", place_words(s.worst_patch()));
  out += row("its light", light_words(s.worst_light));
  if (s.an_hour) {
    out += row("an hour of sun", hour_words(s));
    for (const FogTime& f : s.fog) {
      const double factor = std::exp(coverage_95 * f.relative_u);
      out += row(fmt::format("fog of {:.2f}", f.rise.value),
                 fmt::format("{}: {} of sun ({} to {})", s.asked.film.name, fog_time_text(f.time),
                             fog_time_text(f.time / factor), fog_time_text(f.time * factor)));
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
  if (s.wall_need) out += row("printed walls", wall_words(*s.wall_need));
  return out + row("verdict", verdict_words(s));
}

}  // namespace backfit

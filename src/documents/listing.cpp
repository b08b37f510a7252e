// SPDX-License-Identifier: MIT
#include "documents/listing.hpp"
#include "documents/leak_answer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "conversion/finding_words.hpp"
#include "conversion/leak_study.hpp"
#include "documents/build_words.hpp"
#include "quantity/notation.hpp"

namespace backfit {
std::string columns(const std::vector<std::vector<std::string>>& rows) {
  std::vector<std::size_t> widths(rows.front().size());
  for (const auto& row : rows) {
    for (std::size_t i = 0; i < row.size(); ++i)
      widths[i] = std::max(widths[i], code_points(row[i]));
  }
  std::string out;
  for (const auto& row : rows) {
    std::string line;
    for (std::size_t i = 0; i < row.size(); ++i) {
      line += row[i];
      if (i + 1 < row.size()) line += std::string(widths[i] + 2 - code_points(row[i]), ' ');
    }
    out += line + "\n";
  }
  return out;
}

namespace {

std::string starred(const std::string& text, bool doubtful) { return text + (doubtful ? "*" : ""); }

std::string size_of(const Cited<Measured<Length>>& width,
                    const std::optional<Cited<Measured<Length>>>& height) {
  const auto side = [](const Cited<Measured<Length>>& c) {
    return fmt::format("{:g}", std::round(c.value->value / mm * 10) / 10);
  };
  const bool doubtful = width.doubtful() || (height && height->doubtful());
  return starred(height ? side(width) + " × " + side(*height) : side(width), doubtful);
}

std::string with_memory_note(std::string table) {
  return std::move(table) + "* from memory: measure before you cut\n";
}

// The verdict, and by how much the worst patch of the film is off what shows.
std::string light_line(const LeakStudy& s) {
  std::string verdict = short_verdict(s);
  if (s.fog.empty()) return verdict;
  const double stops = std::log2(s.fog.front().time / leak_time);
  const std::string by = fixed(std::abs(stops), 1);
  const std::string then = fmt::format("in an hour of sun on {}", s.asked.film.name);
  if (stops < 0 && !s.shelter.empty()) {
    return fmt::format("{} without {}, which must hold back {} stops {}", verdict, s.shelter, by,
                       then);
  }
  return fmt::format("{}, {} stops {} {}", verdict, by, stops < 0 ? "too much" : "to spare", then) +
         (s.shelter.empty() ? "" : ", " + s.shelter + " taken as open");
}

std::string line(std::string_view what, std::string_view text) {
  return fmt::format("  {:<16}{}\n", what, text);
}

}  // namespace

std::string summary(const Report& r) {
  const RegisterStudy& reg = r.register_;
  std::string out = fmt::format("{} to {}: {}\n", *r.assembly.camera.name, *r.assembly.film.name,
                                name_of(r.verdict));
  out += line("set-back",
              text_with_u(reg.set_back.value, reg.set_back.standard_uncertainty) + " (95 %)");
  out +=
      line("infinity",
           reg.farthest_focus
               ? fmt::format("not reached, farthest focus {}", text(*reg.farthest_focus))
               : fmt::format("reached{} with odds {}",
                             reg.give > 0 * mm ? " within depth of focus, ± " + text(reg.give) + ","
                                               : std::string(),
                             odds_text(reg.odds_infinity)));
  out += *r.assembly.camera.focusing.moves == LensMotion::fixed
             ? line("sharp", sharp_distances(r.depth_of_field))
             : line("nearest focus", distance_text(reg.nearest_focus));
  out += line("sharp infinity",
              fmt::format("odds {} at {}", odds_text(r.focus.odds_sharp), text(r.focus.aperture)));
  out +=
      line("picture",
           fmt::format("{} of {}, {} without shadow", paper::sides(r.frame.picture) + " mm",
                       paper::sides(r.frame.window) + " mm", paper::sides(r.frame.whole) + " mm"));
  out += line("image circle",
              fmt::format("{} of {} needed, odds {}",
                          text_with_u(r.circle.circle.value, r.circle.circle.standard_uncertainty),
                          text(r.circle.needed, 1), odds_text(r.circle.odds_covered)));
  out += line("sharp print",
              fmt::format("{} mm, {} times, in the hand", paper::sides(r.print.by_circle.size),
                          fixed(r.print.by_circle.enlargement, 1)));
  if (r.light) out += line("light", light_line(*r.light));
  out += line("picture reads", r.hand.reversed ? "mirrored" : "right");
  return out;
}

std::string film_listing(const Catalogue& catalogue) {
  std::vector<std::vector<std::string>> rows{
      {"id", "name", "material, mm", "picture, mm", "frames", "thickness, mm"}};
  for (const Film& f : catalogue.films) {
    rows.push_back({*f.id, *f.name, size_of(f.width, f.height),
                    f.image_width ? size_of(*f.image_width, f.image_height) : "measure",
                    f.frames ? starred(std::to_string(*f.frames->value), f.frames->doubtful()) : "",
                    f.thickness ? starred(fmt::format("{:.2f}", f.thickness->value->value / mm),
                                          f.thickness->doubtful())
                                : ""});
  }
  return with_memory_note(columns(rows));
}

std::string lens_kind_listing(const Catalogue& catalogue) {
  std::vector<std::vector<std::string>> rows{{"id", "name", "full angle covered"}};
  for (const LensKind& k : catalogue.lens_kinds) {
    const Measured<Angle>& angle = *k.coverage.value;
    rows.push_back({*k.id, *k.name,
                    starred(fmt::format("{:g}° ± {:g}", std::round(angle.value / deg * 10) / 10,
                                        std::round(angle.half_width / deg * 10) / 10),
                            k.coverage.doubtful())});
  }
  return with_memory_note(columns(rows));
}

std::string material_listing(const Catalogue& catalogue) {
  std::vector<std::vector<std::string>> rows{{"id", "name", "density, g/cm3", "shrinkage, %"}};
  for (const Material& m : catalogue.materials) {
    rows.push_back(
        {*m.id, *m.name,
         m.density ? starred(fmt::format("{:.2f}", m.density->value->value / gram_per_cm3),
                             m.density->doubtful())
                   : "measure",
         m.shrinkage ? starred(fmt::format("{:.2g} ± {:.2g}", 100 * m.shrinkage->value->value,
                                           100 * m.shrinkage->value->half_width),
                               m.shrinkage->doubtful())
                     : "measure"});
  }
  return with_memory_note(columns(rows));
}

}  // namespace backfit

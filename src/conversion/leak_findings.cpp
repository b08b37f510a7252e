// SPDX-License-Identifier: MIT
#include "conversion/leak_findings.hpp"

#include <fmt/format.h>

#include <cmath>
#include <memory>
#include <utility>

#include "quantity/notation.hpp"

namespace backfit {
namespace {

std::string seam_words(const LeakStudy& s) {
  if (s.seams.empty()) return {};
  const LeakSeamLight& most = s.seams.front();
  if (most.thickness) {
    return fmt::format("; through the {} {}, {} mm of print, comes {:.0f} % of it", most.name,
                       most.side, fixed(*most.thickness / mm, 1), 100 * most.share);
  }
  return fmt::format("; the {} {} brings {:.0f} % of it", most.name, most.side, 100 * most.share);
}

// What of the files the ways in are of.
Place place_of(const Assembly& a) {
  switch (a.method()) {
    case Method::back_on_seat:
    case Method::instant_back:
      return a.camera.seat->place;
    case Method::insert:
      if (a.plan.insert) return a.plan.insert->place;
      break;
    case Method::pack_holder:
      return a.camera.pack->place;
    case Method::own_holder:
      break;
  }
  return a.plan.method.place;
}

// "matt black all over the plate: 1.1 stops less", of what shows; first what leaves no way open.
std::vector<std::string> remedies_of(const LeakStudy& s) {
  std::vector<std::string> words;
  for (const LeakStudy::Remedied& r : s.remedies) {
    if (r.light.histories == 0) words.push_back(r.what + ": shuts every way that is counted");
  }
  for (const LeakStudy::Remedied& r : s.remedies) {
    if (!r.light.interval) continue;
    const double stops = -std::log2(r.light.mean / s.worst_light.mean);
    if (stops < 0.5 || words.size() >= 3) continue;
    words.push_back(fmt::format("{}: {} stops less", r.what, fixed(stops, 1)));
  }
  return words;
}

}  // namespace

void add_light(Report& report, LeakStudy study) {
  const LeakStudy& s = study;
  Finding f;
  const Assembly& a = report.assembly;
  f.place = place_of(a);
  const LeakFilm& film = s.asked.film;
  switch (s.verdict) {
    case LeakVerdict::tight:
    case LeakVerdict::leaks:
    case LeakVerdict::cannot_tell: {
      const Stops more{std::log2(s.fog.front().time / leak_time)};
      const Stops u{coverage_95 * s.fog.front().relative_u / std::log(2)};
      const bool tight = s.verdict == LeakVerdict::tight;
      f.id = tight                             ? "film-lies-dark"
             : s.verdict == LeakVerdict::leaks ? "light-leaks"
                                               : "light-may-leak";
      f.weight = tight ? Weight::note : Weight::warning;
      const std::string by = fixed(std::abs(more.value), 1) + " ± " + fixed(u.value, 1);
      f.text = more.value < 0
                   ? fmt::format(
                         "an hour of full sun gives the worst patch of {} {} stops more than "
                         "shows (0.02 over base and fog)",
                         film.name, by)
                   : fmt::format(
                         "the worst patch of {} could take {} stops more than an hour of "
                         "full sun gives it before it shows (0.02 over base and fog)",
                         film.name, by);
      if (s.wall_need) f.text.insert(0, "by the seams alone ");
      if (more.value < 0 && !s.shelter.empty()) {
        f.id = "light-needs-shelter";
        f.text += fmt::format(": loaded, it needs {}, which must hold that back", s.shelter);
      }
      f.text += seam_words(s);
      f.limit = "gaps as the printer's error and clearance leave them; not counted are shut seams";
      if (!s.shelter.empty()) f.limit += "; " + s.shelter + " is taken as open";
      if (s.wall_need) f.limit += " and printed walls, whose print is not known";
      f.limit += fmt::format("; judged for {}, {}", film.name, film.from);
      if (!film.rule.empty()) f.limit += "; " + film.rule;
      break;
    }
    case LeakVerdict::not_converged:
    case LeakVerdict::no_light_found:
      f.id = "light-not-converged";
      f.weight = Weight::warning;
      f.text = "how dark the film lies could not be worked out: the walks have not converged";
      break;
  }
  if (f.weight == Weight::warning) f.remedies = remedies_of(s);
  if (s.wall_need) {
    const WallNeed& n = *s.wall_need;
    f.remedies.push_back(fmt::format(
        "read two printed steps, {:g} and {:g} mm, and write them as [[printer.wall_readings]]: "
        "the walls, the thinnest {} mm, must take {} stops or more",
        n.steps[0] / mm, n.steps[1] / mm, fixed(n.thickness / mm, 1), fixed(n.least.value, 1)));
  }
  f.remedies.emplace_back(
      "try it in the sun with a film that you can spare, as the build sheet says");
  report.light = std::make_shared<const LeakStudy>(std::move(study));
  add_findings(report, {std::move(f)});
}

}  // namespace backfit

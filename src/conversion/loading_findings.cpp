// SPDX-License-Identifier: MIT
// What it takes to get the film in: spools, rails, trimming.
#include <fmt/format.h>

#include "conversion/finding_words.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

std::string spare_words(const Estimate<Length>& e) {
  return fmt::format("{} {}", e.value < 0 * mm ? "lacks" : "has a spare",
                     text_with_u(abs(e.value), e.standard_uncertainty));
}

void find_spools(const Report& r, std::vector<Finding>& out) {
  if (!r.spools) return;
  const SpoolStudy& s = *r.spools;
  const SpoolRoom& room = *r.assembly.camera.spools;
  const bool length_binds = s.spare_length.value < s.spare_diameter.value;
  const Estimate<Length>& binding = length_binds ? s.spare_length : s.spare_diameter;
  Finding f{"spools-fit",
            weight_of(s.odds_fit, Weight::blocker),
            length_binds ? room.length.place : room.diameter.place,
            fmt::format("a {} {} along its axis and {} around: it goes in with odds {}",
                        *r.assembly.spool->name, spare_words(s.spare_length),
                        spare_words(s.spare_diameter), odds_text(s.odds_fit)),
            limit_of(binding.budget),
            {}};
  if (f.weight != Weight::note) {
    f.id = "spools-tight";
    f.remedies.emplace_back("measure the spools that you have, they differ");
  } else {
    f.remedies.push_back(
        fmt::format("fill {} at each end of a spool", text(s.spare_length.value / 2, 1)));
  }
  out.push_back(std::move(f));
}

// Film narrower than the old picture falls through the gate that the old film's edges lay on.
void find_rails(const Report& r, std::vector<Finding>& out) {
  const Assembly& a = r.assembly;
  if (a.method() != Method::insert) return;
  const bool up = film_run(a.camera) == FilmRun::up;
  const Stated<Measured<Length>>& across = up ? a.camera.gate.width : a.camera.gate.height;
  const Length film = a.film.width.value->value;
  const Length open = across->value - film;
  if (open < 0 * mm) return;
  out.push_back(
      {"film-needs-rails",
       Weight::warning,
       across.place,
       fmt::format("the film is {} wide and would fall through the old gate of {}", text(film, 1),
                   text(across->value, 1)),
       {},
       {fmt::format("give the insert rails of its own, a window of {} between them: {} of "
                    "film lies on each",
                    text(up ? a.window.width : a.window.height, 1),
                    text((film - (up ? a.window.width : a.window.height)) / 2, 1))}});
}

void find_trim(const Report& r, std::vector<Finding>& out) {
  const Assembly& a = r.assembly;
  if (!a.trimmed) return;
  out.push_back({"trim-sheet",
                 Weight::note,
                 a.plan.film.place,
                 fmt::format("{} is larger than the {} × {} mm that the {} takes", *a.film.name,
                             fixed(a.sheet->width / mm, 1), fixed(a.sheet->height / mm, 1),
                             a.pack_holder ? "pack holder" : "sheath"),
                 {},
                 {"cut each sheet down to that in the dark, or under a safelight that its maker "
                  "allows"}});
}

}  // namespace

void find_loading(const Report& report, std::vector<Finding>& out) {
  find_spools(report, out);
  find_rails(report, out);
  find_trim(report, out);
}

}  // namespace backfit

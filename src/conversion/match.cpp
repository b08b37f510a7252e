// SPDX-License-Identifier: MIT
#include "conversion/match.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "conversion/finding_words.hpp"
#include "conversion/looked_up.hpp"
#include "files/reader.hpp"
#include "optics/light.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

// The standard error of an odds is 0.8 % at most: enough to rank by.
constexpr std::size_t match_draws = 4'000;
// Sharp is what looks sharp in a print at arm's length. Common practice, no source.
constexpr double circles_in_diagonal = 1500;

std::string size_text(const FrameSize& size) {
  return fmt::format("{} × {} mm", fixed(size.width / mm, 1), fixed(size.height / mm, 1));
}

template <class T>
Stated<T> assumed(T value) {
  return {value, {}};
}

Printer common_printer() {
  Printer p;
  p.nozzle = assumed(0.4 * mm);
  p.layer_height = assumed(0.2 * mm);
  p.bed_width = p.bed_depth = assumed(1 * metre);  // the bed is no question of the film
  p.clearance = assumed(Measured<Length>{0.25 * mm, 0.1 * mm});
  p.error = assumed(Measured<Length>{0 * mm, 0.1 * mm});
  return p;
}

// The plan that `film` is tried with. Requires prospect_of() without a word against it.
Plan common_plan(const Camera& camera, const Film& film, Method method) {
  Plan plan;
  plan.film = assumed(*film.id);
  plan.method = assumed(method);
  plan.printer = common_printer();
  if (method == Method::back_on_seat || method == Method::instant_back) {
    const bool lies = camera.gate.width->value > camera.gate.height->value;
    plan.back.emplace().way_up = assumed(lies ? WayUp::lengthways : WayUp::upright);
  }
  plan.focus.aperture = assumed(*camera.lens.apertures.front());
  const Length diagonal = loaded_frame(camera, film, plan).window.diagonal();
  plan.focus.circle_of_confusion = assumed(diagonal / circles_in_diagonal);
  return plan;
}

// In a few words what a finding asks for; empty when other columns of the match say it.
std::string work_of(const Finding& f, const Report& r) {
  if (f.id == "rangefinder-offset") return "set the rangefinder anew";
  if (f.id == "gate-shadows-frame") {
    return fmt::format("gate opened to {}, or shadow at the edges",
                       size_text(r.frame.gate_to_open));
  }
  if (f.id == "opening-shadows-frame") return fmt::format("shadow of the {}", r.frame.limited_by);
  if (f.id == "circle-short") {
    return fmt::format("image circle takes in the corners with odds {}",
                       odds_text(r.circle.odds_covered));
  }
  if (f.id == "film-needs-rails") return "with rails of its own";
  if (f.id == "focus-depth") {
    return r.focus.holds_at ? fmt::format("far subjects sharp from {} on", text(*r.focus.holds_at))
                            : std::string("infinity stop set on a ground glass");
  }
  if (f.id == "rangefinder-base-short") return "rangefinder too short for the widest stop";
  if (f.id == "spools-tight") return "spools that may be too large for the chambers";
  if (f.id == "mirror-image" || f.id == "register-short" || f.id == "measure-first") return {};
  std::string words = f.id;
  std::ranges::replace(words, '-', ' ');
  return words;
}

std::string work_of(const Assembly& a) {
  switch (a.method()) {
    case Method::back_on_seat:
      return "print the back";
    case Method::instant_back:
      return "mount the instant back";
    case Method::insert:
      return "build the insert";
    case Method::pack_holder:
      return a.trimmed
                 ? fmt::format("print the pack holder; cut the sheets to {}", size_text(*a.sheet))
                 : std::string("print the pack holder");
    case Method::own_holder:
      break;
  }
  return a.trimmed ? fmt::format("cut the sheets to {}", size_text(*a.sheet)) : std::string();
}

MatchRow::Numbers numbers_of(const Report& r) {
  const Gate& gate = r.assembly.camera.gate;
  const FrameSize& picture = r.frame.picture;
  MatchRow::Numbers n;
  n.set_back = r.register_.set_back;
  n.odds_infinity = r.register_.odds_infinity;
  n.farthest_focus = r.register_.farthest_focus;
  const auto& rows = r.depth_of_field.rows;
  const bool fast = *r.assembly.camera.focusing.moves == LensMotion::fixed;
  n.nearest_focus = fast && !rows.empty() && !rows.front().ranges.empty()
                        ? rows.front().ranges.front().near
                        : r.register_.nearest_focus;
  n.picture = picture;
  n.area_change = picture.width * picture.height / (gate.width->value * gate.height->value) - 1;
  n.corner = r.frame.losses.back().lost;
  n.odds_covered = r.circle.odds_covered;
  n.covered = r.circle.covered;
  return n;
}

void add_report(MatchRow& row, const Report& r) {
  row.verdict = r.verdict;
  row.numbers = numbers_of(r);
  row.measure = r.assembly.missing;
  const auto blocker = std::ranges::find_if(r.findings, [](const Finding& f) {
    return f.weight == Weight::blocker && f.id != "measure-first";
  });
  if (blocker != r.findings.end()) {
    row.reason = blocker->text;
    return;
  }
  if (std::string words = work_of(r.assembly); !words.empty()) row.work.push_back(std::move(words));
  const Length moves = r.register_.standard_moves;
  if (abs(moves) >= 0.05 * mm) {
    row.work.push_back(fmt::format("infinity stop {} {}", text(abs(moves), 1),
                                   moves < 0 * mm ? "forward" : "back"));
  }
  for (const Finding& f : r.findings) {
    if (f.weight == Weight::note) continue;
    if (std::string words = work_of(f, r); !words.empty()) row.work.push_back(std::move(words));
  }
}

// `surveyed` keeps what every film shares.
MatchRow row_of(SurveyedCamera& surveyed, const Film& film, Method method, const Prospect& prospect,
                const Catalogue& catalogue) {
  MatchRow row;
  row.film = *film.id;
  row.name = *film.name;
  row.method = method;
  row.reversed = laterally_reversed(0, *film.viewed == ViewedFace::same, *film.transfers);
  row.measure = prospect.unknown;
  const Camera& camera = surveyed.camera;
  if (method == Method::instant_back) {
    row.measure.push_back({"back.back_register", "register of the instant back, seat to film"});
    const Length most =
        camera.focusing.room_behind_infinity->value - camera.seat->behind_film->value;
    row.reason = fmt::format("one of {} or less reaches infinity", text(most, 1));
  }
  if (!row.measure.empty()) {
    row.verdict = Verdict::cannot_tell_yet;
    return row;
  }
  Diagnostics diagnostics;
  auto assembly =
      conversion_of(surveyed, common_plan(camera, film, method), film, catalogue, diagnostics);
  if (!assembly) {
    row.reason = diagnostics.list().front().text;
    return row;
  }
  assembly->draws = match_draws;
  const Report report = report_on(std::move(*assembly), Scope::without_timer);
  if (report.circle.grade == CircleGrade::prescription) {
    surveyed.lit_circle = {report.focus.aperture, report.circle.circle.value};
  }
  add_report(row, report);
  return row;
}

// A film by every way that is open to it; by none when all are closed.
void add_rows(std::vector<MatchRow>& rows, SurveyedCamera& surveyed, const Film& film,
              const Catalogue& catalogue) {
  std::string closed;
  const std::size_t before = rows.size();
  for (const Method method : methods_for(*film.kind)) {
    const Prospect prospect = prospect_of(method, film, surveyed.camera);
    if (prospect.impossible.empty()) {
      rows.push_back(row_of(surveyed, film, method, prospect, catalogue));
    } else {
      closed +=
          fmt::format("{}{}: {}", closed.empty() ? "" : "; ", name_of(method), prospect.impossible);
    }
  }
  if (rows.size() > before) return;
  MatchRow row;
  row.film = *film.id;
  row.name = *film.name;
  row.reversed = laterally_reversed(0, *film.viewed == ViewedFace::same, *film.transfers);
  row.reason = closed;
  rows.push_back(std::move(row));
}

int place_of(Verdict verdict) {
  switch (verdict) {
    case Verdict::fits:
      return 0;
    case Verdict::fits_with_work:
      return 1;
    case Verdict::cannot_tell_yet:
      return 2;
    case Verdict::does_not_fit:
      break;
  }
  return 3;
}

auto rank_of(const MatchRow& row) {
  const bool infinity = row.numbers && row.numbers->odds_infinity >= sure_enough;
  const double area =
      row.numbers ? row.numbers->covered.width / mm * (row.numbers->covered.height / mm) : 0;
  return std::tuple(place_of(row.verdict), !infinity, -area, row.work.size());
}

}  // namespace

std::optional<FilmPrices> read_prices(const std::filesystem::path& path, const Catalogue& catalogue,
                                      Diagnostics& diagnostics) {
  const auto source = read_source(path, diagnostics);
  if (source == nullptr) return {};
  auto prices = read_record<FilmPrices>(source, diagnostics);
  if (!prices) return {};
  for (const FilmPrice& p : prices->films) {
    looked_up(catalogue.films, p.film, "film", "backfit films", diagnostics);
  }
  if (diagnostics.has_errors()) return {};
  return prices;
}

void add_prices(Match& match, const FilmPrices& prices) {
  match.currency = *prices.currency;
  for (MatchRow& row : match.rows) {
    const auto price =
        std::ranges::find_if(prices.films, [&](const FilmPrice& p) { return *p.film == row.film; });
    if (price != prices.films.end()) row.picture_cost = cost_of(price->cost);
  }
}

Match matched(SurveyedCamera surveyed, const Catalogue& catalogue) {
  Match match{surveyed.camera, *surveyed.camera.lens.apertures.front(), {}, {}};
  for (const Film& film : catalogue.films) add_rows(match.rows, surveyed, film, catalogue);
  std::ranges::stable_sort(match.rows, {}, rank_of);
  return match;
}

}  // namespace backfit

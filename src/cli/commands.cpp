// SPDX-License-Identifier: MIT
#include "cli/commands.hpp"

#include <ostream>

#include "catalogue/catalogue.hpp"
#include "cli/studied.hpp"
#include "conversion/read_conversion.hpp"
#include "documents/cover_answer.hpp"
#include "documents/exposure_answer.hpp"
#include "documents/json.hpp"
#include "documents/lens_answer.hpp"
#include "documents/listing.hpp"
#include "documents/match_answer.hpp"
#include "documents/timer_answer.hpp"
#include "documents/trap_answer.hpp"

namespace backfit {

int check(const std::filesystem::path& conversion, bool with_light, bool json,
          const Surroundings& around) {
  const auto report = studied(conversion, Scope::with_timer, with_light, json, around);
  if (!report) return unusable;
  around.out << (json ? report_json(*report) : summary(*report));
  return status_of(*report);
}

int match(const std::filesystem::path& camera, const std::filesystem::path& prices, bool json,
          const Surroundings& around) {
  Diagnostics diagnostics;
  std::optional<SurveyedCamera> surveyed;
  const auto catalogue = read_catalogue(around.data, diagnostics);
  std::optional<FilmPrices> priced;
  if (catalogue) {
    surveyed = read_camera(camera, *catalogue, diagnostics);
    if (!prices.empty()) priced = read_prices(prices, *catalogue, diagnostics);
  }
  print(diagnostics, json, around);
  if (!surveyed || diagnostics.has_errors()) return unusable;
  Match match = matched(*surveyed, *catalogue);
  if (priced) add_prices(match, *priced);
  around.out << (json ? match_json(match) : match_summary(match));
  return fine;
}

int films(Listing listing, bool json, const Surroundings& around) {
  if (listing == Listing::emulsions || listing == Listing::bulbs) {
    const auto shelf = exposure_shelf(json, around);
    if (!shelf) return unusable;
    if (listing == Listing::emulsions) {
      around.out << (json ? emulsions_json(*shelf) : emulsion_listing(*shelf));
    } else {
      around.out << (json ? bulbs_json(*shelf) : bulb_listing(*shelf));
    }
    return fine;
  }
  Diagnostics diagnostics;
  const auto catalogue = read_catalogue(around.data, diagnostics);
  print(diagnostics, json, around);
  if (!catalogue) return unusable;
  switch (listing) {
    case Listing::films:
      around.out << (json ? films_json(*catalogue) : film_listing(*catalogue));
      break;
    case Listing::lens_kinds:
      around.out << (json ? lens_kinds_json(*catalogue) : lens_kind_listing(*catalogue));
      break;
    case Listing::materials:
      around.out << (json ? materials_json(*catalogue) : material_listing(*catalogue));
      break;
    case Listing::emulsions:
    case Listing::bulbs:
      break;
  }
  return fine;
}

int cover(const std::filesystem::path& conversion, const CoverQuestions& questions, bool json,
          const Surroundings& around) {
  auto assembly = assembled(conversion, json, around);
  if (!assembly) return unusable;
  const Camera& camera = assembly->camera;
  if (const std::string fault = stop_fault(camera, questions.aperture); !fault.empty()) {
    Diagnostics diagnostics;
    diagnostics.error(camera.lens.apertures.front().place, fault);
    print(diagnostics, json, around);
    return unusable;
  }
  const Report report = report_on(std::move(*assembly), Scope::without_timer);
  const CoverStudy study = cover_study(report, questions);
  around.out << (json ? cover_json(report, study) : cover_summary(report, study));
  return fine;
}

int timer(const std::filesystem::path& conversion, bool json, const Surroundings& around) {
  auto assembly = assembled(conversion, json, around);
  if (!assembly) return unusable;
  const Report report = report_on(std::move(*assembly), Scope::with_simulation);
  if (!report.timer) {
    Diagnostics diagnostics;
    diagnostics.error(report.assembly.camera.shutter.timing.place,
                      "nothing is said of a photocell that times this shutter",
                      "write timing = \"photocell\" and, under [shutter.timer], its trials");
    print(diagnostics, json, around);
    return unusable;
  }
  for (const Finding& f : timer_findings(report)) around.err << rendered(f);
  around.out << (json ? timer_json(report) : timer_summary(report));
  return fine;
}

int path(const std::filesystem::path& conversion, bool json, const Surroundings& around) {
  const auto studied = studied_path(conversion, json, around);
  return studied ? printed(*studied, json, around) : unusable;
}

int lens(const std::filesystem::path& lens, const LensQuestions& questions, bool json,
         const Surroundings& around) {
  Diagnostics diagnostics;
  std::optional<LensDesign> design;
  if (const auto catalogue = read_catalogue(around.data, diagnostics)) {
    design = read_lens(lens, *catalogue, diagnostics);
  }
  if (design) {
    if (std::string why = refusal(*design, questions); !why.empty()) {
      diagnostics.error(design->file.name.place, std::move(why));
      design.reset();
    }
  }
  print(diagnostics, json, around);
  if (!design) return unusable;
  const LensStudy study = study_of(*design, questions);
  around.out << (json ? lens_json(study) : lens_summary(study));
  return fine;
}

int trap(const TrapQuestions& questions, bool json, const Surroundings& around) {
  if (const auto why = refusal(questions)) {
    Diagnostics diagnostics;
    diagnostics.error({}, *why);
    print(diagnostics, json, around);
    return unusable;
  }
  const TrapStudy study = study_of(questions);
  around.out << (json ? trap_json(study) : trap_summary(study));
  return fine;
}

}  // namespace backfit

// SPDX-License-Identifier: MIT
// The commands about light: expose and flash.
#include <ostream>

#include "cli/commands.hpp"
#include "cli/studied.hpp"
#include "conversion/read_conversion.hpp"
#include "documents/exposure_answer.hpp"
#include "exposure/metering.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

// A conversion with its exposure table looked up.
struct Loaded {
  ExposureShelf shelf;
  Report report;
  ExposureMaterial material;
};

std::optional<Loaded> loaded(const std::filesystem::path& conversion, bool needs_flash, bool json,
                             const Surroundings& around) {
  auto assembly = assembled(conversion, json, around);
  if (!assembly) return {};
  auto shelf = exposure_shelf(json, around);
  if (!shelf) return {};
  Diagnostics diagnostics;
  const auto& plan = assembly->plan.exposure;
  if (!plan) {
    diagnostics.error(assembly->plan.film.place, "the conversion file has no [exposure] table",
                      "add [exposure] with emulsion = \"cubic-400-british\", or your own's id");
  } else if (needs_flash && !plan->flash) {
    diagnostics.error(plan->place, "the [exposure] table has no flash",
                      "add [exposure.flash] with guide_number = \"24 m\" and "
                      "for_speed = \"ISO 100/21°\", or a bulb and its reflector");
  }
  std::optional<ExposureMaterial> material;
  if (!diagnostics.has_errors()) material = exposure_material(*assembly, *shelf, diagnostics);
  print(diagnostics, json, around);
  if (!material) return {};
  return Loaded{std::move(*shelf), report_on(std::move(*assembly)), std::move(*material)};
}

}  // namespace

int expose(const std::filesystem::path& conversion, const ExposeQuestions& questions, bool json,
           const Surroundings& around) {
  const auto l = loaded(conversion, false, json, around);
  if (!l) return unusable;
  const Camera& camera = l->report.assembly.camera;
  Diagnostics diagnostics;
  if (const std::string fault = stop_fault(camera, questions.aperture); !fault.empty()) {
    diagnostics.error(camera.lens.apertures.front().place, fault);
  }
  const Length focal = camera.lens.focal->value;
  if (questions.subject && *questions.subject < 2 * focal) {
    diagnostics.error(camera.lens.focal.place, "a subject at " + text(*questions.subject) +
                                                   " is nearer than twice the focal "
                                                   "length of " +
                                                   text(focal) + ", larger than life");
  }
  const bool metered_light = questions.ev_100 || questions.incident;
  if (!metered_light && (questions.aperture || questions.subject)) {
    diagnostics.error({}, "a stop or a subject is of one metered exposure", "add --ev or --lux");
  }
  print(diagnostics, json, around);
  if (diagnostics.has_errors()) return unusable;
  if (!metered_light) {
    const ExposureStudy study = study_exposure(l->report, l->material, l->shelf);
    around.out << (json ? exposure_json(l->report, l->material, study)
                        : exposure_summary(l->report, l->material, study));
    return fine;
  }
  const Ev metered =
      questions.ev_100 ? *questions.ev_100 : ev_of(*questions.incident, IsoSpeed{100});
  const ExposureAnswer answer =
      answer_exposure(l->report, l->material, {metered, questions.aperture, questions.subject});
  around.out << (json ? exposure_json(l->report, l->material, answer)
                      : exposure_summary(l->report, l->material, answer));
  return fine;
}

int flash(const std::filesystem::path& conversion, bool json, const Surroundings& around) {
  const auto l = loaded(conversion, true, json, around);
  if (!l) return unusable;
  const FlashStudy study = study_flash(l->report, l->material, l->shelf);
  around.out << (json ? flash_json(l->report, l->material, study)
                      : flash_summary(l->report, l->material, study));
  return fine;
}

}  // namespace backfit

// SPDX-License-Identifier: MIT
#include "documents/starter.hpp"

#include "documents/survey_form.hpp"
#include "files/blank_form.hpp"
#include "files/schema.hpp"
#include "survey/camera.hpp"
#include "survey/film_prices.hpp"
#include "survey/plan.hpp"

namespace backfit {
namespace {

template <class R>
Description description_of(R& record) {
  return [&record](Fields& fields) { describe(fields, record); };
}

}  // namespace

std::string camera_schema() {
  Camera camera;
  return json_schema("A camera as surveyed", description_of(camera));
}

std::string conversion_schema() {
  Plan plan;
  return json_schema("A conversion as planned", description_of(plan));
}

std::string prices_schema() {
  FilmPrices prices;
  return json_schema("What films cost", description_of(prices));
}

FolderContents camera_starter(const std::filesystem::path& font_folder) {
  Camera camera;
  const std::vector<FormLine> lines = form_lines(description_of(camera));
  return {{"new.camera.toml",
           blank_form("camera.schema.json", "A camera, as measured. Fill in every \"\".", lines)},
          {"camera.schema.json", camera_schema()},
          {"survey-sheet.pdf", survey_form(lines, font_folder)}};
}

FolderContents conversion_starter() {
  Plan plan;
  return {{"new.conversion.toml",
           blank_form("conversion.schema.json", "A conversion. Fill in every \"\".",
                      form_lines(description_of(plan)))},
          {"conversion.schema.json", conversion_schema()}};
}

FolderContents prices_starter() {
  FilmPrices prices;
  return {
      {"new.prices.toml", blank_form("prices.schema.json", "What films cost where you buy them.",
                                     form_lines(description_of(prices)))},
      {"prices.schema.json", prices_schema()}};
}

}  // namespace backfit

// SPDX-License-Identifier: MIT
#include "documents/starter.hpp"

#include "documents/flow.hpp"
#include "files/blank_form.hpp"
#include "files/schema.hpp"
#include "survey/camera.hpp"
#include "survey/plan.hpp"

namespace backfit {
namespace {

template <class R>
Description description_of(R& record) {
  return [&record](Fields& fields) { describe(fields, record); };
}

// What the survey sheet asks, table by table, with a line to write each answer on.
std::string survey_sheet(const std::vector<FormLine>& lines,
                         const std::filesystem::path& font_folder) {
  using namespace paper;
  Document document(font_folder,
                    {"Survey of a camera", "", "Write each value with its unit and ±"});
  Flow flow(document);
  flow.title("Survey of a camera");
  flow.paragraph(
      "Take widths and heights with a caliper, seen from behind the camera: width to the right, "
      "height up. "
      "Depths count from the original film plane, the rails that the film rested on. Write what "
      "you are sure "
      "of after ±; repeat a reading and write the spread if it is larger.");
  flow.boxed({paper::Sign::warning, "Before you open the camera",
              "A flash or shutter capacitor can hold a dangerous charge for weeks with the battery "
              "out. Leave "
              "its discharge to somebody qualified. Old cells and foam seals may be harmful: "
              "gloves, and local "
              "rules for disposal."});
  Table table;
  const auto place = [&] {
    if (!table.rows.empty()) flow.table(table);
    table = {{{"key", 40 * mm}, {"what to measure", 82 * mm}, {"value ±", 58 * mm}}, {}};
  };
  place();
  for (const FormLine& line : lines) {
    if (line.heading) {
      place();
      flow.heading(line.meaning + (line.required ? "" : " (if there is one)"));
      continue;
    }
    const std::string example = line.example.empty() ? "" : "\nlike " + line.example;
    table.rows.push_back(
        {line.key, line.meaning + (line.required ? "" : " (optional)") + example, ""});
  }
  place();
  flow.finish();
  return document.pdf();
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

FolderContents camera_starter(const std::filesystem::path& font_folder) {
  Camera camera;
  const std::vector<FormLine> lines = form_lines(description_of(camera));
  return {{"new.camera.toml",
           blank_form("camera.schema.json", "A camera, as measured. Fill in every \"\".", lines)},
          {"camera.schema.json", camera_schema()},
          {"survey-sheet.pdf", survey_sheet(lines, font_folder)}};
}

FolderContents conversion_starter() {
  Plan plan;
  return {{"new.conversion.toml",
           blank_form("conversion.schema.json", "A conversion. Fill in every \"\".",
                      form_lines(description_of(plan)))},
          {"conversion.schema.json", conversion_schema()}};
}

}  // namespace backfit

// SPDX-License-Identifier: MIT
#include "documents/exposure_card.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "documents/build_words.hpp"
#include "documents/drawing.hpp"
#include "documents/exposure_answer.hpp"
#include "exposure/scales.hpp"
#include "quantity/notation.hpp"

namespace backfit::paper {
namespace {

constexpr Length card_width = 132 * mm, inside = 4 * mm, light_width = 30 * mm;
constexpr std::size_t most_stops = 8;  // that the card's width holds

Table framed(const std::vector<FNumber>& stops, const std::string& first) {
  Table table{{{first, light_width}}, {}};
  const Length rest = card_width - 2 * inside - light_width;
  for (const FNumber stop : stops) {
    table.columns.push_back({text(stop), rest / static_cast<double>(stops.size()), Align::right});
  }
  return table;
}

// Everything on the card, from its upper left corner; the height used.
class Card {
 public:
  Card(const Report& report, const ExposureMaterial& material, const ExposureStudy& study,
       const FlashStudy* flash)
      : report_(report), material_(material), study_(study), flash_(flash) {
    const auto& apertures = report.assembly.camera.lens.apertures;
    for (std::size_t i = 0; i < std::min(apertures.size(), most_stops); ++i) {
      stops_.push_back(*apertures[i]);
    }
  }

  Length draw_on(Sheet& sheet, PagePoint corner) const {
    const PagePoint in{corner.x + inside, corner.y + inside};
    const Length width = card_width - 2 * inside;
    Length y = in.y;
    const auto words = [&](const std::string& what, const TextStyle& style) {
      y += sheet.text({in.x, y}, what, style, width) + 1 * mm;
    };
    words(shortened(*report_.assembly.camera.name, 24) + " · " +
              shortened(*material_.emulsion.name, 60),
          strong_text);
    words(heading_line(), small_text);
    y += 0.5 * mm;
    y += draw(sheet, {in.x, y}, times()) + 2 * mm;
    for (const std::string& note : notes()) words(note, small_text);
    if (flash_ != nullptr) {
      y += 1 * mm;
      y += draw(sheet, {in.x, y}, ladder()) + 2 * mm;
      words(fmt::format("Flash to subject, {}; {}.", flash_->name,
                        material_.bulb ? "shield before it, never a second use"
                                       : "never open its case: it can kill"),
            small_text);
    }
    const Length height = y + inside - 1 * mm - corner.y;
    sheet.stroke(rectangle(corner, {corner.x + card_width, corner.y + height}, 2 * mm),
                 LineStyle::dimension);
    return height;
  }

 private:
  std::string heading_line() const {
    std::string line = "Index " + index_text(material_.index_in_light());
    line += material_.light == LightColour::lamp ? " in lamp light" : " in daylight";
    for (const Correction& c : study_.far) {
      if (c.name == "colour of the light") continue;
      line += fmt::format(", {} {} in it", c.name, thirds_text(c.stops));
    }
    return line + (material_.laws.empty() ? "; long times untested" : "; long times corrected");
  }

  Table times() const {
    Table table = framed(stops_, "Light");
    for (const LightRow& row : study_.rows) {
      table.rows.push_back({row.condition + (row.disputed ? " *" : "")});
      for (std::size_t i = 0; i < stops_.size(); ++i) {
        table.rows.back().push_back(card_cell(row.exposures[i]));
      }
    }
    return table;
  }

  Table ladder() const {
    Table table = framed(stops_, material_.bulb ? "Bulb, speed" : "Flash");
    for (const FlashRow& row : flash_->rows) {
      table.rows.push_back({speed_text(row, material_.bulb.has_value())});
      for (std::size_t i = 0; i < stops_.size(); ++i) {
        table.rows.back().push_back(fmt::format("{:.2g} m", row.ladder[i].distance / metre));
      }
    }
    return table;
  }

  std::vector<std::string> notes() const {
    std::vector<std::string> notes;
    if (std::ranges::any_of(study_.rows, [](const LightRow& r) { return r.disputed; })) {
      notes.push_back("* published levels differ by more than a stop: meter it.");
    }
    if (any_setting(study_, &ShutterSetting::too_fast)) {
      notes.push_back("bright: too much light for the fastest speed; stop down.");
    }
    if (any_setting(study_, &ShutterSetting::no_speed)) {
      notes.push_back("In brackets: no such speed, and too short to hold open; stop down.");
    }
    notes.push_back(fmt::format(
        "Longer than {}: tripod.{}", speed_mark(study_.longest_by_hand),
        study_.keeps_both ? fmt::format(" Widest stop with even corners and full sun by hand: {}.",
                                        text(*study_.keeps_both))
                          : std::string()));
    const auto& subject = report_.assembly.plan.exposure->subject;
    if (subject && !study_.near.empty() && study_.near.back().name == "extension") {
      notes.push_back(
          fmt::format("At {} give {} stop more for the extension. A close-up lens "
                      "costs nothing more.",
                      distance_text(subject->value.value), thirds_text(extra_when_near())));
    }
    return notes;
  }

  Stops extra_when_near() const {
    Stops sum;
    for (const Correction& c : study_.near) sum = sum + c.stops;
    for (const Correction& c : study_.far) sum = sum - c.stops;
    return sum;
  }

  const Report& report_;
  const ExposureMaterial& material_;
  const ExposureStudy& study_;
  const FlashStudy* flash_;
  std::vector<FNumber> stops_;
};

}  // namespace

std::string card_cell(const Exposure& e) {
  if (e.setting.too_fast) return "bright";
  if (e.setting.marked) {
    std::string mark = speed_mark(*e.setting.marked);
    return mark.starts_with("1/") ? mark.substr(0, mark.find(' ')) : mark;
  }
  if (e.setting.no_speed) return "(" + narrow_text(e.time.time) + ")";
  return (e.past_table ? "~ " : "") + narrow_text(e.time.time);
}

}  // namespace backfit::paper

namespace backfit {

std::string exposure_card(const Report& report, const ExposureMaterial& material,
                          const ExposureShelf& shelf, const std::filesystem::path& font_folder) {
  const ExposureStudy study = study_exposure(report, material, shelf);
  std::optional<FlashStudy> flash;
  if (report.assembly.plan.exposure->flash) flash = study_flash(report, material, shelf);
  const std::string camera = paper::shortened(*report.assembly.camera.name, 40);
  paper::Document document(
      font_folder, {"Exposure card: " + camera, paper::shortened(*material.emulsion.name, 50),
                    "Worked out, not tested: bracket the first pictures."});
  {
    paper::Flow flow(document);
    flow.title("Exposure card");
    flow.paragraph(
        "Print at 100 %, cut along the line, glue or tape it to the camera's back. Behind it "
        "stands "
        "the bench sheet: what the card rests on and how sure it is.");
    flow.block(9 * mm, [](paper::Sheet& sheet, paper::PagePoint at) {
      paper::check_ruler(sheet, {at.x + 3 * mm, at.y}, paper::Along::x);
    });
    const paper::Card card(report, material, study, flash ? &*flash : nullptr);
    paper::Sheet trial(document.fonts());
    const Length height = card.draw_on(trial, {0 * mm, 0 * mm});
    flow.block(std::min(height, paper::content_bottom - paper::content_top),
               [&card](paper::Sheet& sheet, paper::PagePoint at) { card.draw_on(sheet, at); });
    flow.finish();
    flow.new_page();
    flow.title("Bench sheet");
    paper::add_sums(flow, report, material, study);
    paper::add_light(flow, study);
    if (flash) paper::add_flash(flow, material, *flash);
    paper::add_paper_notes(flow, report, material);
    if (*material.emulsion.process == Process::reversal_paper) {
      paper::add_reversal(flow, shelf, material);
    }
    flow.finish();
  }
  return document.pdf();
}

}  // namespace backfit

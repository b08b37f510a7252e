// SPDX-License-Identifier: MIT
// The exposure card to glue to the camera's back, and the bench sheet with what it rests on.
#pragma once
#include <filesystem>
#include <string>

#include "conversion/exposure_study.hpp"
#include "conversion/flash_study.hpp"
#include "documents/document.hpp"
#include "documents/flow.hpp"

namespace backfit {

// A PDF: the card at true size to cut out, then the bench sheet. Throws as paper::Fonts does.
// Requires a plan with [exposure].
std::string exposure_card(const Report& report, const ExposureMaterial& material,
                          const ExposureShelf& shelf, const std::filesystem::path& font_folder);

namespace paper {

// "1/125", "12 s", "7 min": a setting in the narrow columns of the card.
std::string card_cell(const Exposure& exposure);

// Chapters of the bench sheet.
void add_sums(Flow& flow, const Report& report, const ExposureMaterial& material,
              const ExposureStudy& study);
void add_light(Flow& flow, const ExposureStudy& study);
void add_flash(Flow& flow, const ExposureMaterial& material, const FlashStudy& study);
void add_paper_notes(Flow& flow, const Report& report, const ExposureMaterial& material);
void add_reversal(Flow& flow, const ExposureShelf& shelf, const ExposureMaterial& material);

}  // namespace paper
}  // namespace backfit

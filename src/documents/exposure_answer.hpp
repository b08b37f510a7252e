// SPDX-License-Identifier: MIT
// What the studies of exposure and flash say, for people and for programs.
#pragma once
#include <string>

#include "conversion/exposure_study.hpp"
#include "conversion/flash_study.hpp"

namespace backfit {

// "2.6", "118": an index to the figures that it can mean.
std::string index_text(IsoSpeed index);
// "speed 118 (ISO 125), 0.78 denser over 1.30: developed as ISO 6 asks", "P 310, R 110": what the
// owner's wedge says.
std::string wedge_text(const WedgeFound& found);
// "62Y + 38M, ± 2 each, and +0.10 stop": filters and exposure of the next sheet.
std::string next_pack_text(const NextPack& pack);

// Whether `what` holds for any exposure of the table of light.
bool any_setting(const ExposureStudy& study, bool ShutterSetting::*what);
// "1/125 s", "12 s", "too bright", "(1/8 s)" that the shutter lacks, "~ 8 min" past a law's data:
// what to set for an exposure.
std::string setting_text(const Exposure& exposure);
// "1/15 s or slower", "1/30 s", "held open", "any speed": the shutter's part in a flash.
std::string speed_text(const FlashRow& row, bool bulb);
// "panchromatic", "blue only" and so on, as the data says it.
std::string name_of(Sees sees);

// Lines for the terminal: what is loaded, its corrections in order, light by aperture to speed.
std::string exposure_summary(const Report& report, const ExposureMaterial& material,
                             const ExposureStudy& study);
std::string exposure_summary(const Report& report, const ExposureMaterial& material,
                             const ExposureAnswer& answer);
std::string flash_summary(const Report& report, const ExposureMaterial& material,
                          const FlashStudy& study);

// Schemas "backfit.expose/1" and "backfit.flash/1"; end in a newline.
std::string exposure_json(const Report& report, const ExposureMaterial& material,
                          const ExposureStudy& study);
std::string exposure_json(const Report& report, const ExposureMaterial& material,
                          const ExposureAnswer& answer);
std::string flash_json(const Report& report, const ExposureMaterial& material,
                       const FlashStudy& study);

// Lists of the shipped data; a "*" marks numbers from memory. As JSON "backfit.emulsions/1" and
// "backfit.bulbs/1".
std::string emulsion_listing(const ExposureShelf& shelf);
std::string bulb_listing(const ExposureShelf& shelf);
std::string emulsions_json(const ExposureShelf& shelf);
std::string bulbs_json(const ExposureShelf& shelf);

}  // namespace backfit

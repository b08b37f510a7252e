// SPDX-License-Identifier: MIT
// The exposures of one conversion: light by aperture to time, with every correction in its place,
// the speeds that this shutter has, and how sure each is.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "conversion/exposure_material.hpp"
#include "conversion/report.hpp"
#include "conversion/shutter_speeds.hpp"
#include "exposure/correction.hpp"
#include "exposure/lens_change.hpp"
#include "quantity/light.hpp"

namespace backfit {

// A time in the words of this shutter.
struct ShutterSetting {
  std::optional<Time> marked;  // the speed to set; empty: hold it open, or it is too fast
  Stops off;                   // what the marked speed gives more than is wanted
  bool too_fast = false;       // shorter than the fastest speed by over half a stop
  bool no_speed = false;       // longer than the slowest one, too short for a hand to time
  bool by_hand = false;        // no longer than the plan's longest by hand
};

// One exposure.
struct Exposure {
  FNumber aperture;  // as marked
  Ev ev;             // that the light asks of the meter at this index
  CorrectedTime time;
  bool past_table = false;  // longer than the law's data
  ShutterSetting setting;
};

// A condition of light by its first published level, and how far publications disagree.
struct LightRow {
  std::string condition, name;
  Ev ev_100;                        // at ISO 100, C = 250 lx s
  Ev least_100, most_100;           // of all publications
  bool disputed = false;            // by more than a stop
  std::vector<Exposure> exposures;  // one for each stop of the lens
};

// A stop of the lens on the new frame.
struct ApertureRow {
  FNumber aperture;
  std::optional<Stops> corner_loss;  // far away; empty: dark
  Stops corner_share;                // given for it, where the plan shares corners
  Time in_sun;                       // far subject
};

// What a tele attachment of the camera makes of the lens's stops: nothing, while its front glass
// is as large as the light that they take in.
struct AttachmentRow {
  std::string name;
  std::vector<FNumber> behind;  // one for each stop of the lens, as marked where it stays so
  std::vector<Stops> more;      // exposure to add there
};

struct ExposureStudy {
  Measured<Length> extension;  // of the lens from infinity for the plan's subject; 0 far away
  std::vector<Correction> far, near;  // factors in order, for a far subject and the plan's
  std::vector<LightRow> rows;         // of the far subject
  std::vector<ApertureRow> apertures;
  std::vector<AttachmentRow> attachments;
  bool corners_lit = false;           // of the whole frame, at one stop at least
  std::optional<FNumber> keeps_both;  // widest stop with corners within a stop, and a sun exposure
                                      // within the longest by hand
  Stops corner_allowed{1};            // common practice
  Time longest_by_hand;
  SpeedsBy speeds_by = SpeedsBy::nothing;
};

// One metered exposure.
struct ExposureQuestion {
  Ev ev_100;                        // as a meter set to ISO 100 reads
  std::optional<FNumber> aperture;  // left out: all of the lens
  std::optional<Length> subject;    // from the lens; left out: the plan's, else far away
};
struct ExposureAnswer {
  ExposureQuestion question;
  std::vector<Correction> factors;
  std::vector<Exposure> exposures;
};

ExposureStudy study_exposure(const Report& report, const ExposureMaterial& material,
                             const ExposureShelf& shelf);

// What full sun on this emulsion means at the widest stop, for the hand and for the shutter; none
// where the light is not in `shelf`.
std::vector<Finding> exposure_findings(const Report& report, const ExposureMaterial& material,
                                       const ExposureShelf& shelf);

// Requires a subject beyond the focal length, if there is one.
ExposureAnswer answer_exposure(const Report& report, const ExposureMaterial& material,
                               const ExposureQuestion& question);

}  // namespace backfit

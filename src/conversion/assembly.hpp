// SPDX-License-Identifier: MIT
// Camera, film and plan joined into one set of planes, openings and parts, in the donor camera's
// axes: z along the light, 0 at the original film plane, x right and y up seen from behind.
#pragma once
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "conversion/lens_design.hpp"
#include "conversion/methods.hpp"
#include "conversion/screens.hpp"
#include "files/diagnostic.hpp"
#include "optics/coverage.hpp"
#include "optics/light.hpp"
#include "parts/adapter_plate.hpp"
#include "parts/back_plate.hpp"
#include "parts/glass_frame.hpp"
#include "parts/pack_holder.hpp"
#include "parts/sheet_holder.hpp"
#include "quantity/estimate.hpp"
#include "survey/camera.hpp"
#include "survey/plan.hpp"

namespace backfit {

// What the answers depend on, each a measured input with its place and its spread.
struct MeasuredInputs {
  Inputs all;
  struct Term {
    InputRef<Length> input;
    double way = 1;
    bool made = false;  // as of SetBackPart
  };
  std::vector<Term> set_back;  // in the order of set_back_parts()
  InputRef<Length> room_behind, travel_forward, stop_setting;
  InputRef<Length> focal, pupil_distance;
  InputRef<Length> gate_width, gate_height, gate_before_film;
};

// Diameter of the circle that the traced lens lights to within two stops at `aperture`: the same
// for every film, so that whoever tries many has it worked out once.
struct LitCircle {
  FNumber aperture;
  Length diameter;
};

// Odds are told to the per cent; of this many draws their standard error is 0.22 % at most.
inline constexpr std::size_t usual_draws = 50'000;

struct Assembly {
  std::filesystem::path file;
  Camera camera;
  Plan plan;
  Film film;
  LensKind lens_kind;
  std::optional<Holder> holder;                 // of a back on the seat, bought or printed
  std::optional<SheetHolder> sheet_holder;      // where it is printed
  std::optional<GlassFrame> glass_frame;        // where the plan has one
  std::optional<PackHolder> pack_holder;        // where it lies in the pack's place
  std::optional<SetBackLips> lips;              // of that
  std::optional<Measured<Length>> asked_depth;  // that it is printed for, within its tolerance
  std::optional<Spool> spool;                   // of roll film
  std::optional<Material> material;             // where the plan has a printer
  std::optional<Prescription> prescription;     // scaled to the camera's focal length

  FrameSize window;                // what the method leaves open, as it lies in the camera
  std::optional<FrameSize> sheet;  // that it is taken from, likewise; empty: roll film
  bool trimmed = false;            // the sheet is cut down to its sheath
  MeasuredInputs inputs;
  std::optional<BackPlate> plate;       // of a back on the seat, when nothing is missing
  std::optional<AdapterPlate> adapter;  // of an instant back whose mounting is in the plan
  Length plate_thickness;               // of either
  std::vector<MissingMeasurement> missing;
  std::vector<std::string> from_memory;  // catalogue numbers used that nobody looked up

  std::size_t draws = usual_draws;  // that odds are counted from
  std::optional<LitCircle> lit_circle;

  Method method() const { return *plan.method; }
  // How far behind the original film plane the emulsion lies: the sum of set_back_parts().
  Length set_back(const Draw& at) const;
  // How far it lies behind the face of the plate that a holder lies on. Requires a back on the
  // seat.
  Length behind_plate(const Draw& at) const;
  // What clips the light between exit pupil and film, nearest the lens first: openings, the old
  // gate, its mask and the plate's window among them, and obstacles.
  std::vector<NamedScreen> screens() const;
  // The opening of the gate mask whose lit_frame() at half the pupil is the picture that the plan
  // wants: that picture times 1 - d / D, with d from the mask to the film and D from the exit pupil
  // to the film, the lens following. Empty unless the plan asks for a mask.
  std::optional<RectangularOpening> mask_opening() const;
  // Exit pupil to film of the lens at infinity: as measured, else by the prescription, else the
  // focal length within a tenth of it.
  Measured<Length> pupil_distance() const;
  // The same by the prescription alone. Requires one.
  Length traced_pupil_distance() const;
  // The exit pupil at `aperture` when the lens stands `moved` nearer the film than it did.
  ExitPupil pupil(FNumber aperture, Length moved) const;
  // The traced lens stopped down to `aperture`. Requires a prescription.
  LensModel traced_lens(FNumber aperture) const;
  // The lens as a film at `film_z` sees it, up to `reach` off the axis: traced if there is a
  // prescription, else as a disc that vignettes nothing.
  LensLight lens_light(FNumber aperture, Length moved, Length film_z, Length reach) const;
};

// A camera file that was read and looked up; its prescription scaled to its focal length.
struct SurveyedCamera {
  std::filesystem::path file;
  Camera camera;
  LensKind lens_kind;
  std::optional<Prescription> prescription;
  std::optional<LitCircle> lit_circle = {};
};

// Joins what was read with `film` of the catalogue. Adds an error and returns empty when a plane of
// the survey lies where light can't pass. Requires prospect_of() without a word against it, and
// the tables that the method asks of the plan.
std::optional<Assembly> conversion_of(SurveyedCamera surveyed, Plan plan, const Film& film,
                                      const Catalogue& catalogue, Diagnostics& diagnostics);

}  // namespace backfit

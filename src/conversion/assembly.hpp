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
#include "files/diagnostic.hpp"
#include "optics/coverage.hpp"
#include "optics/light.hpp"
#include "parts/back_plate.hpp"
#include "quantity/estimate.hpp"
#include "survey/camera.hpp"
#include "survey/plan.hpp"

namespace backfit {

// What the answers depend on, each a measured input with its place and its spread.
struct MeasuredInputs {
  Inputs all;
  InputRef<Length> seat, plate, holder_depth, film_thickness, film_play;
  InputRef<Length> room_behind, travel_forward, stop_setting;
  InputRef<Length> focal, pupil_distance;
  InputRef<Length> gate_width, gate_height, gate_before_film;
};

// A number that a study needs and that nobody has given: what to measure, and the key for it.
struct MissingMeasurement {
  std::string key, how;
};

struct Assembly {
  std::filesystem::path file;
  Camera camera;
  Plan plan;
  Film film;
  Holder holder;
  LensKind lens_kind;
  Material material;
  std::optional<Prescription> prescription;  // scaled to the camera's focal length

  FrameSize window;  // what the holder shows of the sheet, turned as the plan says
  MeasuredInputs inputs;
  std::optional<BackPlate> plate;  // empty when `missing` is not
  Length plate_thickness;
  std::vector<MissingMeasurement> missing;
  std::vector<std::string> from_memory;  // catalogue numbers used that nobody looked up

  // How far behind the original film plane the emulsion lies: seat + plate + holder depth - film
  // thickness - play. The play is how far the film stands off the septum.
  Length set_back(const Draw& at) const;
  // Openings between exit pupil and film that clip the light, nearest the lens first, the old
  // gate and the plate's window among them.
  struct NamedOpening {
    std::string name;
    RectangularOpening opening;
    Place place;
    bool is_old_gate = false;
  };
  std::vector<NamedOpening> openings() const;
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

// Why `aperture` can't be set on this camera, one sentence; empty when it can or none is given.
std::string stop_fault(const Camera& camera, std::optional<FNumber> aperture);

// Reads the conversion file at `path` and the camera file it names, and joins them with the
// catalogue. Adds an error for each mistake and returns empty then.
std::optional<Assembly> assemble(const std::filesystem::path& path, const Catalogue& catalogue,
                                 Diagnostics& diagnostics);

}  // namespace backfit

// SPDX-License-Identifier: MIT
// What the owner wants to make of a camera: one file a conversion.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "files/fields.hpp"
#include "survey/camera_wall.hpp"
#include "survey/exposure_plan.hpp"
#include "survey/extras_plan.hpp"
#include "survey/mounting_plan.hpp"

namespace backfit {

enum class Method { back_on_seat, instant_back, insert, own_holder, pack_holder };
enum class WayUp { upright, lengthways };

// The straps that press a holder on the back plate, two rings hooked over lugs of the plate.
struct StrapsPlan {
  Place place;
  Stated<Measured<Length>> width, thickness;                 // of the strap's band
  std::optional<Stated<Measured<Length>>> holder_thickness;  // of a bought holder, outside
  std::optional<Stated<Money>> price;                        // for both
};

// The back that carries the film, on the camera's seat.
struct BackPlan {
  Place place;
  Stated<WayUp> way_up;                                  // long side of the picture up, or along x
  std::optional<Stated<Measured<Length>>> holder_depth;  // face to septum, measured on the holders
  std::optional<Stated<Measured<Length>>> holder_width;  // outside, across the rib
  std::optional<Stated<Measured<Length>>> rib_from_centre;  // picture centre to the rib's centre
  std::optional<Stated<Measured<Length>>> rib_width, rib_height;
  std::optional<Stated<Length>> plate_thickness;  // left out: the thinnest that holds its screws
  // Of an instant back: from the face that it is mounted by to the emulsion.
  std::optional<Stated<Measured<Length>>> back_register;
  std::optional<StrapsPlan> straps;      // left out: whatever holds the holder is the owner's own
  std::optional<MountingPlan> mounting;  // of an instant back; left out: it fits the seat itself
};

// What the depth of a printed holder is made by.
enum class DepthBy { standard, ground_glass };

// The double-sided holder to print for a back on the seat.
struct HolderPlan {
  Place place;
  // The sheet as measured, its shorter side as width; left out: as the catalogue has it.
  std::optional<Stated<Measured<Length>>> sheet_width, sheet_height;
  std::optional<Stated<Length>> rails;      // what they cover of the sheet at each edge
  std::optional<Stated<DepthBy>> depth_by;  // left out: standard
  std::optional<Stated<Length>> depth;  // face to septum; left out: the catalogue's for the sheet
  std::optional<Stated<Length>> sheet_slot;  // height of the slot the sheet slides into
  std::optional<Stated<Measured<Length>>> slide_thickness;  // left out: 0.8 mm
  std::optional<Stated<Measured<Length>>> felt_thickness;   // left out: 1.5 mm
  std::optional<Stated<Measured<Length>>> felt_width;       // left out: 8 mm
  std::optional<Stated<Measured<Length>>> pin;              // diameter; left out: 1.5 mm
  std::optional<Stated<Measured<Length>>> screw;            // thread; left out: 2 mm
};

// The ground glass to put in a frame that lies on the back plate as a holder does.
struct GlassFramePlan {
  Place place;
  Stated<Measured<Length>> width, height;             // of the glass, its shorter side as width
  std::optional<Stated<Measured<Length>>> thickness;  // left out: that of focus.ground_glass
  std::optional<Stated<Measured<Length>>> screw;      // thread; left out: 2 mm
};

// The thin holder to print that lies in the camera where the old pack lay.
struct PackHolderPlan {
  Place place;
  std::optional<Stated<bool>> dark_slide;  // left out: where the survey has a slit for it
  std::optional<Stated<Measured<Length>>> slide_thickness;  // left out: 0.5 mm
  std::optional<Stated<Measured<Length>>> felt_thickness;   // left out: 1.0 mm
  std::optional<Stated<Measured<Length>>> measured_depth;   // of the finished one, by caliper
};

// Which way the film goes over the gate, seen from behind the camera.
enum class FilmTravel { up, down, left, right };
enum class SpoolLoading { through_back, insert_taken_out };

// The spools that the owner has, by caliper.
struct SpoolPlan {
  Place place;
  std::optional<Stated<Measured<Length>>> flange_diameter, core_diameter;
  std::optional<Stated<Measured<Length>>> full_roll_diameter;  // of a fresh roll
  std::optional<Stated<Measured<Length>>> length;              // over the flanges
  // In its ends: the hole, and the slot across it that a key turns.
  std::optional<Stated<Measured<Length>>> end_hole, slot_length, slot_width, slot_depth;
};

// A scrap backing paper and its film, measured. Lengths along it.
struct BackingPaperPlan {
  Place place;
  std::optional<Stated<Measured<Length>>> paper_thickness, film_thickness, paper_width;
  std::optional<Stated<Measured<Length>>> film_start;  // from the end that is caught first
  std::optional<Stated<Measured<Length>>> film_length;
  std::optional<Stated<Measured<Length>>> paper_length;
  std::optional<Stated<Measured<Length>>>
      first_number;  // of this format's row, from the film's start
  std::optional<Stated<Measured<Length>>> last_number;    // likewise
  std::optional<Stated<Measured<Length>>> row_from_edge;  // middle of the row to the paper's edge
};

// The knob that winds the film on, through a wall of the camera.
struct KnobPlan {
  Place place;
  Stated<CameraWall> wall;
  Stated<Measured<Length>> wall_thickness;
};

// The insert that carries roll film in the chamber.
struct InsertPlan {
  Place place;
  Stated<Measured<Length>> set_back;  // how far its rails hold the film behind the old plane
  std::optional<Stated<FilmTravel>> film_goes;
  std::optional<Stated<SpoolLoading>> loading;
  std::optional<Stated<Length>> wall;            // of its body
  std::optional<Stated<Length>> pressure_plate;  // film plane to the plate's back, spring included
  std::optional<SpoolPlan> spool;
  std::optional<BackingPaperPlan> backing_paper;
  std::optional<KnobPlan> knob;
};

enum class MattSide { to_lens, to_eye };

// The ground glass that shows the picture in place of a holder.
struct GroundGlass {
  Place place;
  Stated<Measured<Length>> depth;  // holder's place on the plate to the face nearer the lens
  Stated<Measured<Length>> thickness;
  Stated<MattSide> matt_side;
};

// A subject found sharp on a ground glass with the new stop in place.
struct StopTest {
  Place place;
  Stated<Measured<Length>> distance;  // ground glass to subject
  Stated<Measured<Length>> travel;    // forward of the new stop
};

// What sharp means, at which stop it shall hold, and what was measured of it.
struct FocusPlan {
  Place place;
  Stated<Length> circle_of_confusion;
  Stated<FNumber> aperture;
  std::optional<Stated<Measured<Length>>> film_bulge;  // middle of the film nearer the lens
  std::vector<Stated<Length>> shims;                   // thicknesses in stock
  std::optional<GroundGlass> ground_glass;
  std::optional<StopTest> stop_test;
};

// What a light meter lost behind a printed step, by a wall of the printer's material.
struct WallReading {
  Place place;
  Stated<Measured<Length>> thickness;
  Stated<double> stops;                        // less than without it
  std::optional<Stated<double>> within_stops;  // how far off for sure; left out: a third
};

struct Printer {
  Place place;
  Stated<std::string> material;  // an id of the catalogue's materials
  Stated<Length> nozzle, layer_height;
  Stated<Length> bed_width, bed_depth;
  Stated<Measured<Length>> clearance;  // gap a side that slides, from a printed gauge
  Stated<Measured<Length>> error;      // how far a printed thickness is off
  std::optional<Stated<Measured<MassDensity>>> density;  // from the spool's data sheet
  std::vector<WallReading> wall_readings;  // two, or left out: what walls pass isn't known
};

// Something to buy, for the list of materials.
struct BoughtItem {
  Place place;
  Stated<std::string> what;
  Stated<int> count;
  std::optional<Stated<Money>> price;  // for all of them
};

struct Prices {
  Place place;
  Stated<std::string> currency;
  std::optional<Stated<Money>> filament_per_kg;
};

enum class SwitchWiring { one_each, two_each, chain };
enum class ResistorSeries { e6, e12, e24, e48, e96 };

// Resistors of one value at hand; left out, `count` is as many as it takes.
struct StockedResistor {
  Place place;
  Stated<Resistance> resistor;
  std::optional<Stated<int>> count;
};

// The printed box for switch and resistors, from the switch at hand.
struct TimerBoxPlan {
  Place place;
  Stated<Measured<Length>> bush;                  // diameter that goes through the panel
  Stated<Measured<Length>> switch_across;         // its body behind the panel
  Stated<Measured<Length>> switch_depth;          // likewise, lugs included
  std::optional<Stated<Measured<Length>>> knob;   // diameter; left out: 18 mm
  std::optional<Stated<Angle>> step;              // from place to place; left out: 30 deg
  std::optional<Stated<Measured<Length>>> screw;  // diameter of the panel's four; left out: 3 mm
  std::optional<Stated<Measured<Length>>> lead;   // diameter of the lead; left out: 3 mm
};

// The switch with resistors that times the shutter by hand.
struct TimerPlan {
  Place place;
  std::vector<Stated<Time>> speeds;  // left out: the usual ones
  std::optional<Stated<SwitchWiring>> wiring;
  std::optional<Stated<ResistorSeries>> series;
  std::vector<StockedResistor> stock;  // if there is any, nothing else is taken
  std::optional<Stated<double>> tolerance_percent, allowed_stops;
  std::optional<Stated<Money>> resistor_price;
  std::vector<BoughtItem> parts;
  std::optional<TimerBoxPlan> box;
};

struct Plan {
  Stated<std::string> camera;  // path of the camera file, from this file's folder
  Stated<std::string> film;    // an id of the catalogue's films
  Stated<Method> method;
  std::optional<Stated<std::string>> remark;
  std::optional<BackPlan> back;      // where the method has a back on the seat
  std::optional<HolderPlan> holder;  // left out: standard holders, bought
  std::optional<GlassFramePlan> glass_frame;
  std::optional<PackHolderPlan> pack_holder;
  std::optional<InsertPlan> insert;  // left out: it holds the film in the old plane
  FocusPlan focus;
  std::optional<Printer> printer;  // where the method has a part to print
  std::optional<TimerPlan> timer;
  std::optional<ExposurePlan> exposure;
  std::optional<FocusGaugePlan> focus_gauge;
  std::optional<DepthGaugePlan> depth_gauge;
  std::optional<GateMaskPlan> gate_mask;
  std::optional<LensSpacerPlan> lens_spacer;
  std::vector<AttachmentRingPlan> attachment_rings;
  std::optional<WindowCoverPlan> window_cover;
  std::optional<BlankCoverPlan> blank_cover;
  std::optional<Prices> prices;
  std::vector<BoughtItem> bought;
};

void describe(Fields& fields, StrapsPlan& straps);
void describe(Fields& fields, BackPlan& back);
void describe(Fields& fields, HolderPlan& holder);
void describe(Fields& fields, GlassFramePlan& frame);
void describe(Fields& fields, PackHolderPlan& holder);
void describe(Fields& fields, SpoolPlan& spool);
void describe(Fields& fields, BackingPaperPlan& paper);
void describe(Fields& fields, KnobPlan& knob);
void describe(Fields& fields, InsertPlan& insert);
void describe(Fields& fields, GroundGlass& glass);
void describe(Fields& fields, StopTest& test);
void describe(Fields& fields, FocusPlan& focus);
void describe(Fields& fields, WallReading& reading);
void describe(Fields& fields, Printer& printer);
void describe(Fields& fields, BoughtItem& item);
void describe(Fields& fields, TimerBoxPlan& box);
void describe(Fields& fields, Prices& prices);
void describe(Fields& fields, StockedResistor& resistor);
void describe(Fields& fields, TimerPlan& timer);
void describe(Fields& fields, Plan& plan);

template <>
std::span<const std::pair<std::string_view, Method>> choices_of<Method>();
template <>
std::span<const std::pair<std::string_view, FilmTravel>> choices_of<FilmTravel>();
template <>
std::span<const std::pair<std::string_view, SpoolLoading>> choices_of<SpoolLoading>();
template <>
std::span<const std::pair<std::string_view, DepthBy>> choices_of<DepthBy>();
template <>
std::span<const std::pair<std::string_view, WayUp>> choices_of<WayUp>();
template <>
std::span<const std::pair<std::string_view, MattSide>> choices_of<MattSide>();
template <>
std::span<const std::pair<std::string_view, SwitchWiring>> choices_of<SwitchWiring>();
template <>
std::span<const std::pair<std::string_view, ResistorSeries>> choices_of<ResistorSeries>();

}  // namespace backfit

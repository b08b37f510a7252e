// SPDX-License-Identifier: MIT
// The donor camera as its owner measured it: one file a camera, shared by all its conversions.
// Lengths along the light count from the original film plane; widths run along x (to the right
// seen from behind the camera), heights along y (up).
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "files/fields.hpp"
#include "quantity/light.hpp"
#include "survey/camera_wall.hpp"

namespace backfit {

enum class Construction { folding, plate, box, rigid };
enum class LensMotion { standard, front_element, fixed };
enum class FinderCoupling { none, standard, front_element };
enum class ShutterTiming { photocell, mechanical, single_speed };
enum class Sync { none, x, m, x_and_m };
enum class FilmRun { up, across };
enum class PlateRest { front, floor };

// The outline of a flat thing square to the axis: of an opening that light must pass (a bellows
// frame, the throat), or of something in its way (an old roller, a post). It has one of three
// shapes: width and height, a diameter, or corners in order.
struct Outline {
  Place place;
  Stated<std::string> name;
  std::optional<Stated<Measured<Length>>> width, height, diameter;
  std::vector<Stated<Length>> corners_x, corners_y;  // from the axis
  std::optional<Stated<Measured<Length>>> x, y;      // the middle of the other shapes, likewise
  Stated<Measured<Length>> before_film;  // how far it lies in front of the original film plane
};

struct Gate {
  Place place;
  Stated<Measured<Length>> width, height;
  Stated<Measured<Length>> before_film;
};

// A screw place on the seat, from the optical axis.
struct ScrewPlace {
  Place place;
  Stated<Measured<Length>> x, y;
};

// The groove around the back opening that the old back's edge entered.
struct SeatGroove {
  Place place;
  Stated<Measured<Length>> inner_width, inner_height, width, depth;
  std::optional<Stated<Measured<Length>>> inner_corner_radius;
};

// Something beside the seat that a back could run into: the finder, a latch, the bed.
struct Neighbour {
  Place place;
  Stated<std::string> name;
  Stated<Measured<Length>> x, y, width, height;  // seen from behind, from the optical axis
  Stated<Measured<Length>> behind_seat;          // its rearmost point; negative before the seat
  std::optional<Stated<bool>> looked_through;    // from behind; left out: no
};

// The face that the old back closed against.
struct Seat {
  Place place;
  Stated<Measured<Length>> behind_film;  // seat behind the original film plane; negative in front
  Stated<Measured<Length>> width, height, corner_radius;
  Stated<Measured<Length>> screw_diameter;
  SeatGroove groove;
  std::vector<ScrewPlace> screws;
  std::vector<Neighbour> neighbours;
};

// Where the rolls of a roll-film camera lie.
struct SpoolRoom {
  Place place;
  Stated<FilmRun> film_runs;
  Stated<Measured<Length>> length;    // across the film, between what holds a spool's ends
  Stated<Measured<Length>> diameter;  // of the largest full roll that has room
};

// Something in the chamber that is in the way of rolls and film: a hinge, a step, an old roller.
// Its extent along the film and along the light; across the film it counts as there everywhere.
struct ChamberPart {
  Place place;
  Stated<std::string> name;
  Stated<Measured<Length>> x, y;           // its middle, from the optical axis
  Stated<Measured<Length>> width, height;  // its size along x and y
  Stated<Measured<Length>> behind_film;    // its face nearer the lens; negative before the film
  Stated<Measured<Length>> depth;          // from there backwards
  Stated<bool> may_be_cut;
};

// The hollow that an insert can fill, its middle on the optical axis.
struct Chamber {
  Place place;
  Stated<Measured<Length>> width, height;
  Stated<Measured<Length>> before_film;  // original film plane to the front wall beside the gate
  Stated<Measured<Length>> behind_film;  // original film plane to the inside of the closed back
  std::vector<ChamberPart> parts;
};

// The slit in a wall that the old pack's tabs were drawn through.
struct TabSlit {
  Place place;
  Stated<CameraWall> wall;
  Stated<Measured<Length>> length, height;  // along the wall, and along the light
  Stated<Measured<Length>> behind_film;     // its middle; negative before the film
};

// The place where the old pack lay, its middle on the optical axis.
struct PackRoom {
  Place place;
  Stated<Measured<Length>> width, height;  // of the largest thing that goes in
  Stated<Measured<Length>> before_film;    // the face that it lay on, before the film plane
  Stated<Measured<Length>> depth;          // from that face to the inside of the closed back
  std::optional<TabSlit> slit;
};

// A film sheath: it lies in a plate holder as a plate does and carries a sheet.
struct Sheath {
  Place place;
  Stated<Measured<Length>> sheet_width, sheet_height;      // of the largest sheet that slides in
  Stated<Measured<Length>> opening_width, opening_height;  // what its lips leave
  Stated<Measured<Length>> lip;                            // thickness, before the sheet
  Stated<Measured<Length>> slot;                           // in which the sheet may move
  Stated<Measured<Length>> thickness;                      // over all
};

// The camera's own holder for glass plates. The original film plane is the front face of a plate
// in it.
struct PlateHolder {
  Place place;
  Stated<PlateRest> plate_rests;
  Stated<Measured<Length>> plate_thickness;
  std::optional<Sheath> sheath;
};

// The board or flange that carries the lens, a rectangle or round, and what holds it.
struct LensBoard {
  Place place;
  std::optional<Stated<Measured<Length>>> width, height, diameter;
  std::optional<Stated<Measured<Length>>> corner_radius;
  Stated<Measured<Length>> opening;      // diameter free behind it for lens and light
  Stated<Measured<Length>> before_film;  // its rear face, lens at infinity
  std::optional<Stated<Measured<Length>>> screw_diameter;
  std::vector<ScrewPlace> screws;
};

struct Lens {
  Place place;
  Stated<std::string> kind;  // an id of the catalogue's lens kinds
  Stated<Measured<Length>> focal;
  std::vector<Stated<FNumber>> apertures;
  std::optional<Stated<Measured<Length>>> image_circle;  // measured, at infinity
  std::optional<Stated<Measured<double>>> pupil_magnification;
  std::optional<Stated<Measured<Length>>> exit_pupil_before_film;  // lens at infinity
  std::optional<Stated<Measured<Length>>> filter_thread;
  std::optional<Stated<std::string>> prescription;  // path of a lens file, from this file's folder
};

struct Focusing {
  Place place;
  Stated<LensMotion> moves;
  Stated<Measured<Length>> travel_forward;        // from the infinity setting towards the subject
  Stated<Measured<Length>> room_behind_infinity;  // from the infinity setting towards the film
  std::vector<Stated<Length>> marks;              // engraved distances
};

struct Rangefinder {
  Place place;
  Stated<FinderCoupling> coupled_to;
  std::optional<Stated<Measured<Length>>> base;
  std::optional<Stated<Measured<double>>> magnification;
};

// A resistor put in the photocell's place, and the open times that were measured with it.
struct ShutterTrial {
  Place place;
  Stated<Measured<Resistance>> resistor;
  std::vector<Stated<Measured<Time>>> times;
};

// The photocell's resistance in a light that a lux meter stood in.
struct ShutterCell {
  Place place;
  Stated<Measured<Illuminance>> light;
  Stated<Measured<Resistance>> resistance;
};

// What is known of the circuit that times a photocell-timed shutter.
struct ShutterTimer {
  Place place;
  std::vector<ShutterTrial> trials;
  std::optional<Stated<Measured<Time>>> fixed_time;
  std::optional<Stated<Measured<Capacitance>>> capacitance;
  std::optional<Stated<Measured<double>>> threshold;  // share of the supply
  std::optional<Stated<bool>> threshold_follows_supply;
  std::optional<Stated<Measured<Resistance>>> leakage;  // across the capacitor
  std::optional<Stated<Measured<Voltage>>> supply, supply_low;
  std::optional<Stated<int>> cells;
  std::optional<Stated<Measured<Current>>> current;
  std::vector<ShutterCell> cell_readings;
};

// A speed as a recording showed it, with the lens wide open.
struct MeasuredSpeed {
  Place place;
  Stated<Time> marked;
  Stated<Measured<Time>> effective;
};

struct Shutter {
  Place place;
  Stated<ShutterTiming> timing;
  std::vector<Stated<Time>> marked_speeds;
  std::vector<MeasuredSpeed> measured;
  std::optional<Stated<Measured<Time>>> blades_open;  // first light to fully open
  std::optional<Stated<Sync>> sync;
  std::optional<ShutterTimer> timer;
};

struct Accessory {
  Place place;
  Stated<std::string> name;
  std::optional<Stated<Measured<Dioptre>>> close_up;
  std::optional<Stated<Measured<double>>> tele_factor;
  std::optional<Stated<Measured<Length>>> front_glass;  // of a tele attachment, clear diameter
};

struct Camera {
  Stated<std::string> name;
  Stated<Construction> construction;
  std::optional<Stated<std::string>> remark;
  Gate gate;
  std::optional<Seat> seat;
  std::optional<SpoolRoom> spools;
  std::optional<Chamber> chamber;
  std::optional<PackRoom> pack;
  std::optional<PlateHolder> plate_holder;
  Lens lens;
  std::optional<LensBoard> lens_board;
  Focusing focusing;
  Shutter shutter;
  std::optional<Rangefinder> rangefinder;
  std::vector<Outline> openings, obstacles;
  std::vector<Accessory> accessories;
};

void describe(Fields& fields, Outline& outline);
void describe(Fields& fields, Gate& gate);
void describe(Fields& fields, ScrewPlace& screw);
void describe(Fields& fields, SeatGroove& groove);
void describe(Fields& fields, Neighbour& neighbour);
void describe(Fields& fields, Seat& seat);
void describe(Fields& fields, SpoolRoom& spools);
void describe(Fields& fields, ChamberPart& part);
void describe(Fields& fields, Chamber& chamber);
void describe(Fields& fields, TabSlit& slit);
void describe(Fields& fields, PackRoom& pack);
void describe(Fields& fields, Sheath& sheath);
void describe(Fields& fields, PlateHolder& holder);
void describe(Fields& fields, LensBoard& board);
void describe(Fields& fields, Lens& lens);
void describe(Fields& fields, Focusing& focusing);
void describe(Fields& fields, Rangefinder& rangefinder);
void describe(Fields& fields, ShutterTrial& trial);
void describe(Fields& fields, ShutterCell& cell);
void describe(Fields& fields, ShutterTimer& timer);
void describe(Fields& fields, MeasuredSpeed& speed);
void describe(Fields& fields, Shutter& shutter);
void describe(Fields& fields, Accessory& accessory);
void describe(Fields& fields, Camera& camera);

template <>
std::span<const std::pair<std::string_view, Construction>> choices_of<Construction>();
template <>
std::span<const std::pair<std::string_view, LensMotion>> choices_of<LensMotion>();
template <>
std::span<const std::pair<std::string_view, FinderCoupling>> choices_of<FinderCoupling>();
template <>
std::span<const std::pair<std::string_view, ShutterTiming>> choices_of<ShutterTiming>();
template <>
std::span<const std::pair<std::string_view, Sync>> choices_of<Sync>();
template <>
std::span<const std::pair<std::string_view, FilmRun>> choices_of<FilmRun>();
template <>
std::span<const std::pair<std::string_view, PlateRest>> choices_of<PlateRest>();

}  // namespace backfit

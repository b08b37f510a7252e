// SPDX-License-Identifier: MIT
// Something to print or cut, and what belongs together with it.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "solid/solid.hpp"

namespace backfit {

// Where the eye stands over a piece as it lies on the bed; in brackets what points right and up.
enum class PieceView {
  above,  // (x, y)
  front,  // at -y (x, z)
  right   // at +x (-z, y)
};

// A length to check a print by.
struct PieceSize {
  std::string what;  // "slot for the film, height"
  Length value;
  std::optional<Length> within = {};  // how far the print may be off, where it matters
  // Two places of the piece as it lies, between which a view shows it: along the paper's axis in
  // which they lie farther apart. Its distance there is `value`.
  struct Shown {
    PieceView view;
    Point3 from, to;
  };
  std::optional<Shown> shown = {};
  bool round = false;  // a diameter
};

// Where it sits, as often as it is needed; and how it lies on the bed, lowest at z = 0, over the
// origin. Words are on `on_bed` alone: they make a body slow to draw.
struct Piece {
  std::string name;  // "spool pin"
  std::vector<Solid> in_place;
  Solid drawn, on_bed;
  std::string lies;  // "gate down"
  std::vector<PieceSize> sizes = {};
  bool flat = false;          // of one thickness: also cut from sheet by its outline
  std::string support = {};   // "none" if empty, else where
  bool hidden_lines = true;   // drawn in its views; too many hide what is seen
  std::string cut_from = {};  // bought stock: "brass sheet, 0.15 mm"; printed if empty

  bool printed() const { return cut_from.empty(); }
};

// Something bought for a set.
struct NeededPart {
  std::string what;
  int count = 1;
};

// A step in putting a set together; cautions are read before it.
struct AssemblyStep {
  std::string title, text;
  std::vector<std::string> cautions = {};
};

// A screw along the light, turned by a straight driver that stands over its head.
struct SetScrew {
  std::string name;  // "screw of the panel"
  Point3 head;       // middle of the head's outer face, in place
  Length head_diameter;
  bool from_behind = true;              // where the driver stands
  bool in_camera = false;               // turned there, or on the bench
  std::vector<std::size_t> later = {};  // pieces that come only when it is tight, by their places
};

// The plane that a set is shown cut by: the places whose x, y or z is `at`; what lies beyond it,
// seen against that axis, stays.
struct CutPlane {
  enum class Axis { x, y, z } axis = Axis::x;
  Length at;
};

// Something that stays where it is while a set is used: of the camera, or another part on it.
struct Surrounding {
  std::string name;  // "seat"
  Solid body;        // in the set's axes, as far as it was measured
};

// Two pieces of a set, by their places in it, in their places in the camera; or, where `second`
// counts on through the set's surroundings, a piece and one of these.
struct PieceMeeting {
  std::size_t first, second;
  Length apart;   // 0 where they touch
  Volume common;  // of material that both take up: above 0 they don't go together
};

// The pieces of one part of the conversion, all `in_place` in the same axes.
struct PieceSet {
  std::string name;     // "sheet holder": heads its chapter, and begins the names of its files
  std::string purpose;  // a sentence or two
  std::vector<Piece> pieces;
  std::vector<AssemblyStep> steps = {};
  std::vector<NeededPart> bought = {};
  std::optional<CutPlane> cut = {};  // the telling one
  // How far each piece is moved for the exploded view, in the order of `pieces`; no such view if
  // empty.
  std::vector<Point3> apart = {};
  std::vector<SetScrew> screws = {};
  std::vector<Surrounding> around = {};
  std::vector<PieceMeeting> meetings = {};  // by meetings_of(), which takes a while
};

}  // namespace backfit

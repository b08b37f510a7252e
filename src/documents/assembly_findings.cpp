// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "documents/camera_bodies.hpp"
#include "documents/made_sets.hpp"
#include "parts/meetings.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

std::string named(const PieceSet& set, const Piece& piece) {
  return piece.name == set.name ? "the " + set.name
                                : fmt::format("the {} of the {}", piece.name, set.name);
}

// How far the farthest of a piece reaches behind `z`.
Length behind(const Piece& piece, Length z) {
  Length most{};
  for (const Solid& body : piece.in_place) most = std::max(most, bounds_of(body).high.z - z);
  return most;
}

// Away from the axis, how far something beside the seat must go to clear all that `piece` has on
// its way, and what that is called.
std::pair<Length, const char*> way_out(const Piece& piece, const Bounds& other) {
  const Length x = other.low.x + other.high.x, y = other.low.y + other.high.y;
  Length most{};
  const bool upright = abs(y) >= abs(x);
  const bool positive = (upright ? y : x) > Length{};
  for (const Solid& body : piece.in_place) {
    const Bounds b = bounds_of(body);
    most = std::max(most, upright ? (positive ? b.high.y - other.low.y : other.high.y - b.low.y)
                                  : (positive ? b.high.x - other.low.x : other.high.x - b.low.x));
  }
  return {most, upright ? (positive ? "rise" : "go down")
                        : (positive ? "go to the right" : "go to the left")};
}

bool stands_beside(const Report& r, const std::string& name) {
  const auto& seat = r.assembly.camera.seat;
  return seat &&
         std::ranges::any_of(seat->neighbours, [&](const Neighbour& n) { return *n.name == name; });
}

// Of all pieces of a set that run into one thing, the one that asks most of it.
struct Worst {
  const Piece* piece = nullptr;
  Length by;
  const char* way = "";
};

void find_meetings(const Report& r, const PieceSet& set, std::vector<Finding>& out) {
  std::map<std::size_t, Worst> beside, closing;  // by their places in the surroundings
  for (const PieceMeeting& m : set.meetings) {
    if (m.second < set.pieces.size() || m.common < negligible) continue;
    const Piece& piece = set.pieces[m.first];
    const std::size_t at = m.second - set.pieces.size();
    const Surrounding& other = set.around[at];
    if (other.name == closed_back || stands_beside(r, other.name)) {
      const bool back = other.name == closed_back;
      const Bounds b = bounds_of(other.body);
      const auto [by, way] =
          back ? std::pair{behind(piece, b.low.z), "go back"} : way_out(piece, b);
      Worst& worst = (back ? closing : beside)[at];
      if (worst.piece == nullptr || by > worst.by) worst = {&piece, by, way};
      continue;
    }
    out.push_back({"part-runs-into-camera",
                   Weight::blocker,
                   place_of(r, other.name),
                   fmt::format("{} runs into the {}: both take up {} mm³ of the same place",
                               named(set, piece), other.name, fixed(m.common / mm3, 1)),
                   "what was measured of the " + other.name,
                   {fmt::format("measure the {} again; if it is right, it must give way there",
                                other.name)}});
  }
  for (const auto& [at, worst] : closing) {
    out.push_back(
        {"back-does-not-close",
         Weight::blocker,
         place_of(r, closed_back),
         fmt::format("{} keeps the camera's back from closing: it reaches {} too far back",
                     named(set, *worst.piece), text(worst.by)),
         "the room up to the closed back",
         {fmt::format("{} more room behind, or a plan that makes it thinner by that",
                      text(worst.by))}});
  }
  for (const auto& [at, worst] : beside) {
    const std::string& name = set.around[at].name;
    out.push_back({"part-runs-into-camera",
                   Weight::warning,
                   place_of(r, name),
                   fmt::format("{} runs into the {}", named(set, *worst.piece), name),
                   "what was measured of the " + name,
                   {fmt::format("the {} must {} by {}", name, worst.way, text(worst.by, 1))}});
  }
}

void find_screws(const Report& r, const PieceSet& set, std::vector<Finding>& out) {
  std::set<std::pair<std::string, std::string>> told;
  for (const BlockedScrew& b : blocked_screws(set)) {
    const SetScrew& screw = set.screws[b.screw];
    const std::string& by = name_of(set, b.by);
    if (!told.insert({screw.name, by}).second) continue;
    const bool camera = b.by >= set.pieces.size();
    out.push_back(
        {"screw-out-of-reach",
         Weight::warning,
         camera ? place_of(r, by) : r.assembly.plan.printer->place,
         fmt::format("no straight driver reaches the {} at ({}, {}) mm: the {} stands over it",
                     screw.name, fixed(screw.head.x / mm, 1), fixed(screw.head.y / mm, 1), by),
         {},
         {fmt::format("a driver thinner than its head of {}, or a bent one",
                      text(screw.head_diameter, 1))}});
  }
}

}  // namespace

std::vector<Finding> assembly_findings(const Report& report, const MadeParts& parts) {
  std::vector<Finding> out;
  const auto find = [&](const PieceSet& set) {
    find_meetings(report, set, out);
    find_screws(report, set, out);
  };
  if (parts.plate_set) find(*parts.plate_set);
  for (const PieceSet& set : parts.sets) find(set);
  return out;
}

}  // namespace backfit

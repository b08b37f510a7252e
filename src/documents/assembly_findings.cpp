// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
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

void find_meetings(const Report& r, const PieceSet& set, std::vector<Finding>& out) {
  for (const PieceMeeting& m : set.meetings) {
    if (m.second < set.pieces.size() || m.common < negligible) continue;
    const Piece& piece = set.pieces[m.first];
    const Surrounding& other = set.around[m.second - set.pieces.size()];
    const Place place = place_of(r, other.name);
    if (other.name == closed_back) {
      const Length by = behind(piece, bounds_of(other.body).low.z);
      out.push_back({"back-does-not-close",
                     Weight::blocker,
                     place,
                     fmt::format("{} keeps the camera's back from closing: it reaches {} too far "
                                 "back",
                                 named(set, piece), text(by)),
                     "the room up to the closed back",
                     {fmt::format("{} more room behind, or a plan that makes it thinner by that",
                                  text(by))}});
      continue;
    }
    out.push_back({"part-runs-into-camera",
                   Weight::blocker,
                   place,
                   fmt::format("{} runs into the {}: both take up {} mm³ of the same place",
                               named(set, piece), other.name, fixed(m.common / mm3, 1)),
                   "what was measured of the " + other.name,
                   {fmt::format("measure the {} again; if it is right, it must give way there",
                                other.name)}});
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

// SPDX-License-Identifier: MIT
// Numbers and names of a report in the words that the chapters of the build sheet share.
#pragma once
#include <string>

#include "conversion/report.hpp"

namespace backfit::paper {

// "79.3 × 103.1", in millimetres without the unit.
std::string sides(const FrameSize& size);
// "9.0 ± 0.3": a measured length and what it lies within for sure, in millimetres.
std::string within(const Measured<Length>& measured);
// "3 m", "1.5 m", "690 mm": as a distance is engraved.
std::string engraved(Length distance);
// "−0.60": with the sign that dimensions have.
std::string place_mm(Length place);
// "Infinity is reached." of "infinity is reached".
std::string sentence(std::string text);
// "3 warnings", "1 warning".
std::string counted(std::size_t count, const std::string& what);
// At most `letters` letters of `text`, the last being "…" when some are left out.
std::string shortened(const std::string& text, std::size_t letters);

// "back" of a move away from the subject, "forward" of one below 0.
std::string_view way_of(Length move);

// What the owner moves to make good the set-back: "standard", or "lens" where none moves.
std::string what_moves(const Camera& camera);

// Names of the two hand-written files, without their folders.
std::string conversion_file(const Assembly& assembly);
std::string camera_file(const Assembly& assembly);

}  // namespace backfit::paper

// SPDX-License-Identifier: MIT
// A lens spacer as a study of leaking light sees it: seams all round the lens board, into the room
// behind the lens.
#pragma once
#include <cstdint>
#include <optional>
#include <vector>

#include "conversion/assembly.hpp"
#include "conversion/seam_scene.hpp"
#include "parts/lens_spacer.hpp"

namespace backfit {

struct LeakSpacer {
  // Between two faces; left out: as far as a print or the sheet of a shim may be off.
  std::optional<Length> face_gap = {};
  bool taped = false;  // all round the edges of board, stack and standard
};

// The spacer with its shims between lens board and standard, a gap between each two. Its round
// opening counts as the square around it, and what lies outside that as straight: the shortest ways
// all along.
class SpacerStack {
 public:
  // `room` reaches from the lens backwards; the standard's face lies in it where the survey has
  // it.
  SpacerStack(LensSpacer spacer, const HollowRoom& room, const LeakSpacer& how);

  // In the room's place: the stack's opening from the lens on, and what of the room lies behind.
  std::vector<HollowRoom> rooms() const;

  // The part, its seams from the lens backwards, and its print's rim; or that tape shuts them.
  void add(SeamScene& scene) const;

 private:
  std::vector<LeakSeam> seams() const;
  std::vector<PrintedWall> walls() const;

  // A face between two layers, `gap` deep.
  struct Meeting {
    std::string name;
    Length front, gap;
    Wall before, behind;
  };
  LensSpacer spacer_;
  HollowRoom room_;
  bool taped_;
  std::vector<Meeting> meetings_;
  Length lens_, standard_;
};

// "black tape ...", what to do about it.
inline constexpr const char* tape_remedy = "black tape round the edges of lens board and spacer";

// What the plan asks for; empty where it asks for none or the lens need not move forward.
std::optional<LensSpacer> leak_spacer(const Assembly& assembly);

}  // namespace backfit

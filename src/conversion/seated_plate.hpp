// SPDX-License-Identifier: MIT
// A plate on the camera's seat as a study of leaking light sees it: what the back plate and the
// adapter of an instant back have in common.
#pragma once
#include <string>
#include <vector>

#include "conversion/camera_front.hpp"
#include "conversion/leak_back.hpp"
#include "conversion/seam_sides.hpp"

namespace backfit {

// Walls' numbers in the hollow.
enum : std::uint32_t { of_camera, of_plate, of_holder };

struct SeatedPlate {
  const Assembly& assembly;
  const LeakBack& how;
  FrameSize outline, window;
  Length thickness;
  BackPlate::Tongue tongue;
  Length clearance, flat, seat_gap;  // flat: of any two faces, as printed
  CameraFront camera;
  Length front, rear;  // z of its faces

  // Requires a seat and a printer.
  SeatedPlate(const Assembly& a, const LeakBack& back, const FrameSize& outline,
              const FrameSize& window, Length thickness, const BackPlate::Tongue& tongue);

  const Wall& outside() const { return how.matt_all_over ? blackened : bare_print; }

  // The hollow's rooms to its rear face.
  std::vector<HollowRoom> rooms() const;

  // From outside along the flat faces, round the tongue in its groove, and along them again. On
  // the right lies the camera.
  LeakSeam seat_seam(SeamSide side) const;

  // Through the plate from its open face beside what covers it, which on that side reaches so far
  // from the axis. Where that lies before the hollow, straight through; else slanting between
  // cover and seat to the window's edge.
  PrintedWall wall(SeamSide side, std::string name, Length covered) const;

  // What of the small parts counts, and how readings are to be had.
  void add_common(SeamScene& scene) const;
};

}  // namespace backfit

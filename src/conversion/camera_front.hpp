// SPDX-License-Identifier: MIT
// The camera before its film, as light finds it: the rooms from the lens to the face that what
// carries the film rests on.
#pragma once
#include <cstdint>
#include <optional>
#include <vector>

#include "conversion/spacer_stack.hpp"
#include "optics/light.hpp"

namespace backfit {

// Front and shutter are shut. All lengths but sizes are z in the camera's axes.
class CameraFront {
 public:
  // `rest`: of that face.
  CameraFront(const Assembly& assembly, Length rest, const LeakSpacer& spacer);

  // What opens to that face.
  const FrameSize& last() const { return is_deep() ? room_ : gate_; }
  Length rest() const { return rest_; }

  // Of the hollow, the last one ending at `rear`, which lies behind the rest; all of one stuff.
  std::vector<HollowRoom> rooms(Length rear, std::uint32_t stuff) const;

  // The ways in by a lens spacer, where the plan has one.
  void add_spacer(SeamScene& scene) const;

 private:
  bool is_deep() const;  // room behind the gate as well
  Length throat() const;

  FrameSize room_, gate_;
  Length lens_, floor_, rest_;
  std::optional<SpacerStack> spacer_;
};

// The film's emulsion, all measurements at their estimates.
Length film_plane(const Assembly& assembly);

// A film of the picture's size about the axis, its emulsion to the lens.
FilmPlane film_at(const Assembly& assembly, Length z, std::size_t columns, std::size_t rows);

}  // namespace backfit

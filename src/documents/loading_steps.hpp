// SPDX-License-Identifier: MIT
// The steps of the build sheet that get the film into the camera, by method.
#pragma once
#include <string>
#include <vector>

#include "conversion/report.hpp"
#include "documents/drawing.hpp"
#include "documents/flow.hpp"

namespace backfit::paper {

// Steps as they are added to a flow, numbered from 1.
class Steps {
 public:
  explicit Steps(Flow& flow) : flow_(flow) {}
  void add(std::string title, std::string text, std::vector<std::string> cautions = {}) {
    flow_.step({++number_, std::move(title), std::move(text), std::move(cautions)});
  }

 private:
  Flow& flow_;
  int number_ = 0;
};

// "3.65 mm".
inline std::string mm_of(Length length, int decimals = 2) {
  return in_mm(length, decimals) + " mm";
}

// What to make and fit until the film lies in the camera and no light gets at it.
// Requires report.assembly.plate for a back on the seat.
void add_loading(Steps& steps, const Report& report);

// The same for a back on the seat: printing, fitting, testing. Requires report.assembly.plate.
void add_plate_steps(Steps& steps, const Report& report);

// The same for a printed insert: printing, cutting, assembling, loading, testing. Requires
// report.insert->can_be_made().
void add_printed_insert_steps(Steps& steps, const Report& report);

// Where a ground glass shows what the film will get: "3.65 mm behind the plate's rear face".
std::string glass_place(const Report& report);

// What to lay ready, with boxes to tick off.
std::string tools(const Report& report);

}  // namespace backfit::paper

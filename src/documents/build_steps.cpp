// SPDX-License-Identifier: MIT
#include "documents/build_steps.hpp"

#include <fmt/format.h>

#include "documents/drawing.hpp"
#include "parts/printing.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

class Steps {
 public:
  explicit Steps(paper::Flow& flow) : flow_(flow) {}
  void add(std::string title, std::string text, std::vector<std::string> cautions = {}) {
    flow_.step({number_++, std::move(title), std::move(text), std::move(cautions)});
  }

 private:
  paper::Flow& flow_;
  int number_ = 1;
};

std::string mm_text(const Measured<Length>& m) {
  return fmt::format("{} mm ± {}", paper::in_mm(m.value, 2), paper::in_mm(m.half_width, 2));
}

void prepare(Steps& steps, const Report& r) {
  const Assembly& a = r.assembly;
  const BackPlate& p = *a.plate;
  steps.add("Measure once more",
            fmt::format("Check with the caliper before anything is printed: seat behind the film "
                        "plane {}; room behind the infinity stop {}; holder depth {} "
                        "on every holder that you will use; gate {} × {} mm. If one has changed, "
                        "change the file and make this sheet again.",
                        mm_text(a.camera.seat.behind_film.value),
                        mm_text(a.camera.focusing.room_behind_infinity.value),
                        mm_text(a.plan.back.holder_depth ? a.plan.back.holder_depth->value
                                                         : a.holder.depth.value.value),
                        paper::in_mm(a.camera.gate.width->value, 2),
                        paper::in_mm(a.camera.gate.height->value, 2)));
  steps.add(
      "Print the plate",
      fmt::format("parts/back-plate.3mf, rear face on the bed, tongue up, no supports, solid. "
                  "Afterwards the plate must measure {} mm in thickness, "
                  "± {}, at all four corners; the window {} × {} mm.",
                  paper::in_mm(p.thickness, 2), paper::in_mm(a.plan.printer.error->half_width, 2),
                  paper::in_mm(p.window_width, 1), paper::in_mm(p.window_height, 1)),
      {"Printing gives off particles and vapours: ventilate, and do not print in a bedroom. Follow "
       "the filament's safety data sheet."});
  steps.add(
      "Clear the holes",
      fmt::format("Run a {} mm drill through the seat holes and a {} mm drill through the fence "
                  "holes by hand. Lay the template on and check their places.",
                  paper::in_mm(p.screws.hole_diameter, 1), paper::in_mm(p.fence.hole_diameter, 1)),
      {"Cut and drill away from your hand; wear glasses."});
  steps.add("Blacken",
            "Paint tongue, window edges and front face matt black, not the rear face: the holder "
            "rests on it, and "
            "whatever lies between them sets the film back.",
            {"Paints and glues: outdoors or with extraction, after their safety data sheets. Wear "
             "a mask when you sand."});
}

void fit(Steps& steps, const Report& r) {
  const BackPlate& p = *r.assembly.plate;
  steps.add(
      "Fit the fence",
      fmt::format(
          "Put the {} fence screws in from the front and a nut on each from behind. The holder "
          "must slide between the nuts "
          "without play that you can see, its rib in the groove. Hook a strap over each pair.",
          p.fence.places.size()));
  steps.add(
      "Try the tongue dry",
      fmt::format("The tongue, {} mm deep, enters the seat's groove with {} of air on each side. "
                  "It must go home by hand; if it "
                  "binds, scrape the tongue, not the camera.",
                  paper::in_mm(p.tongue.depth, 2), text(r.assembly.plan.printer.clearance->value)));
  steps.add("Screw the plate down",
            fmt::format("{} screws of {} mm, crosswise. No head may stand proud of the rear face: "
                        "a straightedge across it must not rock.",
                        p.screws.places.size(),
                        paper::in_mm(r.assembly.camera.seat.screw_diameter->value, 1)));
  steps.add("Look for light",
            "In a dark room put a lamp inside the camera, a holder in place with its dark slide "
            "in, and look along every seam. Then leave the "
            "loaded camera in daylight for ten minutes, each side in turn, and develop the sheet: "
            "it must be clear. If light comes by the seat, lay black yarn in the bottom of its "
            "groove; never put felt between plate and holder.",
            {"Never look through a lens at the sun, and never leave a lens lying in it: it can "
             "start a fire."});
}

void set_focus(Steps& steps, const Report& r) {
  const Assembly& a = r.assembly;
  const RegisterStudy& reg = r.register_;
  std::vector<std::string> cautions;
  if (*a.camera.shutter.timing == ShutterTiming::photocell ||
      (a.camera.shutter.sync && **a.camera.shutter.sync != Sync::none)) {
    cautions.emplace_back(
        "Shutter and flash circuits can hold a charge for days or weeks with the battery out: "
        "treat them as live, and leave their discharge to "
        "somebody qualified, who checks with a meter. Never open or burn old cells; they are "
        "household hazardous waste.");
  }
  steps.add("Move the infinity stop",
            reg.farthest_focus
                ? fmt::format("Take the stop off and let the standard go back all of {}. Infinity "
                              "is not reached: the farthest focus is {}.",
                              text(reg.standard_moves), text(*reg.farthest_focus))
                : fmt::format("Set it {} farther back, so that the standard follows the film. Move "
                              "the pointer of the focus scale with it.",
                              text_with_u(reg.set_back.value, reg.set_back.standard_uncertainty)),
            cautions);
  steps.add(
      "Check infinity on a ground glass",
      fmt::format(
          "Put a ground glass in place of the film, its matt face at the holder's depth less the "
          "film, {} mm from the holder face. Focus on something beyond "
          "300 m at {}. Shift the stop until it is sharp there; the calculation is good to ± {}.",
          paper::in_mm(reg.set_back.value - a.camera.seat.behind_film->value - a.plate_thickness,
                       2),
          text(r.focus.aperture), text(coverage_95 * r.focus.plane_error.standard_uncertainty)),
      {"Tape the edges of the glass. Do not point the camera at the sun."});
  if (a.camera.rangefinder && *a.camera.rangefinder->coupled_to != FinderCoupling::none) {
    steps.add("Set the rangefinder",
              fmt::format("Its drive now stands {} too far back. Move the cam or arm forward by "
                          "that, set it on a far subject, then check it at "
                          "one mark of the scale with a tape measure.",
                          text(reg.standard_moves)));
  }
}

void expose(Steps& steps, const Report& r) {
  steps.add(
      "First sheets",
      fmt::format("Photograph a page of text and an even wall, at {} and two stops down. Compare "
                  "the lit picture with {} × {} mm, its corners with the table of light lost, and "
                  "write down what you find.",
                  text(r.focus.aperture), paper::in_mm(r.frame.picture.width, 1),
                  paper::in_mm(r.frame.picture.height, 1)),
      {"Developers, fixers and their disposal: gloves, eye protection, fresh air; safety data "
       "sheets and local rules decide."});
}

}  // namespace

std::optional<Mass> plate_mass(const Report& r) {
  const Assembly& a = r.assembly;
  const Volume volume = volume_of(*a.plate);
  if (a.plan.printer.density) return printed_mass(volume, a.plan.printer.density->value.value);
  if (a.material.density) return printed_mass(volume, a.material.density->value->value);
  return {};
}

void add_steps(paper::Flow& flow, const Report& report) {
  flow.heading("Steps");
  Steps steps(flow);
  prepare(steps, report);
  fit(steps, report);
  set_focus(steps, report);
  expose(steps, report);
}

void add_materials(paper::Flow& flow, const Report& r) {
  const Plan& plan = r.assembly.plan;
  const std::string currency = plan.prices ? *plan.prices->currency : "";
  paper::Table t{
      {{"part", 100 * mm},
       {"count", 20 * mm, paper::Align::right},
       {currency.empty() ? "price" : "price, " + currency, 40 * mm, paper::Align::right}},
      {}};
  double sum = 0;
  bool complete = true;
  const auto row = [&](const std::string& what, const std::string& count,
                       std::optional<double> price) {
    t.rows.push_back({what, count, price ? fixed(*price, 2) : "not given"});
    if (price) {
      sum += *price;
    } else {
      complete = false;
    }
  };
  const std::optional<Mass> mass = plate_mass(r);
  std::optional<double> filament;
  if (mass && plan.prices && plan.prices->filament_per_kg) {
    filament = plan.prices->filament_per_kg->value.amount * (*mass / (1000 * gram));
  }
  row(fmt::format(
          "back plate, printed{}",
          mass ? fmt::format(": {} g of {}", fixed(*mass / gram, 0), *r.assembly.material.name)
               : ""),
      "1", filament);
  for (const BoughtItem& item : plan.bought) {
    row(*item.what, std::to_string(*item.count),
        item.price ? std::optional(item.price->value.amount) : std::nullopt);
  }
  t.rows.push_back(
      {complete ? "together" : "together, as far as prices are given", "", fixed(sum, 2)});
  flow.together([&] {
    flow.heading("Materials and cost");
    flow.table(t);
    flow.paragraph(
        "Tools: caliper with depth rod, 3D printer, hand drill, small screwdrivers, straightedge, "
        "ground glass with a loupe, lamp, matt black paint.");
  });
}

}  // namespace backfit

// SPDX-License-Identifier: MIT
#include "conversion/lens_spacer_design.hpp"

#include <algorithm>
#include <cmath>

#include "conversion/plate_design.hpp"

namespace backfit {
namespace {

constexpr int least_layers = 3;                 // fewer curl on the bed; common practice
constexpr Length usual_shim_error = 0.02 * mm;  // what a workshop's micrometer is good for

// Of a plan that asks for one.
std::optional<LensSpacer> spacer_for(const Assembly& a, Length wanted) {
  if (wanted < smallest_detail) return {};
  const LensBoard& board = *a.camera.lens_board;
  const Printer& printer = *a.plan.printer;
  const Length layer = *printer.layer_height;
  LensSpacer s;
  s.wanted = wanted;
  s.smallest_wall = smallest_wall(printer);
  s.round = board.diameter.has_value();
  s.width = (s.round ? board.diameter : board.width)->value.value;
  s.height = (s.round ? board.diameter : board.height)->value.value;
  if (board.corner_radius) s.corner_radius = (*board.corner_radius)->value;
  s.opening = board.opening->value;
  for (const ScrewPlace& p : board.screws) s.screws.push_back({p.x->value, p.y->value});
  if (board.screw_diameter) {
    s.screw_hole = (*board.screw_diameter)->value + 2 * printer.clearance->value;
  }
  const LensSpacerPlan& plan = *a.plan.lens_spacer;
  s.shim_sheet = plan.shim_sheet ? **plan.shim_sheet : "brass";
  s.shim_error = plan.shim_error ? **plan.shim_error : usual_shim_error;
  s.error = printer.error->half_width;
  std::vector<Length> stock;
  for (const Stated<Length>& shim : a.plan.focus.shims) stock.push_back(*shim);
  // Each number of layers with the stack that then comes nearest.
  std::optional<Length> best;
  const int most = static_cast<int>(std::floor(wanted / layer + 1e-9));
  for (int layers = most; layers >= 0; --layers) {
    if (layers > 0 && layers < least_layers) continue;
    const Length printed = layers * layer;
    const ShimStack stack = shim_stack(std::max(wanted - printed, Length{}), stock, most_shims);
    const Length off = abs(stack.left);
    const bool fewer =
        best && abs(off - *best) < smallest_detail / 10 && stack.shims.size() < s.shims.size();
    if (!best || off < *best - smallest_detail / 10 || fewer) {
      best = off;
      s.printed = printed;
      s.shims = stack.shims;
    }
    if (most - layers >= 10) break;  // shims replace no more of a print than that
  }
  s.front = -board.before_film->value - s.thickness();
  return s;
}

}  // namespace

Length lens_forward(const Report& r) {
  const LensSpacerPlan& plan = *r.assembly.plan.lens_spacer;
  if (plan.forward) return (*plan.forward)->value;
  if (r.stop) return r.stop->error.value;
  return -r.register_.set_back.value;
}

Length lens_forward(const Assembly& a) {
  const LensSpacerPlan& plan = *a.plan.lens_spacer;
  if (plan.forward) return (*plan.forward)->value;
  if (const auto stop = study_stop(a)) return stop->error.value;
  return -study_register(a).set_back.value;
}

std::optional<LensSpacer> lens_spacer(const Report& r) {
  if (!r.assembly.plan.lens_spacer) return {};
  return spacer_for(r.assembly, lens_forward(r));
}

std::optional<LensSpacer> lens_spacer(const Assembly& a) {
  if (!a.plan.lens_spacer) return {};
  return spacer_for(a, lens_forward(a));
}

}  // namespace backfit

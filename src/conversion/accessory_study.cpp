// SPDX-License-Identifier: MIT
#include "conversion/accessory_study.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <functional>

#include "optics/attachments.hpp"
#include "optics/focus.hpp"

namespace backfit {
namespace {

AccessoryStudy study_of(const Accessory& accessory, const Assembly& a, const RegisterStudy& reg,
                        const FrameSize& picture) {
  const Length focal = a.camera.lens.focal->value;
  AccessoryStudy s;
  s.name = *accessory.name;
  s.place = accessory.name.place;
  Inputs in = a.inputs.all;
  if (accessory.close_up) {
    const auto power = in.add("power of the " + s.name, accessory.close_up->value);
    s.focal = estimate<Length>(in, [&](const Draw& at) {
      return focal_with_close_up(at(a.inputs.focal), at(power), Length{});
    });
    s.angle = 2 * half_angle_with_afocal(focal, 1, picture.diagonal() / 2);
  } else {
    const auto factor = in.add("factor of the " + s.name, accessory.tele_factor->value);
    s.focal = estimate<Length>(in, [&](const Draw& at) { return at(factor) * at(a.inputs.focal); });
    s.angle = 2 * half_angle_with_afocal(focal, accessory.tele_factor->value.value,
                                         picture.diagonal() / 2);
  }
  const auto mark = [&](std::optional<Length> set) {
    AccessoryStudy::Mark m{set, {}, 0};
    const Length extension = set ? extension_for(focal, *set).value_or(Length{}) : Length{};
    if (accessory.close_up) {
      const Dioptre power = accessory.close_up->value.value;
      m.focuses = subject_through_close_up(set.value_or(unlimited), power);
      m.magnification = magnification_with_close_up(focal, power, extension);
    } else {
      const double factor = accessory.tele_factor->value.value;
      if (set) m.focuses = subject_through_afocal(*set, factor);
      m.magnification = extension / focal / factor;
    }
    s.marks.push_back(m);
  };
  mark(reg.farthest_focus);
  std::vector<Length> engraved;
  for (const RegisterStudy::Mark& m : reg.marks) {
    if (m.from_new_stop) engraved.push_back(m.engraved);
  }
  std::ranges::sort(engraved, std::greater<>());
  for (const Length set : engraved) mark(set);
  if (engraved.empty() || reg.nearest_focus < 0.99 * engraved.back()) mark(reg.nearest_focus);
  return s;
}

}  // namespace

std::vector<AccessoryStudy> study_accessories(const Assembly& a, const RegisterStudy& reg,
                                              const FrameSize& picture) {
  std::vector<AccessoryStudy> list;
  for (const Accessory& accessory : a.camera.accessories) {
    list.push_back(study_of(accessory, a, reg, picture));
  }
  return list;
}

void check_accessories(const Camera& camera, Diagnostics& diagnostics) {
  for (const Accessory& a : camera.accessories) {
    if (a.close_up.has_value() == a.tele_factor.has_value()) {
      diagnostics.error(a.name.place,
                        fmt::format("the {} has {}; it needs one of close_up and tele_factor",
                                    *a.name, a.close_up ? "both" : "neither"));
    } else if (a.front_glass && !a.tele_factor) {
      diagnostics.error(a.front_glass->place,
                        "front_glass is of a tele attachment: a close-up lens takes nothing from "
                        "the light",
                        "leave it out");
    }
  }
}

}  // namespace backfit

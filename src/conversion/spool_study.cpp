// SPDX-License-Identifier: MIT
#include "conversion/spool_study.hpp"

namespace backfit {
namespace {

// Odds are told to the per cent; of this many draws their standard error is 0.22 % at most.
constexpr std::size_t draws = 50'000;

}  // namespace

std::optional<SpoolStudy> study_spools(const Assembly& a) {
  if (!a.spool || !a.camera.spools) return {};
  Inputs in;
  const auto room = in.add("room across the film", *a.camera.spools->length);
  const auto length = in.add("length of the spool", a.spool->length.value.value);
  const auto chamber = in.add("room for a roll", *a.camera.spools->diameter);
  const auto flange = in.add("flange of the spool", a.spool->flange_diameter.value.value);
  const auto along = [&](const Draw& at) { return at(room) - at(length); };
  const auto round = [&](const Draw& at) { return at(chamber) - at(flange); };
  return SpoolStudy{
      estimate<Length>(in, along), estimate<Length>(in, round),
      probability(
          in, [&](const Draw& at) { return along(at) >= 0 * mm && round(at) >= 0 * mm; }, draws)};
}

}  // namespace backfit

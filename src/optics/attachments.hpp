// SPDX-License-Identifier: MIT
// What a lens set before the camera's own does: a close-up lens, and a tele or wide attachment
// that is afocal. Both leave the distance to the film, the exit pupil and so the size of the image
// circle as they are. Derivation: docs/derivations/attachments.md.
#pragma once
#include <optional>

#include "optics/paraxial.hpp"
#include "optics/prescription.hpp"

namespace backfit {

// Where a camera set to `set` (unlimited: infinity) focuses through a thin close-up lens of
// `power`, counted from that lens: 1 / (power + 1 / set). Requires power > 0, set > 0.
Length subject_through_close_up(Length set, Dioptre power);

// Focal length of lens and thin close-up lens `apart` from its front principal plane:
// 1 / (1 / focal + power - apart power / focal). Requires focal > 0 and a positive result.
Length focal_with_close_up(Length focal, Dioptre power, Length apart);

// Image size over subject size through a close-up lens in contact, the camera's lens `extension`
// from its infinity setting: e / f + P (f + e). Requires focal > 0, power >= 0, extension >= 0.
double magnification_with_close_up(Length focal, Dioptre power, Length extension);

// Where a camera set to `set` in front of an afocal attachment of angular magnification `factor`
// focuses, as the attachment's thickness doesn't matter far away: factor^2 set. Requires set > 0.
Length subject_through_afocal(Length set, double factor);

// The same through the surfaces of an attachment: `set` counts from its last vertex, the subject
// from its first. Empty when no real subject is there. Requires an afocal lens.
std::optional<Length> subject_through_afocal(const LensModel& attachment, Length set);

// Half the angle that `half_diagonal` of the film sees: atan(half_diagonal / (factor focal)).
Angle half_angle_with_afocal(Length focal, double factor, Length half_diagonal);

}  // namespace backfit

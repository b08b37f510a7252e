// SPDX-License-Identifier: MIT
// What a gap or a hole lets through, how sure that is, and how soon the film shows it.
#pragma once
#include <array>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "lighttrap/fog.hpp"
#include "lighttrap/profile.hpp"
#include "quantity/estimate.hpp"

namespace backfit {

struct TrapQuestions {
  struct Gap {
    Measured<Length> gap;
    std::vector<Length> arms;
    std::vector<Turn> turns;
  };
  struct Hole {
    Measured<Length> diameter, length;
  };
  std::variant<Gap, Hole> way;
  Measured<double> reflectance;
  double gloss_index = 1;  // of the walls' face; 1 is dead matt
  IsoSpeed film{400};
  std::optional<Length> seam;  // how long the gap runs along the parts; walls that mirror need it
};

struct TrapStudy {
  TrapQuestions asked;
  double through = 0, through_u = 0;  // of light that falls on the outer mouth from all sides
  double mesh_error = 0;              // of `through`, part of its uncertainty
  BaseEstimate attenuation;           // in stops; its doubt and budget are the measurements'
  double stops_u = 0;                 // the same doubt with the mesh's error
  bool sees_through = false;          // a straight line leads from outside to inside
  LuminousExposure an_hour;           // of full sun, on film against the inner mouth
  std::optional<LuminousEnergy> an_hour_inside;  // through a hole, or a seam of known length
  std::array<FogTime, 2> fog;                    // to 0.02 and to 0.10 over base and fog
};

// Why the questions can't be answered; empty when they can.
std::optional<std::string> refusal(const TrapQuestions& questions);

// Requires no refusal(). Gap, hole and reflectance are as sure as their half-widths say, arms and
// gloss exact.
TrapStudy study_of(const TrapQuestions& questions);

}  // namespace backfit

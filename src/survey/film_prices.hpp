// SPDX-License-Identifier: MIT
// What films cost where you buy them: a file of its own, good for every camera.
#pragma once
#include <string>
#include <vector>

#include "survey/exposure_plan.hpp"

namespace backfit {

struct FilmPrice {
  Place place;
  Stated<std::string> film;  // an id of the catalogue's films
  PictureCost cost;
};

struct FilmPrices {
  Stated<std::string> currency;
  std::vector<FilmPrice> films;
};

void describe(Fields& fields, FilmPrice& price);
void describe(Fields& fields, FilmPrices& prices);

}  // namespace backfit

// SPDX-License-Identifier: MIT
#include "survey/film_prices.hpp"

namespace backfit {

void describe(Fields& f, FilmPrice& p) {
  f.value("film", p.film, {"an id that `backfit films` lists", "120-6x9"});
  describe(f, p.cost);
}

void describe(Fields& f, FilmPrices& p) {
  f.value("currency", p.currency, {"of all prices", "EUR"});
  f.records("films", p.films, {"A film or paper that you can buy"}, true);
}

}  // namespace backfit

// SPDX-License-Identifier: MIT
// Every film of the catalogue against one camera: which way each could be loaded, and what it
// gives.
#pragma once
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "conversion/report.hpp"
#include "survey/film_prices.hpp"

namespace backfit {

// What a plan would say, taken as is common for want of one: a plate from a nozzle of 0.4 mm in
// layers of 0.2 mm, true to 0.1 mm; sharp is a blur of 1/1500 of the picture's diagonal, at the
// widest stop; the picture lies as the old gate does.
struct MatchRow {
  std::string film, name;        // id, and name for people
  std::optional<Method> method;  // empty when there is no way to load it
  Verdict verdict = Verdict::does_not_fit;
  bool reversed = false;  // the finished picture is a mirror image
  struct Numbers {
    Estimate<Length> set_back;
    double odds_infinity = 0;
    std::optional<Length> farthest_focus;  // empty when infinity is reached
    Length nearest_focus;         // of a lens that sits fast: sharp from there on, widest stop
    FrameSize picture;            // lit to half at its edges
    double area_change = 0;       // picture over old gate, less 1: negative for a crop
    std::optional<Stops> corner;  // lost at the picture's corner; empty: no light
    double odds_covered = 0;      // that the image circle takes the picture in
    FrameSize covered;            // the largest picture of its shape inside the circle
  };
  std::optional<Numbers> numbers;           // empty when something unknown stands before all
  std::optional<double> picture_cost;       // by the owner's prices
  std::vector<MissingMeasurement> measure;  // first, before anything is sure
  std::vector<std::string> work;            // what it takes
  std::string reason;                       // why it doesn't fit, or what stands in doubt
};

struct Match {
  Camera camera;
  FNumber aperture;  // that light and sharpness are told at
  std::vector<MatchRow> rows;
  std::string currency;  // of the prices; empty without
};

// What films cost, read from the file at `path`. Adds an error for each mistake and returns empty
// then.
std::optional<FilmPrices> read_prices(const std::filesystem::path& path, const Catalogue& catalogue,
                                      Diagnostics& diagnostics);
// Puts the cost of a picture into the rows of priced films.
void add_prices(Match& match, const FilmPrices& prices);

// Best first: by verdict (fits, fits with work, cannot tell yet, does not fit), then those that
// reach infinity for sure enough, then by the area of the picture inside the image circle, then by
// how little work it takes, then as in the catalogue. Odds are counted from fewer draws than a
// report's: to 0.8 % (standard error).
Match matched(SurveyedCamera surveyed, const Catalogue& catalogue);

}  // namespace backfit

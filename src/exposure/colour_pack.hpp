// SPDX-License-Identifier: MIT
// Filter packs for colour material: their arithmetic, and how to refine one for paper that is
// developed by reversal, where more filter of a colour gives more of that colour.
#pragma once
#include <string>

#include "exposure/light_colour.hpp"
#include "quantity/light.hpp"

namespace backfit {

// Colour compensating filters together, by density: 0.20 of yellow is CC 20Y. Densities add.
struct Pack {
  Density yellow, magenta, cyan;
};

// The grey in a pack, which only costs light: the smallest of the three. Negative when one is.
Density neutral_in(const Pack& pack);
// The pack less its grey. Source: army-colour-course in data/sources.toml (READ).
Pack without_neutral(const Pack& pack);

// "34Y + 26M", "20R" where two are equal and the third none (one filter beats two), "no filter".
// In hundredths of density. Source of the sums Y+M=R, Y+C=G, M+C=B: filter-factor-guide in
// data/sources.toml (READ).
std::string pack_text(const Pack& pack);

// What the pack takes from the light as a meter sees it, in daylight: each filter holds its density
// back over its third of the spectrum (yellow to 490 nm, magenta to 590 nm, cyan beyond). Real dyes
// also take some elsewhere; within about 1/3 stop for single filters up to 50.
Stops pack_stops(const Pack& pack);
// What it takes from the layer that it holds back most, and that decides the time.
Stops most_held_back(const Pack& pack);

// Densities of a grey patch in a print, as a reflection densitometer or a scan reads them behind
// its red, green and blue filters: red reads cyan dye, green magenta, blue yellow.
struct GreyPatch {
  Density red, green, blue;
};

struct PackRefinement {
  Pack pack;          // without neutral, none negative
  Stops exposure;     // more of it than the test had
  Density of_filter;  // standard uncertainty of each filter's density
};

// The pack and exposure that bring the patch of a test by reversal, made through `used`, to a grey
// of density `aim`. Along the paper's straight part each layer's density falls by `gradient` per
// log10 of exposure, so its filter changes by (aim - density) / gradient; the neutral that results
// is taken out and given as exposure. The rule of half the viewing filter is gradient 2
// (navy-colour-course in data/sources.toml, READ). `reading` is the standard uncertainty of a
// density. Requires gradient > 0.
PackRefinement refined_by_reversal(const Pack& used, const GreyPatch& patch, Density aim,
                                   double gradient = 2, Density reading = {0.02});

}  // namespace backfit

// SPDX-License-Identifier: MIT
// By whose speed leaks are judged.
#include "conversion/leak_film.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "conversion/exposure_material.hpp"
#include "conversion/leak_study.hpp"
#include "example.hpp"
#include "exposure/speed_point.hpp"
#include "lighttrap/fog.hpp"

namespace backfit {
namespace {

ExposureData shipped() {
  Diagnostics diagnostics;
  return *read_exposure_data(source_root / "data", diagnostics);
}

ExposureMaterial material_of(const Emulsion& emulsion) {
  ExposureMaterial m;
  m.emulsion = emulsion;
  m.index = *emulsion.index.value;
  return m;
}

// Law: two models of the program agree on which side the rule errs. A paper's index puts its
// density of 0.60 on the metered mid-tone, and its first tone, 0.04, lies no farther below that
// than its whole range (PaperSpeedPoint): there the film's rule has long said that it shows. Below,
// a foot that is straight or hollow brings half of that density by no less than half of the light.
TEST(LeakFilm, PaperShowsNoSoonerThanTheRuleSays) {
  const ExposureData data = shipped();
  int papers = 0;
  for (const Emulsion& e : data.emulsions) {
    if (*e.process != Process::negative || !e.log_range) continue;
    ++papers;
    const IsoSpeed index = *e.index.value;
    const LuminousExposure mid_tone = 1000 / (index.value / index_of_paper(1).value) * lux_second;
    const LuminousExposure first_tone = std::pow(10, -*e.log_range->value) * mid_tone;
    EXPECT_LT(fog_exposure(index, {0.04}), first_tone) << *e.id;
    EXPECT_LT(fog_exposure(index, {0.02}), 0.5 * first_tone) << *e.id;
    EXPECT_FALSE(leak_film(material_of(e)).rule.empty()) << *e.id;
  }
  EXPECT_EQ(papers, 2);
}

TEST(LeakFilm, OfNegativeFilmHasNoWordOnTheRule) {
  const ExposureData data = shipped();
  for (const Emulsion& e : data.emulsions) {
    const LeakFilm film = leak_film(material_of(e));
    EXPECT_EQ(film.speed, *e.index.value);
    const bool of_film = *e.process == Process::negative && !e.log_range;
    EXPECT_EQ(film.rule.empty(), of_film) << *e.id;
  }
}

// Law: time to fog goes with one over the speed, whatever the material.
TEST(LeakFilm, TimesGoWithItsSpeed) {
  LeakStudy fast, slow;
  for (LeakStudy* s : {&fast, &slow}) {
    s->whole = 1.2e5 * lux;
    s->worst_light.mean = 1e-10;
    s->worst_light.standard_error = 1e-12;
    s->worst_light.interval = {9.8e-11, 1.02e-10};
  }
  slow.asked.film = leak_film({4}, "by a test");
  slow.asked.film.doubt = {0.5};
  judge(fast);
  judge(slow);
  EXPECT_NEAR(slow.fog.front().time / fast.fog.front().time, 100, 1e-9);
  EXPECT_GT(slow.fog.front().relative_u, fast.fog.front().relative_u);
}

}  // namespace
}  // namespace backfit

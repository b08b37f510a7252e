// SPDX-License-Identifier: MIT
// What each way of loading adds up to, by hand and by laws.
#include "conversion/methods.hpp"

#include <algorithm>
#include <cmath>

#include "conversion/read_conversion.hpp"
#include "conversion/spool_study.hpp"
#include "example.hpp"

namespace backfit {
namespace {

Length sum_of(const std::vector<SetBackPart>& parts) {
  Length sum;
  for (const SetBackPart& p : parts) sum += p.way * p.size.value;
  return sum;
}

TEST(OwnHolder, SetsTheSheetBackByLipAndPlay) {
  const Report report = example_report("bittern", "bittern-paper.conversion.toml");
  // By hand: 0.25 + (0.45 - 0.235) / 2.
  EXPECT_NEAR(report.register_.set_back.value / mm, 0.3575, 1e-12);
  // Rectangular halves of 0.05 and 0.1075 (JCGM 100:2008, 4.3.7).
  EXPECT_NEAR(report.register_.set_back.standard_uncertainty / mm,
              std::hypot(0.05, 0.1075) / std::sqrt(3.0), 1e-9);
}

// Law: where plates rest on the floor a sheath as thick as a plate changes nothing, and every
// tenth more brings the sheet a tenth nearer the lens.
TEST(OwnHolder, CountsTheSheathAgainstThePlateOnTheFloor) {
  Report report = example_report("bittern", "bittern-paper.conversion.toml");
  Assembly& a = report.assembly;
  const auto set_back = [&] {
    return sum_of(set_back_parts(a.camera, a.film, a.plan, nullptr, {}));
  };
  const Length pressed = set_back();
  PlateHolder& own = *a.camera.plate_holder;
  own.plate_rests.value = PlateRest::floor;
  own.sheath->thickness.value = *own.plate_thickness;
  EXPECT_NEAR(set_back() / mm, pressed / mm, 1e-12);
  own.sheath->thickness.value.value += 0.1 * mm;
  EXPECT_NEAR((pressed - set_back()) / mm, 0.1, 1e-12);
}

TEST(OwnHolder, CutsALargerSheetDownAndRefusesASmallerOne) {
  const Catalogue catalogue = shipped_catalogue();
  const Camera camera = example_report("bittern", "bittern-paper.conversion.toml").assembly.camera;
  Plan plan;
  plan.method.value = Method::own_holder;
  const LoadedFrame large = loaded_frame(camera, *catalogue.film("sheet-5x7"), plan);
  EXPECT_TRUE(large.trimmed);
  EXPECT_EQ(large.sheet->width, 88.8 * mm);
  EXPECT_EQ(large.sheet->height, 118.8 * mm);
  EXPECT_FALSE(loaded_frame(camera, *catalogue.film("sheet-9x12cm"), plan).trimmed);
  const Film& small = *catalogue.film("sheet-2.25x3.25");
  EXPECT_FALSE(prospect_of(Method::own_holder, small, camera).impossible.empty());
}

// Truth, by hand: lips of 1.3 + 1.0 + 1.2 mm and half of the 0.065 mm that paper of 0.235 mm leaves
// in a slot of 0.3 mm, from a face 2.0 mm before the old film plane.
TEST(PackHolder, SetsThePictureBackByItsLips) {
  const Report report = example_report("kestrel", "kestrel-paper.conversion.toml");
  const Assembly& a = report.assembly;
  ASSERT_TRUE(a.pack_holder && faults(*a.pack_holder).empty());
  EXPECT_NEAR(report.register_.set_back.value / mm, 3.5 + 0.0325 - 2.0, 1e-9);
  // The face to within 0.1, two printed thicknesses to within 0.05 each, the play.
  EXPECT_NEAR(report.register_.set_back.standard_uncertainty / mm,
              std::hypot(0.1, 0.1, 0.0325) / std::sqrt(3.0), 1e-9);
}

// Law: without a slit there is no slide, and the lips become as thick as the old film lay deep.
TEST(PackHolder, KeepsTheOldPlaneWithoutASlide) {
  Assembly a = example_assembly("kestrel", "kestrel-paper.conversion.toml");
  Camera camera = a.camera;
  camera.pack->slit.reset();
  Plan plan = a.plan;
  plan.pack_holder.reset();
  Diagnostics diagnostics;
  const auto bag = conversion_of({a.file, camera, a.lens_kind, {}}, plan,
                                 *catalogue().film("paper-rc-4x5"), catalogue(), diagnostics);
  ASSERT_TRUE(bag);
  EXPECT_FALSE(bag->pack_holder->slide);
  const Length set_back = report_on(*bag, Scope::without_timer).register_.set_back.value;
  EXPECT_LE(abs(set_back), *plan.printer->layer_height / 2 + 0.001 * mm);
}

// Law: a depth that was measured goes before the one that is designed.
TEST(PackHolder, CountsTheMeasuredDepth) {
  Assembly a = example_assembly("kestrel", "kestrel-paper.conversion.toml");
  Plan plan = a.plan;
  plan.pack_holder->measured_depth = Stated<Measured<Length>>{{3.6 * mm, 0.02 * mm}, {}};
  Diagnostics diagnostics;
  const auto measured = conversion_of({a.file, a.camera, a.lens_kind, {}}, plan,
                                      *catalogue().film("paper-rc-4x5"), catalogue(), diagnostics);
  ASSERT_TRUE(measured);
  EXPECT_NEAR(report_on(*measured, Scope::without_timer).register_.set_back.value / mm,
              3.6 + 0.0325 - 2.0, 1e-9);
}

TEST(Insert, HoldsTheFilmInTheOldPlaneUnlessThePlanSaysOtherwise) {
  Report report = example_report("heron", "heron-120.conversion.toml");
  EXPECT_NEAR(report.register_.set_back.value / mm, 0.6, 1e-12);
  Assembly& a = report.assembly;
  a.plan.insert.reset();
  const auto parts = set_back_parts(a.camera, a.film, a.plan, nullptr, {});
  ASSERT_EQ(parts.size(), 1U);
  EXPECT_EQ(parts[0].size.value, 0 * mm);
  EXPECT_EQ(parts[0].size.half_width, 0 * mm);  // no printer is named
}

// Law: the picture's long side follows the film's way behind the gate.
TEST(Insert, TurnsThePictureWithTheFilm) {
  const Assembly a = example_report("heron", "heron-120.conversion.toml").assembly;
  EXPECT_LT(a.window.width, a.window.height);
  Camera across = a.camera;
  across.spools->film_runs.value = FilmRun::across;
  const FrameSize turned = loaded_frame(across, a.film, a.plan).window;
  EXPECT_EQ(turned.width, a.window.height);
  EXPECT_EQ(turned.height, a.window.width);
}

TEST(Spools, SpareIsTheRoomLessTheSpool) {
  const Report report = example_report("heron", "heron-120.conversion.toml");
  ASSERT_TRUE(report.spools);
  // By hand: 75.5 - 65.9 with ± 0.3 on both.
  EXPECT_NEAR(report.spools->spare_length.value / mm, 9.6, 1e-9);
  EXPECT_NEAR(report.spools->spare_length.standard_uncertainty / mm,
              std::hypot(0.3, 0.3) / std::sqrt(3.0), 1e-9);
  EXPECT_EQ(report.spools->odds_fit, 1);
}

// Law: two symmetric errors about the same size leave even odds; 50 000 draws tell them to 0.22 %.
TEST(Spools, FitWithEvenOddsWhereTheRoomIsTheirSize) {
  Report report = example_report("heron", "heron-120.conversion.toml");
  Assembly& a = report.assembly;
  a.camera.spools->diameter.value.value = a.spool->flange_diameter.value->value;
  EXPECT_NEAR(study_spools(a)->odds_fit, 0.5, 3 * 0.00224);
}

// Law: each kind of material has a way to load it, and no way takes what isn't its own.
TEST(Methods, TakeTheirOwnKindsAlone) {
  const Catalogue catalogue = shipped_catalogue();
  const Camera camera = example_report("heron", "heron-120.conversion.toml").assembly.camera;
  for (const Film& film : catalogue.films) {
    const auto own = methods_for(*film.kind);
    EXPECT_FALSE(own.empty());
    for (const auto& [name, method] : choices_of<Method>()) {
      EXPECT_EQ(name_of(method), name);
      if (std::ranges::find(own, method) != own.end()) continue;
      EXPECT_FALSE(prospect_of(method, film, camera).impossible.empty()) << *film.id << name;
    }
  }
}

}  // namespace
}  // namespace backfit

// SPDX-License-Identifier: MIT
// Every lens that ships: what its source says of it, and the laws that hold for any lens.
#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <filesystem>
#include <string>
#include <vector>

#include "conversion/lens_design.hpp"
#include "optics/beam.hpp"
#include "optics/paraxial.hpp"

namespace backfit {
namespace {

namespace fs = std::filesystem;

LensDesign shipped(const fs::path& file) {
  Diagnostics diagnostics;
  const fs::path data = fs::path(BACKFIT_SOURCE_DIR) / "data";
  const auto catalogue = read_catalogue(data, diagnostics);
  EXPECT_TRUE(catalogue);
  auto design = read_lens(data / "lenses" / file, *catalogue, diagnostics);
  for (const Diagnostic& d : diagnostics.list()) ADD_FAILURE() << rendered(d);
  EXPECT_TRUE(design) << file;
  return *design;
}

std::vector<std::string> shipped_files() {
  std::vector<std::string> files;
  for (const auto& entry :
       fs::directory_iterator(fs::path(BACKFIT_SOURCE_DIR) / "data" / "lenses")) {
    files.push_back(entry.path().filename());
  }
  std::ranges::sort(files);
  return files;
}

LensModel at_d(const std::string& file) { return model_of(shipped(file).prescription, line_d); }

// Truth: us-patent-2453260 in data/sources.toml (READ): focal length 100, back focal
// distance 79.34. Tolerance: the patent's radii and indices are rounded; 0.006 is half a unit of
// its last digit and what rounding the radii moves.
TEST(ShippedLens, FastTripletOfAPatentOf1948) {
  const FirstOrder f = *first_order(at_d("triplet-f2.7.lens.toml"));
  EXPECT_NEAR(f.focal / mm, 100, 0.006);
  EXPECT_NEAR(f.back_focal / mm, 79.34, 0.006);
}

// Truth: stock-achromat in data/sources.toml (READ): back focal 95.95, front focal -98.58, rear
// principal plane -4.079, exit pupil -5.551. Tolerance: its last digit. Glass by Sellmeier.
TEST(ShippedLens, AchromatOfADataSheet) {
  const LensModel lens = at_d("achromat-f4.lens.toml");
  const FirstOrder f = *first_order(lens);
  EXPECT_NEAR(f.back_focal / mm, 95.95, 0.005);
  EXPECT_NEAR(f.front_focal / mm, -98.58, 0.005);
  EXPECT_NEAR(f.back_principal() / mm, -4.079, 0.005);
  EXPECT_NEAR(pupils(lens).exit / mm, -5.551, 0.005);
}

// Truth: us-patent-2500046 in data/sources.toml (READ): back focal distance 56.5.
TEST(ShippedLens, PortraitLensOfAPatentOf1948) {
  EXPECT_NEAR(first_order(at_d("portrait-f2.2.lens.toml"))->back_focal / mm, 56.5, 0.005);
}

class AnyLens : public testing::TestWithParam<std::string> {};

// Law: rays run backwards come out as they went in.
TEST_P(AnyLens, IsReversible) {
  const LensModel lens = at_d(GetParam());
  const LensModel back = turned_round(lens);
  const Length last = lens.surfaces.back().z;
  for (const double field : {0.0, 4.0, 9.0}) {
    const Ray start = aimed_ray(lens, {field * deg}, 1 * mm, 2 * mm);
    const Traced t = traced(lens, start);
    ASSERT_TRUE(t.passes());
    const Ray turned{t.ray.x, t.ray.y, last - t.ray.z, -t.ray.l, -t.ray.m, t.ray.n};
    const Ray end = at_plane(traced(back, turned).ray, last);
    EXPECT_NEAR(end.x / mm, start.x / mm, 1e-8);
    EXPECT_NEAR(end.y / mm, start.y / mm, 1e-8);
  }
}

// Law: a lens twice the size does twice the same, and one turned round keeps its focal length.
TEST_P(AnyLens, ScalesAndKeepsItsFocalLengthTurnedRound) {
  const LensDesign design = shipped(GetParam());
  const LensModel lens = model_of(design.prescription, line_d);
  const LensModel twice = model_of(scaled(design.prescription, 2), line_d);
  const Ray ray = aimed_ray(lens, {5 * deg}, 1 * mm, 2 * mm);
  Ray larger = ray;
  larger.x = 2 * ray.x;
  larger.y = 2 * ray.y;
  larger.z = 2 * ray.z;
  EXPECT_NEAR(traced(twice, larger).ray.y / (2 * traced(lens, ray).ray.y), 1, 1e-9);
  if (design.file.is_afocal()) {
    EXPECT_NEAR(angular_magnification(turned_round(lens)) * angular_magnification(lens), 1, 1e-6);
    return;
  }
  EXPECT_NEAR(first_order(turned_round(lens))->focal / first_order(lens)->focal, 1, 1e-12);
}

// Law: Newton's equation, and N_eff = N (1 + |m| / P) from the marginal ray itself.
TEST_P(AnyLens, ObeysNewtonAndTheBellowsRule) {
  const LensDesign design = shipped(GetParam());
  if (design.file.is_afocal()) return;
  const LensModel lens = model_of(design.prescription, line_d);
  const FirstOrder f = *first_order(lens);
  for (const double before_mm : {300.0, 1000.0, 5000.0}) {
    const Conjugate c = *conjugate(lens, before_mm * mm);
    const Length s = before_mm * mm + f.front_principal();
    const Length image = c.image - f.back_principal();
    EXPECT_NEAR((s - f.focal) * (image - f.focal) / (f.focal * f.focal), 1, 1e-9);
    const double n = f.focal / (2 * mm);
    EXPECT_NEAR(0.5 / c.cone(1 * mm) / (n * (1 - c.magnification / pupils(lens).magnification)), 1,
                1e-9);
  }
}

// Law: set before its own mirror image, the stop between them, it images at -1x without distortion
// of any order; here at the distance at which light is parallel between the halves.
TEST_P(AnyLens, BesideItsMirrorImageIsFreeOfDistortion) {
  const LensDesign design = shipped(GetParam());
  if (design.file.is_afocal()) return;
  Prescription half = design.prescription;
  half.stop.reset();
  for (Prescription::Surface& s : half.surfaces) s.clear_radius = unlimited;
  // The lens, a stop 3 mm behind it, and the lens turned round as far behind the stop.
  Prescription both = half;
  both.surfaces.back().thickness = 3 * mm;
  both.stop = both.surfaces.size();
  both.surfaces.push_back({Dioptre{}, 3 * mm, Medium::air(), unlimited});
  for (std::size_t i = half.surfaces.size(); i-- > 0;) {
    const Prescription::Surface& s = half.surfaces[i];
    both.surfaces.push_back({-s.curvature, i > 0 ? half.surfaces[i - 1].thickness : Length{},
                             i > 0 ? half.surfaces[i - 1].after : Medium::air(), unlimited});
  }
  const LensModel lens = model_of(both, line_d);
  const Length before = -first_order(model_of(half, line_d))->front_focal;
  const Length behind = lens.surfaces.back().z + before;
  for (const double field_deg : {3.0, 6.0}) {
    const auto chief = chief_ray(lens, {field_deg * deg, before});
    ASSERT_TRUE(chief);
    const Length object_y = at_plane(*chief, -before).y;
    const Length image_y = at_plane(traced(lens, *chief).ray, behind).y;
    EXPECT_NEAR((object_y + image_y) / mm, 0, 1e-8) << field_deg;
  }
}

// Law: no point gets more light than the axis.
TEST_P(AnyLens, LightsTheAxisMost) {
  const LensDesign design = shipped(GetParam());
  if (design.file.is_afocal() || !design.entrance_radius) return;
  const LensModel open = model_of(design.prescription, line_d);
  const double ratio = pupils(open).stop_over_entrance;
  for (const double part : {1.0, 0.3}) {
    const LensModel lens = stopped_to(open, part * ratio * *design.entrance_radius);
    const Length plane = first_order(lens)->back_focal;
    for (const double field_deg : {3.0, 8.0, 14.0}) {
      const Length height = first_order(lens)->focal * tan(field_deg * deg);
      const auto light = relative_illumination(lens, plane, height, 120);
      ASSERT_TRUE(light);
      EXPECT_LE(*light, 1.0);
    }
  }
}

// Law: what it does is the same in any azimuth.
TEST_P(AnyLens, IsRound) {
  const LensModel lens = at_d(GetParam());
  const double n = std::sqrt(1 - 0.1 * 0.1);
  const Ray up = traced(lens, {1 * mm, 2 * mm, Length{}, 0, 0.1, n}).ray;
  const Ray right = traced(lens, {2 * mm, -1 * mm, Length{}, 0.1, 0, n}).ray;
  EXPECT_NEAR(up.y / mm, right.x / mm, 1e-12);
  EXPECT_NEAR(up.x / mm, -right.y / mm, 1e-12);
  EXPECT_NEAR(up.m, right.l, 1e-14);
}

std::string name_for(const testing::TestParamInfo<std::string>& info) {
  std::string name = info.param.substr(0, info.param.find(".lens"));
  std::erase_if(name, [](char c) { return std::isalnum(static_cast<unsigned char>(c)) == 0; });
  return name;
}
INSTANTIATE_TEST_SUITE_P(Shipped, AnyLens, testing::ValuesIn(shipped_files()), name_for);

}  // namespace
}  // namespace backfit

// SPDX-License-Identifier: MIT
#include "evidence/slanted_edge.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>

namespace backfit {
namespace {

constexpr double pi = std::numbers::pi;

double sinc(double x) { return x == 0 ? 1 : std::sin(pi * x) / (pi * x); }

// Part of the unit square around (x, y) that lies left of the line x = at + slope y: exact.
double left_part(double x, double y, double at, double slope) {
  // Of each level of the square a stretch from its left side; clamped, it is linear in pieces.
  const auto stretch = [&](double v) { return std::clamp(at + slope * v - (x - 0.5), 0.0, 1.0); };
  // Integrate piecewise between where the line enters and leaves.
  double from = y - 0.5;
  double sum = 0;
  std::vector<double> cuts{y + 0.5};
  for (const double side : {x - 0.5, x + 0.5}) {
    const double v = (side - at) / slope;
    if (v > y - 0.5 && v < y + 0.5) cuts.push_back(v);
  }
  std::ranges::sort(cuts);
  for (const double cut : cuts) {
    sum += (stretch(from) + stretch(cut)) / 2 * (cut - from);
    from = cut;
  }
  return sum;
}

// An ideal edge through square pixels that see all of their area.
EdgePicture sharp_edge(int width, int height, double lean_deg, double light = 1, double dark = 0) {
  EdgePicture p{width, height, {}};
  const double slope = std::tan(lean_deg * pi / 180);
  for (int r = 0; r < height; ++r) {
    for (int c = 0; c < width; ++c) {
      const double part =
          left_part(c, r, (width - 1) / 2.0 + 0.13 - slope * (height - 1) / 2.0, slope);
      p.values.push_back(dark + (light - dark) * part);
    }
  }
  return p;
}

// Truth: a pixel's own response. Across an edge that leans by a, square pixels leave
// sinc(f) of a frequency f across the columns times sinc(f tan a) of it down the rows; counted
// along the normal, f = nu cos a: at 5 degrees 0.9836, 0.9003, 0.6370 at 0.1, 0.25, 0.5 cycles a
// pixel.
TEST(EdgeResponse, OfAnIdealEdgeIsThePixels) {
  for (const double lean : {3.0, 5.0, 8.0}) {
    std::string why;
    const auto response = edge_response(sharp_edge(96, 160, lean), why);
    ASSERT_TRUE(response) << why;
    EXPECT_NEAR(std::atan(response->slope) * 180 / pi, lean, 0.01);
    const double a = lean * pi / 180;
    for (const double nu : {0.1, 0.25, 0.5}) {
      const double exact = sinc(nu * std::cos(a)) * sinc(nu * std::sin(a));
      EXPECT_NEAR(response->at(nu * std::cos(a)), exact, 0.005) << lean << " " << nu;
    }
  }
  EXPECT_NEAR(sinc(0.25 * std::cos(5 * pi / 180)) * sinc(0.25 * std::sin(5 * pi / 180)), 0.900347,
              1e-6);
}

// Law: neither contrast, nor which side is light, nor which way it leans changes the response.
TEST(EdgeResponse, DoesNotDependOnContrastSideOrLean) {
  std::string why;
  const auto plain = edge_response(sharp_edge(80, 120, 5), why);
  const auto faint = edge_response(sharp_edge(80, 120, 5, 0.45, 0.4), why);
  const auto turned = edge_response(sharp_edge(80, 120, 5, 0, 1), why);
  const auto other = edge_response(sharp_edge(80, 120, -5), why);
  ASSERT_TRUE(plain && faint && turned && other) << why;
  for (const double f : {0.1, 0.3, 0.5}) {
    EXPECT_NEAR(faint->at(f), plain->at(f), 1e-9);
    EXPECT_NEAR(turned->at(f), plain->at(f), 1e-9);
    EXPECT_NEAR(other->at(f), plain->at(f), 0.003);
  }
}

// Truth: the Fourier transform of a normal distribution: blur of standard deviation s pixels leaves
// exp(-2 (pi s f)^2) besides the pixels' own part.
TEST(EdgeResponse, OfABlurredEdgeFollowsTheBlur) {
  const double lean = 5 * pi / 180;
  for (const double s : {0.5, 1.0, 1.8}) {
    EdgePicture p{96, 160, {}};
    for (int r = 0; r < p.height; ++r) {
      for (int c = 0; c < p.width; ++c) {
        // Along the normal; the pixel's area by 8 x 8 points.
        double sum = 0;
        for (int i = 0; i < 8; ++i) {
          for (int j = 0; j < 8; ++j) {
            const double x = c + (i + 0.5) / 8 - 0.5 - 47.5;
            const double y = r + (j + 0.5) / 8 - 0.5 - 79.5;
            const double d = x * std::cos(lean) - y * std::sin(lean);
            sum += std::erfc(d / (s * std::numbers::sqrt2)) / 2 / 64;
          }
        }
        p.values.push_back(sum);
      }
    }
    std::string why;
    const auto response = edge_response(p, why);
    ASSERT_TRUE(response) << why;
    for (const double f : {0.05, 0.1, 0.2, 0.3}) {
      const double nu = f / std::cos(lean);
      const double exact =
          std::exp(-2 * pi * pi * s * s * nu * nu) * sinc(f) * sinc(f * std::tan(lean));
      EXPECT_NEAR(response->at(f), exact, 0.006) << s << " " << f;
    }
  }
}

TEST(EdgeResponse, SaysWhyAPictureShowsNoEdge) {
  std::string why;
  EXPECT_FALSE(edge_response({8, 8, std::vector<double>(64, 1.0)}, why));
  EXPECT_EQ(why, "the picture of the edge has fewer than 16 columns or rows");
  EXPECT_FALSE(edge_response({40, 40, std::vector<double>(1600, 1.0)}, why));
  EXPECT_EQ(why, "a row of the picture shows no edge");
  EXPECT_FALSE(edge_response(sharp_edge(80, 120, 0.2), why));
  EXPECT_EQ(why, "the edge must lean by 1 to 14 degrees against the columns");
  EXPECT_FALSE(edge_response(sharp_edge(80, 120, 20), why));
}

}  // namespace
}  // namespace backfit

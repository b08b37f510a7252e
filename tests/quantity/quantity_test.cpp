// SPDX-License-Identifier: MIT
#include "quantity/quantity.hpp"

#include <gtest/gtest.h>

#include <numbers>
#include <type_traits>

#include "quantity/measured.hpp"

namespace backfit {
namespace {

using Illuminance = Quantity<Dimension{.length = -2, .flux = 1}>;
using Luminance = Quantity<Dimension{.length = -2, .angle = -2, .flux = 1}>;
using Exposure = Quantity<Dimension{.length = -2, .time = 1, .flux = 1}>;

template <class A, class B>
concept Addable = requires(A a, B b) {
  a + b;
};
template <class A, class B>
concept Comparable = requires(A a, B b) {
  a < b;
};
template <class A, class B>
concept Convertible = std::is_convertible_v<A, B> || std::is_convertible_v<B, A>;

// Law: the type of a product or quotient is the type of the amount it is.
static_assert(std::is_same_v<decltype(mm / inch), double>);
static_assert(std::is_same_v<decltype(kohm * uF), Time>);
static_assert(std::is_same_v<decltype(mm * mm), Area>);
static_assert(std::is_same_v<decltype(mm2 * mm), Volume>);
static_assert(std::is_same_v<decltype(1 / mm), Dioptre>);
static_assert(std::is_same_v<decltype(gram / mm3), MassDensity>);
static_assert(std::is_same_v<decltype(volt / (volt / ohm)), Resistance>);
static_assert(std::is_same_v<decltype(farad * volt / second * ohm), Voltage>);
static_assert(std::is_same_v<decltype(Illuminance{} * second), Exposure>);
static_assert(std::is_same_v<decltype(Luminance{} * (rad * rad)), Illuminance>);
static_assert(std::is_same_v<decltype(sqrt(mm2)), Length>);

// Law: amounts of different dimension don't mix.
static_assert(Addable<Length, Length> && Comparable<Length, Length>);
static_assert(!Addable<Length, Time> && !Comparable<Length, Time>);
static_assert(!Addable<Illuminance, Luminance> && !Convertible<Illuminance, Luminance>);
static_assert(!Addable<Illuminance, Exposure>);
static_assert(!Addable<Length, double> && !Convertible<Length, double>);
static_assert(!Addable<Angle, double> && !Convertible<Angle, double>);
static_assert(!Addable<Stops, Stops> && !Addable<Stops, double>);
static_assert(!Convertible<Stops, double> && !Convertible<FNumber, IsoSpeed>);

// Law: a light meter's stops and a lens's f-numbers can be put in order.
static_assert(Stops{1} < Stops{1.5} && FNumber{8} > FNumber{5.6} && IsoSpeed{100} == IsoSpeed{100});

// Truth: SI brochure, 9th edition, definitions by powers of ten; the inch is 25.4 mm by definition.
// Exact but for the rounding of a double.
TEST(Quantity, UnitsStandInTheirDefinedRatios) {
  EXPECT_DOUBLE_EQ(metre / mm, 1000);
  EXPECT_DOUBLE_EQ(cm / mm, 10);
  EXPECT_DOUBLE_EQ(mm / um, 1000);
  EXPECT_DOUBLE_EQ(inch / mm, 25.4);
  EXPECT_DOUBLE_EQ(second / ms, 1000);
  EXPECT_DOUBLE_EQ(ms / us, 1000);
  EXPECT_DOUBLE_EQ(rad / deg, 180 / std::numbers::pi);
  EXPECT_DOUBLE_EQ(Mohm / kohm, 1000);
  EXPECT_DOUBLE_EQ(kohm / ohm, 1000);
  EXPECT_DOUBLE_EQ(uF / nF, 1000);
  EXPECT_DOUBLE_EQ(farad / uF, 1e6);
  EXPECT_DOUBLE_EQ(dioptre * metre, 1);
}

// Truth: SI coherence, by definition: 1 V = 1 kg m2 / (s3 A), 1 ohm = 1 V/A, 1 F = 1 C/V, and
// 1 J = 1 kg m2/s2 is 1 C at 1 V. These tie the electrical units to the gram and the metre.
TEST(Quantity, ElectricalUnitsCohereWithMechanicalOnes) {
  const auto ampere = Quantity<Dimension{.current = 1}>::of_base(1);
  const auto kilogram = 1000 * gram;
  EXPECT_DOUBLE_EQ(volt * ampere / (kilogram * metre * metre / (second * second * second)), 1);
  EXPECT_DOUBLE_EQ(volt / ampere / ohm, 1);
  EXPECT_DOUBLE_EQ(ampere * second / volt / farad, 1);
  EXPECT_DOUBLE_EQ((kilogram * metre / (second * second)).base(),
                   1);  // a newton, as the header says
}

// Truth: closed form, tau = R C: 47 kohm with 1 uF is 47 ms.
TEST(Quantity, ResistanceTimesCapacitanceIsATime) {
  EXPECT_NEAR((47 * kohm * (1 * uF)).in(ms), 47, 1e-12);
}

// Truth: closed form: 15 ml of water at 1 g/cm3 weighs 15 g.
TEST(Quantity, DensityTimesVolumeIsAMass) {
  EXPECT_NEAR((1 * gram_per_cm3 * (15 * cm * cm * cm)).in(gram), 15, 1e-12);
}

// Truth: closed form: 114.3 mm is 4 1/2 in; an f/8.8 pupil of a 114.4 mm lens is 13 mm.
TEST(Quantity, ReadsOutInAnyUnitOfItsKind) {
  EXPECT_NEAR((114.3 * mm).in(inch), 4.5, 1e-12);
  EXPECT_NEAR((114.4 * mm) / (13 * mm), 8.8, 1e-12);
}

TEST(Quantity, AddsSubtractsAndTurnsAround) {
  Length depth = 14 * mm;
  depth += 2 * mm;
  depth -= 0.5 * cm;
  EXPECT_DOUBLE_EQ(depth.in(mm), 11);
  EXPECT_DOUBLE_EQ((-depth).in(mm), -11);
  EXPECT_DOUBLE_EQ(abs(-depth).in(mm), 11);
  EXPECT_DOUBLE_EQ((depth / 2).in(mm), 5.5);
  EXPECT_LT(10 * mm, 1.1 * cm);
  EXPECT_EQ(Length{}, 0 * mm);
}

// Truth: closed forms: the 3-4-5 triangle, and sine, cosine and tangent of 30 and 45 degrees.
TEST(Quantity, TakesRootsAndAngles) {
  EXPECT_DOUBLE_EQ(hypot(3 * inch, 4 * inch).in(inch), 5);
  EXPECT_DOUBLE_EQ(sqrt(9 * mm2).in(mm), 3);
  EXPECT_NEAR(sin(30 * deg), 0.5, 1e-15);
  EXPECT_NEAR(cos(30 * deg), std::numbers::sqrt3 / 2, 1e-15);
  EXPECT_NEAR(tan(45 * deg), 1, 1e-15);
  EXPECT_NEAR(arctan(-1) / deg, -45, 1e-13);
}

// Truth: jcgm-100 in data/sources.toml, 4.3.7: a rectangular distribution of half-width a has the
// variance a^2 / 3 (closed form of the integral of x^2 over the rectangle).
TEST(Measured, HalfWidthOverRootThreeIsTheStandardUncertainty) {
  const Measured<Length> depth{14.2 * mm, 0.3 * mm};
  const Length u = depth.standard_uncertainty();
  EXPECT_NEAR(u * u / mm2, 0.03, 1e-15);
  EXPECT_EQ(exactly(62 * mm).standard_uncertainty(), Length{});
  EXPECT_EQ(exactly(62 * mm).value, 62 * mm);
}

}  // namespace
}  // namespace backfit

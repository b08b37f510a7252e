// SPDX-License-Identifier: MIT
// Amounts that know their dimension: a length can't be added to a time, lux is not cd/m2.
#pragma once
#include <cmath>
#include <compare>
#include <numbers>

namespace backfit {

// Exponents of the base units mm, s, rad, lumen, tonne, ampere. With these, a newton is 1
// (tonne mm/s2) and millimetres are exact. Angle counts as a dimension so that luminance
// (lm/mm2/rad2) and illuminance (lm/mm2) differ; SI does not do so.
struct Dimension {
  int length = 0, time = 0, angle = 0, flux = 0, mass = 0, current = 0;
  friend constexpr bool operator==(const Dimension&, const Dimension&) = default;
  friend constexpr Dimension operator+(const Dimension& a, const Dimension& b) {
    return {a.length + b.length, a.time + b.time, a.angle + b.angle,
            a.flux + b.flux,     a.mass + b.mass, a.current + b.current};
  }
  friend constexpr Dimension operator-(const Dimension& a, const Dimension& b) {
    return {a.length - b.length, a.time - b.time, a.angle - b.angle,
            a.flux - b.flux,     a.mass - b.mass, a.current - b.current};
  }
};

template <Dimension D>
class Quantity;

namespace detail {
// The quantity of `base` base units of dimension D; a plain double when all exponents cancel.
template <Dimension D>
constexpr auto of_base(double base) {
  if constexpr (D == Dimension{}) {
    return base;
  } else {
    return Quantity<D>::of_base(base);
  }
}
}  // namespace detail

// An amount of dimension D, held as a multiple of the base unit. A unit is a constant of the
// same type: `62 * mm` makes a length, `x.in(inch)` and `x / inch` read it out.
template <Dimension D>
class Quantity {
 public:
  constexpr Quantity() = default;
  static constexpr Quantity of_base(double base) { return Quantity(base); }
  constexpr double in(Quantity unit) const { return base_ / unit.base_; }
  constexpr double base() const { return base_; }

  friend constexpr auto operator<=>(const Quantity&, const Quantity&) = default;
  constexpr Quantity operator-() const { return Quantity(-base_); }
  constexpr Quantity& operator+=(Quantity o) { return base_ += o.base_, *this; }
  constexpr Quantity& operator-=(Quantity o) { return base_ -= o.base_, *this; }
  friend constexpr Quantity operator+(Quantity a, Quantity b) {
    return Quantity(a.base_ + b.base_);
  }
  friend constexpr Quantity operator-(Quantity a, Quantity b) {
    return Quantity(a.base_ - b.base_);
  }
  friend constexpr Quantity operator*(double k, Quantity q) { return Quantity(k * q.base_); }
  friend constexpr Quantity operator*(Quantity q, double k) { return Quantity(k * q.base_); }
  friend constexpr Quantity operator/(Quantity q, double k) { return Quantity(q.base_ / k); }

 private:
  explicit constexpr Quantity(double base) : base_(base) {}
  double base_ = 0;
};

template <Dimension A, Dimension B>
constexpr auto operator*(Quantity<A> a, Quantity<B> b) {
  return detail::of_base<A + B>(a.base() * b.base());
}
template <Dimension A, Dimension B>
constexpr auto operator/(Quantity<A> a, Quantity<B> b) {
  return detail::of_base<A - B>(a.base() / b.base());
}
template <Dimension A>
constexpr auto operator/(double k, Quantity<A> a) {
  return detail::of_base<Dimension{} - A>(k / a.base());
}
template <Dimension D>
Quantity<D> abs(Quantity<D> q) {
  return Quantity<D>::of_base(std::abs(q.base()));
}
// Square root of a quantity whose exponents are all even, as of an area.
template <Dimension D>
Quantity<Dimension{D.length / 2, D.time / 2, D.angle / 2, D.flux / 2, D.mass / 2, D.current / 2}>
sqrt(Quantity<D> q) {
  static_assert(D.length % 2 == 0 && D.time % 2 == 0 && D.angle % 2 == 0 && D.flux % 2 == 0 &&
                D.mass % 2 == 0 && D.current % 2 == 0);
  return Quantity<Dimension{D.length / 2, D.time / 2, D.angle / 2, D.flux / 2, D.mass / 2,
                            D.current / 2}>::of_base(std::sqrt(q.base()));
}
template <Dimension D>
Quantity<D> hypot(Quantity<D> a, Quantity<D> b) {
  return Quantity<D>::of_base(std::hypot(a.base(), b.base()));
}

using Length = Quantity<Dimension{.length = 1}>;
using Area = Quantity<Dimension{.length = 2}>;
using Volume = Quantity<Dimension{.length = 3}>;
using Time = Quantity<Dimension{.time = 1}>;
using Angle = Quantity<Dimension{.angle = 1}>;
using Mass = Quantity<Dimension{.mass = 1}>;
using MassDensity = Quantity<Dimension{.length = -3, .mass = 1}>;
using Resistance = Quantity<Dimension{.length = 2, .time = -3, .mass = 1, .current = -2}>;
using Capacitance = Quantity<Dimension{.length = -2, .time = 4, .mass = -1, .current = 2}>;
using Voltage = Quantity<Dimension{.length = 2, .time = -3, .mass = 1, .current = -1}>;
using Current = Quantity<Dimension{.current = 1}>;
using Dioptre = Quantity<Dimension{.length = -1}>;
using Force = Quantity<Dimension{.length = 1, .time = -2, .mass = 1}>;
using Torque = Quantity<Dimension{.length = 2, .time = -2, .mass = 1}>;  // of the knob: N mm
using Pressure = Quantity<Dimension{.length = -1, .time = -2, .mass = 1}>;
using BendingStiffness = Quantity<Dimension{.length = 3, .time = -2, .mass = 1}>;  // E times I

inline constexpr Length mm = Length::of_base(1);
inline constexpr Length nm = 1e-6 * mm, um = 1e-3 * mm, cm = 10 * mm, metre = 1000 * mm;
inline constexpr Length inch = 25.4 * mm;
inline constexpr Area mm2 = mm * mm;
inline constexpr Volume mm3 = mm2 * mm;
inline constexpr Time second = Time::of_base(1);
inline constexpr Time ms = 1e-3 * second, us = 1e-6 * second;
inline constexpr Angle rad = Angle::of_base(1);
inline constexpr Angle deg = std::numbers::pi / 180 * rad;
inline constexpr Mass gram = Mass::of_base(1e-6);
inline constexpr MassDensity gram_per_cm3 = gram / (cm * cm * cm);
inline constexpr Voltage volt = Voltage::of_base(1e3);  // tonne mm2 / (s3 A)
inline constexpr Current ampere = Current::of_base(1), mA = 1e-3 * ampere;
inline constexpr Resistance ohm = Resistance::of_base(1e3);
inline constexpr Resistance kohm = 1e3 * ohm, Mohm = 1e6 * ohm;
inline constexpr Capacitance farad = Capacitance::of_base(1e-3);
inline constexpr Capacitance uF = 1e-6 * farad, nF = 1e-9 * farad;
inline constexpr Dioptre dioptre = 1 / metre;
inline constexpr Force newton = Force::of_base(1);  // tonne mm/s2
inline constexpr Torque newton_mm = newton * mm;
inline constexpr Pressure megapascal = newton / mm2;

inline double sin(Angle a) { return std::sin(a / rad); }
inline double cos(Angle a) { return std::cos(a / rad); }
inline double tan(Angle a) { return std::tan(a / rad); }
// The angle whose tangent is `t`, between -90 and 90 degrees.
inline Angle arctan(double t) { return std::atan(t) * rad; }

// A difference of exposure in powers of two: +1 is twice the light.
struct Stops {
  double value = 0;
  friend constexpr auto operator<=>(const Stops&, const Stops&) = default;
};

// The engraved f-number: focal length over entrance pupil diameter.
struct FNumber {
  double value = 0;
  friend constexpr auto operator<=>(const FNumber&, const FNumber&) = default;
};

// Arithmetic film speed, ISO or exposure index.
struct IsoSpeed {
  double value = 0;
  friend constexpr auto operator<=>(const IsoSpeed&, const IsoSpeed&) = default;
};

}  // namespace backfit

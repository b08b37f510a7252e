// SPDX-License-Identifier: MIT
// Light between diffuse walls and the two mouths of a way through them: how much of what enters one
// mouth leaves by the other. Derivation: docs/derivations/light-trap.md.
#pragma once
#include <cstddef>
#include <memory>
#include <vector>

namespace backfit {

// Who sees whom. An exchange between two surfaces is the one's area times its view factor to the
// other, the same both ways; areas per length of seam or whole, all in one unit.
class Exchange {
 public:
  explicit Exchange(std::size_t pieces)
      : area(pieces), entry(pieces), exit(pieces), mutual_(pieces * pieces) {}

  std::vector<double> area;         // of each piece of wall
  std::vector<double> entry, exit;  // of each piece with the outer and with the inner mouth
  double mouth = 0;                 // area of the outer mouth
  double direct = 0;                // of the mouths with each other

  std::size_t pieces() const { return area.size(); }
  double& mutual(std::size_t i, std::size_t j) { return mutual_[i * pieces() + j]; }
  double mutual(std::size_t i, std::size_t j) const { return mutual_[i * pieces() + j]; }
  const std::vector<double>& table() const { return mutual_; }

 private:
  std::vector<double> mutual_;
};

// Parts of the light that falls on the outer mouth evenly from all sides: out of the inner mouth,
// and out of the outer one again. The walls take the rest.
struct Passage {
  double through = 0, back = 0;
};

// The balance of all pieces, each lit evenly: area_i b_i / reflectance - sum_j mutual_ij b_j =
// entry_i, solved for the walls' brightness b without a difference of like numbers, so that tiny
// parts are as sure as large ones. Requires 0 <= reflectance <= 1, and below 1 if some piece sees
// no mouth, even over others.
Passage passage(const Exchange& exchange, double reflectance);

// The same balance with a reflectance of each piece's own, kept for light from anywhere.
class Balance {
 public:
  // Requires 0 < reflectance <= 1 of each piece, and what passage() requires of 1.
  Balance(const Exchange& exchange, const std::vector<double>& reflectances);
  ~Balance();
  Balance(Balance&&) noexcept;
  Balance& operator=(Balance&&) noexcept;

  // How bright each piece is that `lit` falls on, like Exchange::entry: light per brightness.
  std::vector<double> brightness(const std::vector<double>& lit) const;

 private:
  struct Factors;
  std::unique_ptr<const Factors> factors_;
};

// How bright each piece is with the inner mouth as bright as 1: also the part of the light that
// has fallen on the piece which will leave by the inner mouth. Requires the same, reflectance > 0.
std::vector<double> brightness_from_inside(const Exchange& exchange, double reflectance);

}  // namespace backfit

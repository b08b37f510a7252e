// SPDX-License-Identifier: MIT
#include "timer/resistors.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace backfit {
namespace {

// The best found so far for one speed.
struct Found {
  double error = std::numeric_limits<double>::infinity();
  Joint joint = Joint::series;
  std::vector<std::size_t> items;  // places in the stock
};

class Search {
 public:
  Search(const TimerLaw& law, Time wanted, std::span<const StockItem> stock)
      : law_(law), wanted_(wanted), stock_(stock), target_(resistor_for(law, wanted)) {}

  bool possible() const { return target_.has_value(); }

  Found single() const {
    Found best;
    const auto [begin, end] = near(*target_);
    for (std::size_t i = begin; i < end; ++i) {
      if (stock_[i].count > 0) consider(best, Joint::series, stock_[i].value, {i});
    }
    return best;
  }

  Found pair() const {
    Found best;
    for (std::size_t i = 0; i < stock_.size(); ++i) {
      const Resistance first = stock_[i].value;
      if (stock_[i].count <= 0 || first == *target_) continue;
      const Joint joint = first < *target_ ? Joint::series : Joint::parallel;
      const Resistance other =
          joint == Joint::series ? *target_ - first : 1 / (1 / *target_ - 1 / first);
      const auto [begin, end] = near(other);
      for (std::size_t j = begin; j < end; ++j) {
        if (stock_[j].count < (i == j ? 2 : 1)) continue;
        const Resistance second = stock_[j].value;
        const Resistance both =
            joint == Joint::series ? first + second : 1 / (1 / first + 1 / second);
        consider(best, joint, both, {std::max(i, j), std::min(i, j)});
      }
    }
    return best;
  }

 private:
  // Places of the stock around `value`: two below it and two from it on.
  std::pair<std::size_t, std::size_t> near(Resistance value) const {
    const auto it = std::ranges::lower_bound(stock_, value, {}, &StockItem::value);
    const auto at = static_cast<std::size_t>(it - stock_.begin());
    return {at < 2 ? 0 : at - 2, std::min(at + 2, stock_.size())};
  }
  void consider(Found& best, Joint joint, Resistance total, std::vector<std::size_t> items) const {
    const auto time = open_time(law_, total);
    if (!time) return;
    const double error = std::abs(stops_over(*time, wanted_).value);
    if (error < best.error) best = {error, joint, std::move(items)};
  }

  const TimerLaw& law_;
  Time wanted_;
  std::span<const StockItem> stock_;
  std::optional<Resistance> target_;
};

}  // namespace

Resistance total_of(const SwitchPosition& position, std::span<const Resistance> values) {
  assert(!position.parts.empty());
  if (position.joint == Joint::series) {
    Resistance sum;
    for (const std::size_t i : position.parts) sum += values[i];
    return sum;
  }
  auto conductance = 0 / ohm;
  for (const std::size_t i : position.parts) conductance += 1 / values[i];
  return 1 / conductance;
}

ResistorSwitch resistors_each(const TimerLaw& law, std::span<const Time> wanted,
                              std::span<const StockItem> stock, std::optional<Stops> worth_a_part) {
  std::vector<StockItem> left(stock.begin(), stock.end());
  ResistorSwitch result;
  for (const Time time : wanted) {
    SwitchPosition position{time, Joint::series, {}};
    const Search search(law, time, left);
    if (search.possible()) {
      Found found = search.single();
      if (worth_a_part) {
        Found pair = search.pair();
        if (pair.error < found.error - worth_a_part->value) found = std::move(pair);
      }
      position.joint = found.joint;
      for (const std::size_t item : found.items) {
        position.parts.push_back(result.parts.size());
        result.parts.push_back(left[item].value);
        --left[item].count;
      }
    }
    result.positions.push_back(std::move(position));
  }
  return result;
}

}  // namespace backfit

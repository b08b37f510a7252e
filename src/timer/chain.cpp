// SPDX-License-Identifier: MIT
// The best chain by dynamic programming over its sums: what lies ahead of a tap depends on the sum
// up to it alone, so of the chains with the same sum only the best is carried on.
#include <algorithm>
#include <cassert>
#include <cmath>

#include "timer/resistors.hpp"

namespace backfit {
namespace {

enum class Aim { least_worst, least_squares };

// A chain up to one tap.
struct State {
  Resistance sum;
  double worst = 0, squares = 0;  // of the errors so far, in stops
  std::size_t before = 0;         // its state at the tap before
  std::size_t item = 0;           // the last link's place in the stock

  bool better_than(const State& other, Aim aim) const {
    if (aim == Aim::least_worst && worst != other.worst) return worst < other.worst;
    return squares < other.squares;
  }
};

class Taps {
 public:
  // Taps within `window` stops of what is wanted; sums nearer to each other than `grain` of
  // themselves count as one.
  Taps(const TimerLaw& law, std::span<const Time> wanted, std::span<const StockItem> stock,
       double window, double grain, Aim aim)
      : law_(law), stock_(stock), grain_(grain), aim_(aim) {
    for (const StockItem& item : stock) limited_ = limited_ || item.count < int(wanted.size());
    std::vector<State> start{State{}};
    taps_.push_back(std::move(start));
    for (const Time time : wanted) {
      if (!extend(time, window)) return;
    }
    complete_ = true;
  }

  bool complete() const { return complete_; }

  const State& best() const {
    return *std::ranges::min_element(
        taps_.back(), [&](const State& a, const State& b) { return a.better_than(b, aim_); });
  }

  std::vector<Resistance> links() const {
    std::vector<Resistance> list;
    const State* state = &best();
    for (std::size_t tap = taps_.size() - 1; tap > 0; --tap) {
      list.push_back(stock_[state->item].value);
      state = &taps_[tap - 1][state->before];
    }
    std::ranges::reverse(list);
    return list;
  }

 private:
  bool extend(Time wanted, double window) {
    const double span = std::exp2(window);
    const Resistance low = resistor_for(law_, wanted / span).value_or(Resistance{});
    const auto high = resistor_for(law_, wanted * span);
    const Resistance top = high ? *high : greatest_resistance(law_).value_or(Resistance{});
    std::vector<State> reached;
    const std::vector<State>& from = taps_.back();
    for (std::size_t b = 0; b < from.size(); ++b) {
      auto item = std::ranges::lower_bound(stock_, low - from[b].sum, {}, &StockItem::value);
      for (; item != stock_.end() && from[b].sum + item->value <= top; ++item) {
        const auto place = static_cast<std::size_t>(item - stock_.begin());
        if (limited_ && used(b, place) >= item->count) continue;
        const Resistance sum = from[b].sum + item->value;
        const auto time = open_time(law_, sum);
        if (!time) break;
        const double error = stops_over(*time, wanted).value;
        reached.push_back({sum, std::max(from[b].worst, std::abs(error)),
                           from[b].squares + error * error, b, place});
      }
    }
    if (reached.empty()) return false;
    taps_.push_back(thinned(std::move(reached)));
    return true;
  }

  std::vector<State> thinned(std::vector<State> states) const {
    std::ranges::sort(states, {}, &State::sum);
    std::vector<State> kept;
    Resistance cell_end;
    for (const State& s : states) {
      if (kept.empty() || s.sum > cell_end) {
        kept.push_back(s);
        cell_end = s.sum * (1 + grain_);
      } else if (s.better_than(kept.back(), aim_)) {
        kept.back() = s;
      }
    }
    return kept;
  }

  int used(std::size_t state, std::size_t item) const {
    int count = 0;
    for (std::size_t tap = taps_.size() - 1; tap > 0; --tap) {
      const State& s = taps_[tap][state];
      count += s.item == item ? 1 : 0;
      state = s.before;
    }
    return count;
  }

  const TimerLaw& law_;
  std::span<const StockItem> stock_;
  double grain_;
  Aim aim_;
  bool limited_ = false, complete_ = false;
  std::vector<std::vector<State>> taps_;
};

double grain_for(double window) { return std::max(1e-5, 5e-4 * window); }

}  // namespace

std::optional<ResistorSwitch> resistor_chain(const TimerLaw& law, std::span<const Time> wanted,
                                             std::span<const StockItem> stock) {
  assert(!wanted.empty());
  constexpr double first = 0.002, widest = 2, step = 1.4;
  constexpr int windows = 22;  // from the first beyond the widest
  for (int i = 0; i < windows; ++i) {
    const double window = first * std::pow(step, i);
    const Taps any(law, wanted, stock, std::min(window, widest), grain_for(window),
                   Aim::least_worst);
    if (!any.complete()) continue;
    // The least worst error is known now; within it the squares decide. What thinning may have
    // moved is allowed for.
    const double worst = any.best().worst;
    const Taps even(law, wanted, stock, worst + 3 * grain_for(worst), grain_for(worst),
                    Aim::least_squares);
    ResistorSwitch result;
    result.parts = even.complete() ? even.links() : any.links();
    SwitchPosition position;
    for (std::size_t place = 0; place < wanted.size(); ++place) {
      position.wanted = wanted[place];
      position.parts.push_back(place);
      result.positions.push_back(position);
    }
    return result;
  }
  return {};
}

}  // namespace backfit

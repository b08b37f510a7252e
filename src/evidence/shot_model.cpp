// SPDX-License-Identifier: MIT
#include "evidence/shot_model.hpp"

#include <cmath>

namespace backfit {
namespace {

// Light through an edge from its dark end to `s` samples behind it.
double light_up_to(double s, const BladeEdge& e) {
  const double u = s / e.width;
  if (u <= 0) return 0;
  if (u >= 1) return e.width / (e.power + 1) + (s - e.width);
  return e.width * std::pow(u, e.power + 1) / (e.power + 1);
}

// One time constant, met by a light that is even over each cell: exact for such light.
class Lag {
 public:
  // Mean over the cell of the lagging value, `rate` a sample.
  double operator()(double value, double width, double rate) {
    const double turns = width * rate;
    if (turns != turns_) {
      turns_ = turns;
      left_ = std::exp(-turns);
      mean_left_ = std::abs(turns) < 1e-6 ? 1 - turns / 2 : (1 - left_) / turns;
    }
    const double behind = state_ - value;
    state_ = value + behind * left_;
    return value + behind * mean_left_;
  }
  // Mean over the cell last met of e^(-rate t), t from that cell's start, and at its end.
  double mean_left() const { return mean_left_; }
  double left() const { return left_; }

 private:
  double state_ = 0, turns_ = 0, left_ = 1, mean_left_ = 1;
};

}  // namespace

double BladeEdge::dark_to_half() const { return width * std::exp2(-1 / power); }
double BladeEdge::lost() const { return width * power / (power + 1); }

void answer(const ShotModel& m, std::span<const TraceCell> cells, std::vector<CellAnswer>& out) {
  out.resize(cells.size());
  const double first = m.first_light(), open = m.fully_open();
  const double closing = m.starts_closing(), last = m.last_light();
  Lag sensor, coupling;
  double elapsed = 0;  // (1 - e^(-corner t)) / corner at the cell's start
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const double a = cells[i].begin, width = cells[i].width, b = a + width;
    double light = 0;
    if (b > first && a < last) {
      light = a >= open
                  ? 1
                  : (light_up_to(b - first, m.opening) - light_up_to(a - first, m.opening)) / width;
      if (b > closing) {
        light += (light_up_to(last - a, m.closing) - light_up_to(last - b, m.closing)) / width - 1;
      }
    }
    if (m.sensor_lag > 0) light = sensor(light, width, 1 / m.sensor_lag);
    const double kept = light - coupling(light, width, m.corner);
    // Mean over the cell of (1 - e^(-corner t)) / corner: its value at the start, and how it goes
    // on from there.
    const double turns = width * m.corner;
    const double rest = 1 - m.corner * elapsed;  // e^(-corner t) at the start
    const double half = std::abs(turns) < 1e-4 ? width * (0.5 - turns / 6)
                                               : width * (1 - coupling.mean_left()) / turns;
    const double whole = width * coupling.mean_left();
    const double mean_elapsed = elapsed + rest * half;
    elapsed += rest * whole;
    out[i] = {light, m.base + m.drift * mean_elapsed + m.level * kept, kept, mean_elapsed};
  }
}

}  // namespace backfit

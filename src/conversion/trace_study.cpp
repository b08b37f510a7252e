// SPDX-License-Identifier: MIT
#include "conversion/trace_study.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "conversion/timer_words.hpp"
#include "evidence/shot_search.hpp"
#include "exposure/scales.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

// Of a speed from shot to shot, taken where too few shots tell it. Common practice.
constexpr double usual_scatter = 0.03;
constexpr std::size_t few_shots = 4;
// Simulated recordings with more noise show it (tests of shots_of_light).
constexpr double much_noise = 0.03;

RecordedSignal signal_of(const Recording& r, std::size_t channel) {
  return {r.channels[channel], r.interval, r.resolution};
}

// Of light: steps that stand out most from their noise, and then the largest.
std::size_t clearest(const std::vector<FoundShots>& found) {
  const auto clearness = [](const FoundShots& f) {
    return std::pair(f.shots.empty() ? 0 : f.noise > 0 ? f.step / f.noise : 1e12, f.step);
  };
  return static_cast<std::size_t>(std::ranges::max_element(found, {}, clearness) - found.begin());
}

std::size_t loudest(const Recording& r) {
  const auto loudness = [](const std::vector<float>& channel) {
    float most = 0;
    for (std::size_t i = 1; i < channel.size(); ++i) {
      most = std::max(most, std::abs(channel[i] - channel[i - 1]));
    }
    return most;
  };
  return static_cast<std::size_t>(std::ranges::max_element(r.channels, {}, loudness) -
                                  r.channels.begin());
}

std::string counted(int n, std::string_view what) {
  return fmt::format("{} {}{}", n, what, n == 1 ? "" : "s");
}

void read_light(const Recording& r, const TraceQuestions& q, TraceStudy& s) {
  std::vector<FoundShots> found;
  for (std::size_t c = 0; c < r.channels.size(); ++c) {
    if (q.channel && c != *q.channel) {
      found.emplace_back();
    } else {
      found.push_back(shots_in(signal_of(r, c)));
    }
  }
  s.channel = q.channel.value_or(clearest(found));
  const LightTrace trace = shots_of_light(signal_of(r, s.channel), found[s.channel], q.sensor_rise);
  for (const TimedShot& shot : trace.shots) s.shots.push_back({shot, {}, {}, {}, {}, {}});
  if (trace.unpaired > 0) {
    s.notes.push_back(counted(trace.unpaired, "step") +
                      " of light without a partner left out: a shot cut off, or a bump");
  }
  if (trace.unusable > 0) {
    s.notes.push_back(counted(trace.unusable, "shot") +
                      " left out: too near the recording's ends or another shot, or of no clear "
                      "shape");
  }
  if (!q.sensor_rise) {
    s.notes.emplace_back(
        "the sensor is taken to follow at once; if its rise time from 10 to 90 % is known, say it "
        "with --sensor-rise");
  }
}

void read_sound(const Recording& r, const TraceQuestions& q, TraceStudy& s) {
  s.channel = q.channel.value_or(loudest(r));
  const ClickTrace trace = shots_by_sound(signal_of(r, s.channel), q.marked);
  s.loudness_step = trace.loudness_step;
  for (const ClickedShot& shot : trace.shots) s.shots.push_back({{}, shot, {}, {}, {}, {}});
  if (trace.unpaired > 0) {
    s.notes.push_back(counted(trace.unpaired, "click") + " without a partner left out");
  }
  s.notes.emplace_back(
      "sound gives the time from click to click alone: no effective time, no half-peak time and no "
      "efficiency, and how far a click stands from the light's edge it can't tell");
}

// Gives marks to shots; false, with an error, when they can't be shared out.
bool mark(TraceStudy& s, const std::vector<Time>& marked, Diagnostics& diagnostics) {
  if (marked.empty()) return true;
  if (s.shots.size() % marked.size() != 0) {
    diagnostics.error({},
                      fmt::format("{} shots can't be shared evenly among {} marks", s.shots.size(),
                                  marked.size()),
                      "give one mark for all shots, or one for each in their order, or as many "
                      "shots to each mark");
    return false;
  }
  const std::size_t each = s.shots.size() / marked.size();
  for (std::size_t i = 0; i < s.shots.size(); ++i) {
    TracedShot& shot = s.shots[i];
    shot.marked = marked[i / each];
    const Estimate<Time>& t = shot.time();
    shot.deviation = Stops{std::log2(t.value / true_speed(*shot.marked))};
    shot.deviation_u = Stops{t.standard_uncertainty / t.value / std::numbers::ln2};
  }
  return true;
}

void remark(TracedShot& shot, const TraceStudy& s) {
  const auto say = [&](std::string text) { shot.remarks.push_back(std::move(text)); };
  if (!shot.light) return;
  const TimedShot& t = *shot.light;
  if (!t.effective) {
    say("the curve has no flat top, so whether the blades opened fully it doesn't tell: no "
        "effective time");
  }
  if (t.total.value < s.shortest_by_iso_516) {
    say(
        fmt::format("shorter than {}, below which this recording lacks the bandwidth that ISO 516 "
                    "asks for",
                    time_text(s.shortest_by_iso_516)));
  }
  if (t.widened_for_noise > 1) {
    say(fmt::format("slow noise, such as hum or a flickering lamp: doubts widened {:.1f} times",
                    t.widened_for_noise));
  }
  if (t.widened_for_shape > 1) {
    say(fmt::format("the edges follow no power of time: doubts widened {:.1f} times",
                    t.widened_for_shape));
  }
  if (t.noise > much_noise) {
    say(fmt::format("noise of {:.0f} % of full light, with which doubts may be a tenth too small",
                    100 * t.noise));
  }
  if (t.shape_held) say("an edge is too short or too noisy to tell its shape");
}

SpeedSummary summary_of(const std::vector<const TracedShot*>& shots) {
  SpeedSummary sum;
  sum.marked = shots.front()->marked;
  sum.shots = shots.size();
  sum.effective = std::ranges::all_of(shots, &TracedShot::is_effective);
  const auto n = static_cast<double>(shots.size());
  Time own;
  for (const TracedShot* s : shots) {
    sum.mean += s->time().value / n;
    own += s->time().standard_uncertainty / n;  // as if it erred alike in all
  }
  Time scatter;
  sum.mean_u = own;
  if (shots.size() > 1) {
    double square = 0;
    for (const TracedShot* s : shots) {
      const double off = (s->time().value - sum.mean) / second;
      square += off * off;
    }
    scatter = std::sqrt(square / (n - 1)) * second;
    sum.spread = scatter;
    const Time of_mean = scatter / std::sqrt(n);
    sum.mean_u = hypot(own, of_mean);
    if (of_mean > Time{}) sum.degrees_of_freedom = (n - 1) * std::pow(sum.mean_u / of_mean, 4);
  }
  if (shots.size() < few_shots) scatter = std::max(scatter, usual_scatter * sum.mean);
  sum.reading = {sum.mean, std::numbers::sqrt3 * hypot(own, scatter * std::sqrt(1 + 1 / n))};
  if (sum.marked) {
    sum.deviation = Stops{std::log2(sum.mean / true_speed(*sum.marked))};
    sum.deviation_u = Stops{sum.mean_u / sum.mean / std::numbers::ln2};
  }
  return sum;
}

}  // namespace

const Estimate<Time>& TracedShot::time() const {
  if (sound) return sound->open;
  return light->effective ? *light->effective : light->half;
}

std::optional<TraceStudy> study_trace(const Recording& r, const TraceQuestions& q,
                                      Diagnostics& diagnostics) {
  if (q.channel && *q.channel >= r.channels.size()) {
    diagnostics.error({}, fmt::format("there is no channel {}; the recording has {}",
                                      *q.channel + 1, r.channels.size()));
    return {};
  }
  TraceStudy s;
  s.sound = q.sound;
  s.interval = r.interval;
  s.sensor_rise = q.sensor_rise;
  s.band =
      bandwidth(r.interval, q.sensor_rise ? std::optional(q.sensor_rise->value) : std::nullopt);
  s.shortest_by_iso_516 = shortest_by_iso_516(s.band);
  if (q.sound) {
    read_sound(r, q, s);
  } else {
    read_light(r, q, s);
  }
  if (r.clipped) {
    s.notes.emplace_back(
        "the recording is overdriven: samples stand at the end of the scale, and levels and times "
        "from them are wrong; record again with less gain");
  }
  if (s.shots.empty()) {
    diagnostics.error({},
                      q.sound ? "no pair of clicks stands out of the recording"
                              : "no shot stands out of the recording: no step of light up and "
                                "down again, eight times its noise",
                      q.sound ? "record nearer to the shutter, in a quiet room"
                              : "point the sensor at a bright, steady lamp through the open lens; "
                                "for plain sound add --sound");
    return {};
  }
  if (!mark(s, q.marked, diagnostics)) return {};
  for (TracedShot& shot : s.shots) remark(shot, s);
  // Shots of one mark are given in a row, but a mark may come twice.
  std::vector<std::vector<const TracedShot*>> groups;
  for (const TracedShot& shot : s.shots) {
    const auto group = std::ranges::find_if(
        groups, [&](const auto& list) { return list.front()->marked == shot.marked; });
    if (group == groups.end()) {
      groups.push_back({&shot});
    } else {
      group->push_back(&shot);
    }
  }
  for (const auto& group : groups) s.speeds.push_back(summary_of(group));
  return s;
}

std::string time_with_half_width(Time value, Time half_width) {
  const bool long_one = value >= 0.9995 * second;
  const Time unit = long_one ? second : ms;
  const double half = half_width / unit;
  const int decimals =
      half > 0 ? std::clamp(1 - static_cast<int>(std::floor(std::log10(half))), 0, 6) : 4;
  const std::string text = fixed(value / unit, decimals) + (long_one ? " s" : " ms");
  return half > 0 ? text + " ± " + fixed(half, decimals) : text;
}

std::string stops_with_half_width(Stops value, double half_width) {
  const int decimals = half_width < 0.0095 ? 3 : 2;
  const std::string size = fixed(std::abs(value.value), decimals);
  const std::string_view sign = value.value < 0 ? "−" : "+";
  return fmt::format("{}{} ± {}", sign, size, fixed(std::max(half_width, 0.001), decimals));
}

}  // namespace backfit

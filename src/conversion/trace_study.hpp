// SPDX-License-Identifier: MIT
// What a recording says of a shutter's speeds.
#pragma once
#include <limits>
#include <optional>
#include <string>
#include <vector>

#include "evidence/shutter_clicks.hpp"
#include "evidence/shutter_trace.hpp"
#include "survey/recording.hpp"

namespace backfit {

// Half-width of a sensor's rise time without ±, of itself: it hangs on the sensor's load (common
// practice).
inline constexpr double usual_rise_tolerance = 0.5;

struct TraceQuestions {
  bool sound = false;        // a recording of sound, not of light
  std::vector<Time> marked;  // in the order of the shots
  std::optional<SensorRise> sensor_rise;
  std::optional<std::size_t> channel;  // from 0; empty: the one with the clearest shots
};

// A shot by light or by sound.
struct TracedShot {
  std::optional<TimedShot> light;
  std::optional<ClickedShot> sound;
  std::optional<Time> marked;
  // Of time() against what the mark means; both are there when a mark is.
  std::optional<Stops> deviation, deviation_u;
  std::vector<std::string> remarks;  // sentences without a full stop

  Time at() const { return light ? light->at : sound->at; }
  // What tells its speed: effective time, else half-peak time, else from click to click.
  const Estimate<Time>& time() const;
  bool is_effective() const { return light && light->effective; }
};

// The shots of one mark, or all of them without marks.
struct SpeedSummary {
  std::optional<Time> marked;
  std::size_t shots = 0;
  bool effective = false;      // all of them have an effective time; else time() is meant
  Time mean, mean_u;           // spread over the root of their number, and the measurement's own
  std::optional<Time> spread;  // standard deviation of the shots; needs two
  std::optional<Stops> deviation, deviation_u;
  // Of mean_u (JCGM 100:2008, G.4): few shots tell their spread badly.
  double degrees_of_freedom = std::numeric_limits<double>::infinity();
  // For one more exposure at this speed, as a camera file holds it: the ± covers the scatter too.
  // Of fewer than four shots a scatter of 3 % at least is taken (common practice).
  Measured<Time> reading;

  // In how many standard uncertainties 95 % lie.
  double coverage() const { return coverage_factor(0.95, degrees_of_freedom); }
};

struct TraceStudy {
  bool sound = false;
  std::size_t channel = 0;
  Time interval;
  Frequency band;
  Time shortest_by_iso_516;
  std::optional<SensorRise> sensor_rise;
  std::vector<TracedShot> shots;
  Time loudness_step;                // of the shots by sound
  std::vector<SpeedSummary> speeds;  // in the order of the marks
  std::vector<std::string> notes;    // sentences without a full stop
};

// Empty, with an error added, when there is no such channel, no shot, or marks that can't be given
// to the shots: one mark is of all, as many as there are shots one each; of fewer each has the same
// number of shots in a row.
std::optional<TraceStudy> study_trace(const Recording& recording, const TraceQuestions& questions,
                                      Diagnostics& diagnostics);

// "17.23 ms ± 0.41": the ± with two figures.
std::string time_with_half_width(Time value, Time half_width);
// "+0.27 ± 0.03", "+0.268 ± 0.001": two decimals, or three where the ± asks for them.
std::string stops_with_half_width(Stops value, double half_width);

}  // namespace backfit

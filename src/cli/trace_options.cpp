// SPDX-License-Identifier: MIT
#include "cli/trace_options.hpp"

#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include "cli/reading_options.hpp"

namespace backfit {
namespace {

// A time within limits that recordings and shutters keep to.
Time time_of(const char* option, const std::string& text, Time least, Time most) {
  const Time time = read_option(option, text, kind_of<Time>(), Sign::positive).value * second;
  if (time >= least && time <= most) return time;
  throw CLI::ValidationError(option, fmt::format("'{}' is out of range; {:g} to {:g} s are taken",
                                                 text, least / second, most / second));
}

}  // namespace

void add_trace_options(CLI::App& trace, TraceWords& words, TraceRequest& request) {
  trace.add_option("RECORDING", request.recording, "Sound file, or table of an oscilloscope")
      ->required();
  trace.add_flag("--sound", request.questions.sound,
                 "It is plain sound, not a light sensor's: time the clicks");
  trace
      .add_option("--marked", words.marked,
                  "Speed as marked, \"1/60 s\": once for all shots, or again for each in order")
      ->type_name("SPEED")
      ->expected(1)
      ->allow_extra_args(false)
      ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
  trace
      .add_option("--sensor-rise", words.sensor_rise,
                  "The light sensor's rise from 10 to 90 %, \"20 us ± 5\"")
      ->type_name("TIME");
  trace
      .add_option("--channel", words.channel,
                  "Channel, from 1; left out: the one with the clearest shots")
      ->type_name("NUMBER")
      ->check(CLI::Range(1, 64));
  trace.add_option("--step", words.step, "Time between two rows of a table without times")
      ->type_name("TIME");
  trace.add_option("--svg", request.svg, "Draw every shot into this file")->type_name("FILE");
  trace.add_option("--png", request.png, "Draw every shot into this file, as pixels")
      ->type_name("FILE");
  trace.add_option("--save", request.camera, "Write the speeds into this camera file")
      ->type_name("CAMERA");
}

void read_trace_words(const TraceWords& words, TraceRequest& request) {
  for (const std::string& text : words.marked) {
    request.questions.marked.push_back(time_of("--marked", text, 1e-5 * second, 3600 * second));
  }
  if (!words.sensor_rise.empty()) {
    const Time rise = time_of("--sensor-rise", words.sensor_rise, 1e-9 * second, 0.1 * second);
    const auto tolerance =
        read_option("--sensor-rise", words.sensor_rise, kind_of<Time>(), Sign::positive).tolerance;
    request.questions.sensor_rise =
        SensorRise{rise, tolerance ? *tolerance * second : usual_rise_tolerance * rise};
  }
  if (!words.step.empty()) {
    request.step = time_of("--step", words.step, 1e-9 * second, 0.01 * second);
  }
  if (words.channel > 0) {
    request.questions.channel = static_cast<std::size_t>(words.channel - 1);
  }
}

}  // namespace backfit

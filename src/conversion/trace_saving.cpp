// SPDX-License-Identifier: MIT
#include "conversion/trace_saving.hpp"

#include <fmt/format.h>

#include <fstream>

#include "files/reader.hpp"
#include "survey/speed_entry.hpp"
#include "timer/speeds.hpp"

namespace backfit {
namespace {

constexpr std::string_view byte_order_mark = "\uFEFF";

// Why these speeds can't be saved, and what to do; empty when they can.
std::pair<std::string, std::string> refusal(const TraceStudy& study) {
  if (study.sound) {
    return {"sound gives no effective time, which is what a camera file holds",
            "record the light through the lens"};
  }
  for (const SpeedSummary& s : study.speeds) {
    if (!s.marked) {
      return {"only a speed with its mark can be saved",
              "add --marked, such as --marked \"1/60 s\""};
    }
    if (!s.effective) {
      return {fmt::format(
                  "not all shots at {} have an effective time, which is what a camera file holds",
                  speed_text(*s.marked)),
              "record them again in more light, or leave this speed out"};
    }
  }
  return {};
}

bool begins_with_mark(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::string first(byte_order_mark.size(), '\0');
  file.read(first.data(), static_cast<std::streamsize>(first.size()));
  return first == byte_order_mark;
}

}  // namespace

std::optional<SavedSpeeds> with_speeds(const std::filesystem::path& path, const TraceStudy& study,
                                       Diagnostics& diagnostics, const Drafts& drafts) {
  if (auto [why, help] = refusal(study); !why.empty()) {
    diagnostics.error({}, "nothing was saved: " + why, std::move(help));
    return {};
  }
  auto source = read_source(path, drafts, diagnostics);
  if (!source) return {};
  auto camera = read_record<Camera>(source, diagnostics);
  if (!camera) return {};
  SavedSpeeds saved;
  saved.timer_goes_before =
      camera->shutter.timer && *camera->shutter.timing == ShutterTiming::photocell;
  for (const SpeedSummary& s : study.speeds) {
    const std::string effective = time_with_half_width(s.reading.value, s.reading.half_width);
    std::string why;
    const auto text =
        with_speed(source, *camera, {*s.marked, speed_text(*s.marked), effective}, why);
    if (!text) {
      diagnostics.error(camera->shutter.place, "nothing was saved: " + why,
                        "write [shutter] on a line of its own and its keys below it");
      return {};
    }
    // The next entry goes into the text with this one.
    source = std::make_shared<const SourceText>(path, *text);
    Diagnostics known;
    camera = read_record<Camera>(source, known);
    saved.lines.push_back({*s.marked, effective});
  }
  saved.text = (begins_with_mark(path) ? std::string(byte_order_mark) : "") + source->text();
  return saved;
}

}  // namespace backfit

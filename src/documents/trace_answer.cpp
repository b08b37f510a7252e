// SPDX-License-Identifier: MIT
#include "documents/trace_answer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "conversion/timer_words.hpp"
#include "documents/listing.hpp"
#include "quantity/notation.hpp"
#include "timer/speeds.hpp"

namespace backfit {
namespace {

// "17.23 ± 0.41" in `unit`, the half-width of 95 % with two figures.
template <class Q>
std::string with_doubt(const Estimate<Q>& e, Q unit) {
  const double half = coverage_95 * (e.standard_uncertainty / unit);
  const int decimals =
      half > 0 ? std::clamp(1 - static_cast<int>(std::floor(std::log10(half))), 0, 6) : 3;
  return fixed(e.value / unit, decimals) + " ± " + fixed(half, decimals);
}

std::string budget_text(const Estimate<Time>& e) {
  std::string text;
  for (const Contribution& c : e.budget) {
    if (c.share < 0.005) continue;
    text += fmt::format("{}{} {:.0f} %", text.empty() ? "" : ", ", c.name, 100 * c.share);
  }
  return text;
}

// The shot in whose doubt most rests: the one with the greatest relative uncertainty.
const TracedShot& least_sure(const TraceStudy& s) {
  return *std::ranges::max_element(s.shots, {}, [](const TracedShot& t) {
    return t.time().standard_uncertainty / t.time().value;
  });
}

std::string shot_rows(const TraceStudy& s) {
  const bool marked = s.shots.front().marked.has_value();
  std::vector<std::vector<std::string>> rows;
  if (s.sound) {
    rows.push_back({"shot", "at, s", "click to click, ms"});
  } else {
    rows.push_back({"shot", "at, s", "total, ms", "half-peak, ms", "effective, ms", "efficiency, %",
                    "opens in, ms", "closes in, ms"});
  }
  if (marked) rows.front().insert(rows.front().end(), {"mark", "off, stops"});
  int number = 0;
  for (const TracedShot& shot : s.shots) {
    std::vector<std::string> row{fmt::format("{}{}", ++number, shot.remarks.empty() ? "" : "*"),
                                 fixed(shot.at() / second, 3)};
    if (shot.sound) {
      row.push_back(with_doubt(shot.sound->open, ms));
    } else {
      const TimedShot& t = *shot.light;
      row.push_back(with_doubt(t.total, ms));
      row.push_back(with_doubt(t.half, ms));
      row.push_back(t.effective ? with_doubt(*t.effective, ms) : "-");
      row.push_back(t.efficiency ? with_doubt(*t.efficiency, 0.01) : "-");
      row.push_back(with_doubt(t.opening, ms));
      row.push_back(with_doubt(t.closing, ms));
    }
    if (marked) {
      row.push_back(speed_text(*shot.marked));
      row.push_back(stops_with_half_width(*shot.deviation, coverage_95 * shot.deviation_u->value));
    }
    rows.push_back(std::move(row));
  }
  return columns(rows);
}

std::string coupling_text(const TraceStudy& s) {
  Frequency low = s.shots.front().light->ac_corner.value, high = low;
  bool there = false;
  for (const TracedShot& shot : s.shots) {
    const Estimate<Frequency>& corner = shot.light->ac_corner;
    low = std::min(low, corner.value);
    high = std::max(high, corner.value);
    there = there || corner.value > 3 * corner.standard_uncertainty;
  }
  if (!there) return "none seen: the level holds";
  return fmt::format("droops from {:.3g} to {:.3g} Hz; taken out", low / hertz, high / hertz);
}

}  // namespace

std::string trace_summary(const TraceAnswer& a) {
  const TraceStudy& s = a.study;
  std::string out = fmt::format("{}: {}\n", a.path.filename().string(),
                                s.sound ? "shutter by its sound" : "shutter by its light");
  out += fmt::format("  recording     {}, {}, {} samples at {:.4g} kHz, {:.3g} s\n",
                     a.recording.format, a.recording.names[s.channel], a.recording.length(),
                     1 / s.interval / kilohertz, a.recording.duration() / second);
  if (!s.sound) {
    out +=
        fmt::format("  bandwidth     {:.3g} kHz; ISO 516 asks for 100 / total time: from {} on\n",
                    s.band / kilohertz, time_text(s.shortest_by_iso_516));
    out += fmt::format("  AC coupling   {}\n", coupling_text(s));
  }
  if (s.sensor_rise) {
    out += fmt::format("  sensor        rises in {:g} µs ± {:g}\n", s.sensor_rise->value / us,
                       s.sensor_rise->half_width / us);
  }
  out += "  doubts        ± 95 %\n\n" + shot_rows(s) + "\n";
  for (const SpeedSummary& speed : s.speeds) {
    const std::string name = speed.marked ? speed_text(*speed.marked) : "all";
    out += fmt::format("{}: {} shot{}, {} {}", name, speed.shots, speed.shots == 1 ? "" : "s",
                       s.sound           ? "click to click"
                       : speed.effective ? "effective"
                                         : "effective or half-peak",
                       time_with_half_width(speed.mean, speed.coverage() * speed.mean_u));
    if (speed.spread) {
      out += fmt::format(", spread {} ({:.1f} %)", time_text(*speed.spread),
                         100 * (*speed.spread / speed.mean));
    }
    if (speed.deviation) {
      out += fmt::format(
          ", {} stop",
          stops_with_half_width(*speed.deviation, speed.coverage() * speed.deviation_u->value));
    }
    out += "\n";
  }
  const TracedShot& doubtful = least_sure(s);
  out += fmt::format("doubt of shot {}, the least sure: {}\n", &doubtful - s.shots.data() + 1,
                     budget_text(doubtful.time()));
  // Remarks that many shots share are said once.
  std::vector<std::pair<std::string, std::string>> said;
  for (const TracedShot& shot : s.shots) {
    const std::string number = std::to_string(&shot - s.shots.data() + 1);
    for (const std::string& remark : shot.remarks) {
      const auto same =
          std::ranges::find(said, remark, &std::pair<std::string, std::string>::first);
      if (same == said.end()) {
        said.emplace_back(remark, number);
      } else {
        same->second += ", " + number;
      }
    }
  }
  for (const auto& [remark, numbers] : said) out += fmt::format("* {}: {}\n", numbers, remark);
  for (const std::string& note : s.notes) out += "note: " + note + "\n";
  return out;
}

std::string saving_summary(const std::filesystem::path& path, const SavedSpeeds& saved) {
  std::string out = fmt::format("saved in {}:\n", path.string());
  for (const SavedSpeeds::Line& line : saved.lines) {
    out += fmt::format("  {} gives {}\n", speed_text(line.marked), line.effective);
  }
  if (saved.timer_goes_before) {
    out +=
        "note: this shutter is timed by hand, and its exposure card goes by its timer's switch\n";
  }
  return out;
}

}  // namespace backfit

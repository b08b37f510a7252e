// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "conversion/timer_words.hpp"
#include "documents/drawing.hpp"
#include "documents/table.hpp"
#include "documents/trace_answer.hpp"
#include "quantity/notation.hpp"
#include "timer/speeds.hpp"

namespace backfit {
namespace {

using namespace paper;

constexpr std::size_t most_panels = 300;

// A step of 1, 2 or 5 that puts at most `most` ticks over `range`.
double tick_step(double range, double most) {
  const double least = range / most;
  const double decade = std::pow(10, std::floor(std::log10(least)));
  for (const double step : {1.0, 2.0, 5.0}) {
    if (step * decade >= least) return step * decade;
  }
  return 10 * decade;
}

// One shot's curve in a box of the page.
class Panel {
 public:
  Panel(Sheet& sheet, PagePoint corner, Length width, Length height, bool roomy)
      : sheet_(sheet),
        left_(corner.x),
        top_(corner.y + (roomy ? 6 : 4.5) * mm),
        width_(width),
        height_(height - (roomy ? 22 : 9) * mm),
        roomy_(roomy) {}

  void draw(const TracedShot& shot, std::size_t number, Time loudness_step) {
    heading(shot, number);
    const Time total = shot.light ? shot.light->total.value : shot.sound->open.value;
    from_ = -0.1 * total;
    to_ = 1.12 * total;
    if (shot.light) {
      light(*shot.light);
    } else {
      sound(*shot.sound, loudness_step);
    }
    axis();
    if (roomy_) spans(shot);
  }

 private:
  Length x_of(Time t) const { return left_ + (t - from_) / (to_ - from_) * width_; }
  // Room over full light for noise.
  Length y_of(double share) const { return top_ + height_ - share / 1.12 * height_; }
  PagePoint at(Time t, double share) const {
    return {x_of(t), y_of(std::clamp(share, -0.12, 1.12))};
  }

  void heading(const TracedShot& shot, std::size_t number) {
    const TextStyle name{.size = (roomy_ ? 8 : 6.5) * point, .bold = true};
    const Length y = top_ - 1.8 * mm;
    std::string left = std::to_string(number);
    if (shot.marked) left += "   " + speed_text(*shot.marked);
    sheet_.label({left_, y}, left, name);
    std::string right = time_text(shot.time().value);
    if (shot.deviation) right += ", " + signed_stops(*shot.deviation) + " stop";
    const TextStyle value{.size = name.size, .align = Align::right};
    sheet_.label({left_ + width_, y}, right, value);
  }

  void light(const TimedShot& shot) {
    for (const double share : {0.5, 1.0}) {
      sheet_.stroke(polyline({{left_, y_of(share)}, {left_ + width_, y_of(share)}}),
                    LineStyle::centre, Ink::grey);
    }
    std::vector<PagePoint> seen, fitted;
    for (const LightPoint& p : shot.curve) {
      if (p.at < from_ || p.at > to_) continue;
      seen.push_back(at(p.at, p.seen));
      fitted.push_back(at(p.at, p.fitted));
    }
    if (fitted.size() < 2) return;
    std::vector<PagePoint> area = fitted;
    area.push_back({fitted.back().x, y_of(0)});
    area.push_back({fitted.front().x, y_of(0)});
    sheet_.fill(polygon(area), Ink::accent, 0.14);
    sheet_.stroke(polyline(fitted), LineStyle::border, Ink::accent);
    sheet_.stroke(polyline(seen), LineStyle::dimension);
  }

  void sound(const ClickedShot& shot, Time step) {
    std::vector<PagePoint> seen;
    for (std::size_t i = 0; i < shot.loudness.size(); ++i) {
      const Time t = (static_cast<double>(i) + 0.5) * step;
      if (t > to_) break;
      seen.push_back(at(t, shot.loudness[i]));
    }
    if (seen.size() >= 2) sheet_.stroke(polyline(seen), LineStyle::dimension);
    for (const Time t : {Time{}, shot.open.value}) {
      sheet_.stroke(polyline({{x_of(t), y_of(0)}, {x_of(t), y_of(1.1)}}), LineStyle::border,
                    Ink::accent);
    }
  }

  void axis() {
    sheet_.stroke(polyline({{left_, y_of(0)}, {left_ + width_, y_of(0)}}), LineStyle::border);
    const double step = tick_step((to_ - from_) / ms, width_ / ((roomy_ ? 12 : 9) * mm));
    const TextStyle style{.size = (roomy_ ? 7 : 6) * point, .align = Align::centre};
    for (double t = 0; t * ms <= to_; t += step) {
      const Length x = x_of(t * ms);
      sheet_.stroke(polyline({{x, y_of(0)}, {x, y_of(0) + 1 * mm}}), LineStyle::dimension);
      std::string text = fmt::format("{:g}", std::round(t / step) * step);
      if (t == 0 && roomy_) text = "0 ms";
      sheet_.label({x, y_of(0) + 3.6 * mm}, text, style);
    }
  }

  // What the times are, as lines under the axis.
  void spans(const TracedShot& shot) {
    Length y = y_of(0) + 6.5 * mm;
    const auto span = [&](Time begin, Time end, const std::string& text) {
      const Length a = x_of(begin), b = x_of(end);
      sheet_.stroke(polyline({{a, y}, {b, y}}), LineStyle::dimension);
      for (const Length x : {a, b}) {
        sheet_.stroke(polyline({{x, y - 0.8 * mm}, {x, y + 0.8 * mm}}), LineStyle::border);
      }
      const TextStyle style{.size = 7 * point, .align = Align::centre};
      const Length middle = (a + b) / 2;
      const TextSize size = sheet_.fonts().size(text, style);
      sheet_.fill(rectangle({middle - size.width / 2 - 1 * mm, y - 1.4 * mm},
                            {middle + size.width / 2 + 1 * mm, y + 1.4 * mm}),
                  Ink::white);
      sheet_.label({middle, y + 0.9 * mm}, text, style);
      y += 3.8 * mm;
    };
    const auto text = [](const char* name, const Estimate<Time>& e) {
      return fmt::format("{} {}", name,
                         time_with_half_width(e.value, coverage_95 * e.standard_uncertainty));
    };
    if (shot.sound) {
      span(Time{}, shot.sound->open.value, text("click to click", shot.sound->open));
      return;
    }
    const TimedShot& t = *shot.light;
    const Time middle = t.total.value / 2;
    span(Time{}, t.total.value, text("total", t.total));
    const Time half_at = half_begin(t);
    span(half_at, half_at + t.half.value, text("half-peak", t.half));
    if (t.effective) {
      span(middle - t.effective->value / 2, middle + t.effective->value / 2,
           text("effective", *t.effective));
    }
  }

  // Where the fitted curve first passes half of full light.
  static Time half_begin(const TimedShot& t) {
    for (std::size_t i = 1; i < t.curve.size(); ++i) {
      const LightPoint &a = t.curve[i - 1], &b = t.curve[i];
      if (b.fitted >= 0.5 && b.fitted > a.fitted) {
        return a.at + (0.5 - a.fitted) / (b.fitted - a.fitted) * (b.at - a.at);
      }
    }
    return (t.total.value - t.half.value) / 2;
  }

  Sheet& sheet_;
  Length left_, top_, width_, height_;
  bool roomy_;
  Time from_, to_;
};

Table table_of(const TraceStudy& s) {
  Table table{{{"Marked", 26 * mm},
               {"Shots", 16 * mm, Align::right},
               {s.sound ? "Click to click" : "Effective time", 46 * mm, Align::right},
               {"Spread", 28 * mm, Align::right},
               {"Off the mark, stops", 44 * mm, Align::right}},
              {}};
  for (const SpeedSummary& v : s.speeds) {
    std::string time = time_with_half_width(v.mean, v.coverage() * v.mean_u);
    if (!v.effective && !s.sound) time += " (half-peak)";
    table.rows.push_back(
        {v.marked ? speed_text(*v.marked) : "-", std::to_string(v.shots), time,
         v.spread ? time_text(*v.spread) : "-",
         v.deviation ? stops_with_half_width(*v.deviation, v.coverage() * v.deviation_u->value)
                     : "-"});
  }
  return table;
}

}  // namespace

Document trace_picture(const TraceAnswer& a, const std::filesystem::path& font_folder) {
  const TraceStudy& s = a.study;
  const std::string name = a.path.filename().string();
  Document document(font_folder,
                    {"Shutter speeds", name, "measured by backfit; ± are 95 % intervals"});
  Sheet& sheet = document.add_page();
  Length y = content_top;
  y += sheet.text({margin, y}, "Shutter speeds", title_text, content_width) + 2 * mm;
  y += sheet.text(
           {margin, y},
           s.sound
               ? "Loudness against time in ms; coloured: where the opening and the closing click "
                 "begin. Sound tells nothing of the light between them."
               : "Light through the lens against time in ms from the first light. Black: as "
                 "recorded, the droop of the AC coupling taken out; coloured: as fitted, its area "
                 "the exposure; chain-dashed: full and half light.",
           body_text, content_width) +
       4 * mm;
  y += draw(sheet, {margin, y}, table_of(s)) + 6 * mm;

  const std::size_t count = std::min(s.shots.size(), most_panels);
  const std::size_t columns = count <= 2    ? 1
                              : count <= 8  ? 2
                              : count <= 18 ? 3
                              : count <= 40 ? 4
                              : count <= 90 ? 6
                                            : 10;
  const std::size_t rows = (count + columns - 1) / columns;
  const bool roomy = columns <= 2;
  const Length gap = roomy ? 8 * mm : 4 * mm;
  const auto part = [](Length all, Length between, std::size_t n) {
    return (all + between) / static_cast<double>(n) - between;
  };
  const Length width = part(content_width, gap, columns);
  const Length height = std::min(part(content_bottom - y, 2 * mm, rows), roomy ? 90 * mm : 45 * mm);
  for (std::size_t i = 0; i < count; ++i) {
    const std::size_t column = i % columns, row = i / columns;
    const PagePoint corner{margin + static_cast<double>(column) * (width + gap),
                           y + static_cast<double>(row) * (height + 2 * mm)};
    Panel(sheet, corner, width, height, roomy).draw(s.shots[i], i + 1, s.loudness_step);
  }
  return document;
}

}  // namespace backfit

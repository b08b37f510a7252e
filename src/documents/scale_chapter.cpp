// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "documents/build_chapters.hpp"
#include "documents/build_words.hpp"
#include "documents/drawing.hpp"
#include "quantity/notation.hpp"

namespace backfit::paper {
namespace {

constexpr Length strip_height = 22 * mm, tick_length = 4 * mm, leader_height = 4 * mm;
constexpr Length label_pitch = 3.2 * mm, strip_end = 4 * mm, words_width = 22 * mm;
// What the paper holds: as far from the stop, as many marks.
constexpr Length longest_scale = 110 * mm;
constexpr std::size_t most_ticks = 24;
constexpr Length clear = 0.5 * mm;  // of a line from the next

// A line of a scale at its true place.
struct Tick {
  Length at;
  std::string label;
};

// Where the labels of `ticks`, ordered by place, go: as near their ticks as a pitch between them
// allows. Runs of labels that would overlap are centred on the mean of their ticks.
std::vector<Length> label_places(const std::vector<Tick>& ticks) {
  struct Run {
    Length sum;  // of what each label would like its run's first label to be at
    int count;
    Length first() const { return sum / count; }
  };
  std::vector<Run> runs;
  for (const Tick& tick : ticks) {
    runs.push_back({tick.at, 1});
    while (runs.size() > 1) {
      const Run last = runs.back();
      Run& before = runs[runs.size() - 2];
      if (before.first() + before.count * label_pitch <= last.first()) break;
      before.sum += last.sum - last.count * before.count * label_pitch;
      before.count += last.count;
      runs.pop_back();
    }
  }
  std::vector<Length> places;
  for (const Run& run : runs) {
    for (int i = 0; i < run.count; ++i) places.push_back(run.first() + i * label_pitch);
  }
  return places;
}

// A strip to cut out with its ticks on the lower edge, or on the upper; `words` at its right end.
struct Strip {
  std::vector<Tick> ticks;  // ordered by place
  bool ticks_below = true;
  std::string words;

  Length before() const {  // of the strip, to the left of place 0
    return strip_end - std::min(ticks.front().at, label_places(ticks).front());
  }
  Length width() const {
    return before() + std::max(ticks.back().at, label_places(ticks).back()) + strip_end +
           words_width;
  }
};

void draw_strip(Sheet& sheet, PagePoint corner, const Strip& strip) {
  const Length edge = strip.ticks_below ? corner.y + strip_height : corner.y;
  const double inwards = strip.ticks_below ? -1 : 1;
  const auto y = [&](Length from_edge) { return edge + inwards * from_edge; };
  sheet.stroke(rectangle(corner, {corner.x + strip.width(), corner.y + strip_height}),
               LineStyle::dimension);
  const std::vector<Length> places = label_places(strip.ticks);
  TextStyle style = small_text;
  style.align = strip.ticks_below ? Align::left : Align::right;
  for (std::size_t i = 0; i < strip.ticks.size(); ++i) {
    const Length x = corner.x + strip.before() + strip.ticks[i].at;
    const Length label = corner.x + strip.before() + places[i];
    const bool zero = strip.ticks[i].at == 0 * mm;
    sheet.stroke(polyline({{x, edge}, {x, y(tick_length)}}),
                 zero ? LineStyle::outline : LineStyle::dimension);
    sheet.stroke(polyline({{x, y(tick_length)}, {label, y(tick_length + leader_height)}}),
                 LineStyle::dimension);
    sheet.label({label + 0.9 * mm, y(tick_length + leader_height + 1 * mm)}, strip.ticks[i].label,
                style, 90 * deg);
  }
  sheet.text({corner.x + strip.width() - words_width, corner.y + 2 * mm}, strip.words, small_text,
             words_width - 1.5 * mm);
}

// The stop at 0 and the marks that the standard reaches, as many as the paper holds and as stand
// clear of each other.
std::vector<Tick> scale_ticks(const Report& report) {
  const RegisterStudy& reg = report.register_;
  std::vector<Tick> marks;
  for (const RegisterStudy::Mark& m : reg.marks) {
    if (m.from_new_stop) marks.push_back({m.from_new_stop->value, engraved(m.engraved)});
  }
  std::ranges::stable_sort(marks, {}, &Tick::at);
  std::vector<Tick> ticks{{0 * mm, reg.farthest_focus ? "stop" : "∞"}};
  for (const Tick& mark : marks) {
    if (mark.at > longest_scale || ticks.size() == most_ticks) break;
    if (mark.at - ticks.back().at >= clear) ticks.push_back(mark);
  }
  return ticks;
}

// Lines at the depth of focus on both sides of the pointer, of each stop that stands clear of the
// one before.
std::vector<Tick> depth_ticks(const Report& report) {
  std::vector<Tick> ticks{{0 * mm, "pointer"}};
  Length last;
  for (const FNumber stop : report.depth_of_field.apertures) {
    const Length depth = stop.value * report.depth_of_field.circle;
    if (depth - last < clear) continue;
    if (depth > longest_scale / 4 || ticks.size() + 2 > most_ticks) break;
    last = depth;
    for (const Length at : {-depth, depth}) ticks.push_back({at, text(stop)});
  }
  std::ranges::stable_sort(ticks, {}, &Tick::at);
  return ticks;
}

void add_strip(Flow& flow, const Report& report) {
  const RegisterStudy& reg = report.register_;
  const Strip scale{scale_ticks(report), true, "subject\nthis way →"};
  const Strip pointer{depth_ticks(report), false, "on the standard"};
  const auto reached = static_cast<std::size_t>(std::ranges::count_if(
      reg.marks, [](const RegisterStudy::Mark& m) { return m.from_new_stop.has_value(); }));
  const std::size_t left_out = reached + 1 - scale.ticks.size();
  flow.together([&] {
    flow.heading("Focus scale to glue on, 1:1");
    flow.paragraph(
        "Print at 100 %, not fitted to the page. Measure the ruler: if it is off by 0.3 mm or more "
        "over its 100 mm, these strips are no good.",
        small_text);
    flow.block(9 * mm, [](Sheet& sheet, PagePoint at) {
      check_ruler(sheet, {at.x + 3 * mm, at.y}, Along::x);
    });
    flow.paragraph(fmt::format(
        "Upper strip: on the bed beside the standard, the line \"{}\" at the pointer while the "
        "standard stands at its new stop. Lower strip: on the standard, its thick line as "
        "the pointer, its edge along the scale's: what the scale shows "
        "between the two lines of a stop is sharp, and close up a little more. Glue the scale only "
        "when {}.",
        scale.ticks.front().label,
        reg.farthest_focus ? "the standard's new stop is fixed"
                           : "infinity is sharp at the stop on the ground glass"));
    flow.block(2 * strip_height, [scale, pointer](Sheet& sheet, PagePoint at) {
      const Length zero = at.x + std::max(scale.before(), pointer.before());
      draw_strip(sheet, {zero - scale.before(), at.y}, scale);
      draw_strip(sheet, {zero - pointer.before(), at.y + strip_height}, pointer);
    });
    if (left_out > 0) {
      flow.paragraph(fmt::format("{} more in the table under Focus.", counted(left_out, "mark")),
                     small_text);
    }
  });
}

// "0.94", "12.5": metres of a table.
std::string metres(Length distance) {
  if (std::isinf(distance / metre)) return "∞";
  return fixed(distance / metre, distance < 10 * metre ? 2 : distance < 100 * metre ? 1 : 0);
}

void add_depth_of_field(Flow& flow, const Report& report) {
  const DepthOfFieldStudy& d = report.depth_of_field;
  const bool fast = *report.assembly.camera.focusing.moves == LensMotion::fixed;
  constexpr std::size_t columns = 6;
  for (std::size_t from = 0; from < d.apertures.size(); from += columns) {
    const std::size_t to = std::min(from + columns, d.apertures.size());
    const Length width = (content_width - 24 * mm) / static_cast<double>(columns);
    Table table{{{"Focused at, m", 24 * mm}}, {}};
    std::vector<std::string> hyperfocal{"hyperfocal"};
    for (std::size_t i = from; i < to; ++i) {
      table.columns.push_back({text(d.apertures[i]), width, Align::right});
      hyperfocal.push_back(metres(d.hyperfocal[i]));
    }
    for (const DepthOfFieldStudy::Row& row : d.rows) {
      std::vector<std::string> cells{metres(row.subject)};
      for (std::size_t i = from; i < to; ++i) {
        const SharpRange& range = row.ranges[i];
        cells.push_back(fmt::format("{} to {}", metres(range.near),
                                    range.far ? metres(*range.far) : std::string("∞")));
      }
      table.rows.push_back(std::move(cells));
    }
    if (!fast) table.rows.push_back(std::move(hyperfocal));
    flow.together([&] {
      if (from == 0) {
        flow.heading("Depth of field");
        flow.paragraph(fmt::format(
            "Sharp from … to …, in metres from the lens, with blur of {} mm at most.{}",
            in_mm(d.circle, 3),
            fast ? ""
                 : " Focused at the hyperfocal distance, all from half of it to infinity is "
                   "sharp."));
      }
      flow.table(table);
    });
  }
}

void add_finder(Flow& flow, const Report& report) {
  if (!report.finder || report.finder->pose == 0 * mm) return;
  const FinderStudy& f = *report.finder;
  Table table{{{"Subject, from the lens", 50 * mm},
               {"Finder reads, lens sharp on it", 65 * mm, Align::right},
               {"Lens focuses, finder set on it", 65 * mm, Align::right}},
              {}};
  const auto said = [](const std::optional<Length>& length) {
    return length ? distance_text(*length) : std::string("past infinity");
  };
  for (const FinderStudy::Check& c : f.checks) {
    table.rows.push_back({engraved(c.subject), said(c.reads), said(c.focuses)});
  }
  std::string words = fmt::format(
      "Cam or arm {} mm (95 %) forward on the standard, right to ± {} mm at {}: then finder and "
      "lens agree at every distance. Until then:",
      mm_with_u(f.pose, report.register_.set_back.standard_uncertainty),
      fixed(report.focus.depth_of_focus / mm, 2), text(report.focus.aperture));
  flow.together([&] {
    flow.heading("Rangefinder check");
    flow.paragraph(words);
    flow.table(table);
    if (f.base) {
      flow.paragraph(fmt::format("One minute of arc between the two images moves the focus {} mm. "
                                 "Base times magnification: {} mm; {} asks for {}.",
                                 fixed(f.base->film_error / mm, 2), fixed(f.base->there / mm, 1),
                                 text(report.focus.aperture), fixed(f.base->needed / mm, 1)),
                     small_text);
    }
  });
}

}  // namespace

void add_scale(Flow& flow, const Report& report) {
  flow.new_page();
  const bool standard = *report.assembly.camera.focusing.moves == LensMotion::standard;
  if (standard && scale_ticks(report).size() > 1) add_strip(flow, report);
  add_depth_of_field(flow, report);
  add_finder(flow, report);
}

}  // namespace backfit::paper

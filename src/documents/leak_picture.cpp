// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "documents/document.hpp"
#include "documents/drawing.hpp"
#include "documents/fog_words.hpp"
#include "documents/leak_answer.hpp"
#include "documents/leak_picture.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

using namespace paper;

// Ways that are drawn: the first few that count.
std::size_t drawn(const LeakStudy& s) {
  constexpr std::size_t most = 5;
  std::size_t count = 0;
  while (count < std::min(s.ways.size(), most) && s.ways[count].share >= 0.005) ++count;
  return count;
}

double dot(const SpacePoint& a, const SpacePoint& b) {
  return (a.x / mm) * (b.x / mm) + (a.y / mm) * (b.y / mm) + (a.z / mm) * (b.z / mm);
}
Length size(const SpacePoint& v) { return std::sqrt(dot(v, v)) * mm; }

// As seen from behind the film: its width to the right, its height down.
class Seen {
 public:
  explicit Seen(const FilmPlane& film)
      : f_(film), wide_(size(film.width)), high_(size(film.height)) {}

  PartPoint operator()(const SpacePoint& p) const {
    const SpacePoint from{p.x - f_.corner.x, p.y - f_.corner.y, p.z - f_.corner.z};
    const double x = dot(from, f_.width) / (wide_ / mm) - wide_ / mm / 2;
    const double down = dot(from, f_.height) / (high_ / mm) - high_ / mm / 2;
    return {x * mm, -down * mm};
  }
  Length wide() const { return wide_; }
  Length high() const { return high_; }

 private:
  const FilmPlane& f_;
  Length wide_, high_;
};

// How dark the map shows a patch: nothing at a hundredth of what shows, full at a hundred times.
double darkness(double exposures) {
  return std::clamp((std::log10(exposures) + 2) / 4, 0.0, 1.0) * 0.75;
}

class Map {
 public:
  Map(Sheet& sheet, const LeakStudy& s, const Seen& seen, View view, PatchWords words)
      : sheet_(sheet), s_(s), seen_(seen), view_(view), words_(words) {}

  void draw() const {
    patches();
    sheet_.stroke(rectangle(corner(-1, 1), corner(1, -1)), LineStyle::outline);
    for (std::size_t i = drawn(s_); i-- > 0;) way(i);
    std::vector<Box> taken = labels();
    for (std::size_t i = 0; i < drawn(s_); ++i) number(i, taken);
  }

 private:
  // A patch's column and row.
  std::pair<double, double> place_of(std::size_t patch) const {
    const std::size_t column = patch % s_.film.columns, row = patch / s_.film.columns;
    return {static_cast<double>(column), static_cast<double>(row)};
  }
  PagePoint corner(double x, double y) const {
    return view_(PartPoint{x * seen_.wide() / 2, y * seen_.high() / 2});
  }

  struct Field {
    PagePoint low, high;
    double dark = 0;
    std::string words;
  };
  Field field_of(std::size_t patch) const {
    const auto columns = static_cast<double>(s_.film.columns);
    const auto rows = static_cast<double>(s_.film.rows);
    const auto [column, row] = place_of(patch);
    const TallyResult& t = s_.patches[patch].all;
    Field f{corner(2 * column / columns - 1, 1 - 2 * row / rows),
            corner(2 * (column + 1) / columns - 1, 1 - 2 * (row + 1) / rows), 0,
            t.mean > 0 ? "?" : "dark"};
    if (t.interval) {
      const LuminousExposure shows = fog_exposure(s_.asked.film.speed, {0.02});
      const Illuminance light = t.mean * s_.whole;
      f.dark = darkness(light * leak_time / shows);
      f.words =
          words_ == PatchWords::time ? fog_time_text(shows / light) : fixed(-std::log2(t.mean), 1);
    }
    return f;
  }

  void patches() const {
    for (std::size_t i = 0; i < s_.patches.size(); ++i) {
      const Field f = field_of(i);
      const Path field = rectangle(f.low, f.high);
      if (f.dark > 0) sheet_.fill(field, Ink::black, f.dark);
      sheet_.stroke(field, LineStyle::dimension, i == s_.worst ? Ink::accent : Ink::grey);
    }
    if (s_.worst >= s_.patches.size()) return;  // it lies beside the picture
    // The worst patch's frame lies on its neighbours'.
    const Field worst = field_of(s_.worst);
    sheet_.stroke(rectangle(worst.low, worst.high), LineStyle::outline, Ink::accent);
  }

  struct Box {
    PagePoint low, high;
    bool meets(const Box& other) const {
      return low.x < other.high.x && other.low.x < high.x && low.y < other.high.y &&
             other.low.y < high.y;
    }
  };

  // On the ways, on ground of their patch. Where they lie.
  std::vector<Box> labels() const {
    std::vector<Box> boxes;
    const bool times = words_ == PatchWords::time;
    for (std::size_t i = 0; i < s_.patches.size(); ++i) {
      const Field f = field_of(i);
      if (f.high.x - f.low.x <= (times ? 17 * mm : 8 * mm)) break;
      if (f.high.y - f.low.y <= (times ? 8 * mm : 4 * mm)) break;
      const TextStyle style{.size = 7 * point,
                            .bold = i == s_.worst,
                            .ink = f.dark > 0.4 ? Ink::white : Ink::black,
                            .align = Align::centre};
      const PagePoint middle{(f.low.x + f.high.x) / 2, (f.low.y + f.high.y) / 2};
      const Length half = sheet_.fonts().size(f.words, style).width / 2 + 0.4 * mm;
      const Box box{{middle.x - half, middle.y - 1.4 * mm}, {middle.x + half, middle.y + 1.4 * mm}};
      const Path ground = rectangle(box.low, box.high);
      boxes.push_back(box);
      sheet_.fill(ground, Ink::white);
      if (f.dark > 0) sheet_.fill(ground, Ink::black, f.dark);
      sheet_.label({middle.x, middle.y + 0.9 * mm}, f.words, style);
    }
    return boxes;
  }

  std::vector<PagePoint> line_of(std::size_t way) const {
    std::vector<PagePoint> line;
    for (const SpacePoint& p : s_.ways[way].points) line.push_back(view_(seen_(p)));
    return line;
  }

  void way(std::size_t index) const {
    const std::vector<PagePoint> line = line_of(index);
    if (line.size() < 2) return;
    sheet_.stroke(polyline(line), LineStyle::border, Ink::accent);
    sheet_.fill(circle(line.back(), 0.7 * mm), Ink::accent);
  }

  // Where the light comes in, or as near to it on its way as there is room.
  void number(std::size_t index, std::vector<Box>& taken) const {
    const Length radius = 2.4 * mm, step = 0.5 * mm;
    const std::vector<PagePoint> line = line_of(index);
    if (line.size() < 2) return;
    const auto box_at = [radius](PagePoint p) {
      return Box{{p.x - radius, p.y - radius}, {p.x + radius, p.y + radius}};
    };
    const auto is_free = [&](PagePoint p) {
      return std::ranges::none_of(taken, [&](const Box& b) { return b.meets(box_at(p)); });
    };
    std::optional<PagePoint> place;
    for (std::size_t i = 0; i + 1 < line.size() && !place; ++i) {
      const PagePoint a = line[i], b = line[i + 1];
      const Length far = hypot(b.x - a.x, b.y - a.y);
      for (Length at{}; at <= far && !place; at += step) {
        const double part = far > Length{} ? at / far : 0;
        const PagePoint p{a.x + part * (b.x - a.x), a.y + part * (b.y - a.y)};
        if (is_free(p)) place = p;
      }
    }
    const PagePoint middle = place.value_or(line.front());
    taken.push_back(box_at(middle));
    const Path mark = circle(middle, radius);
    sheet_.fill(mark, Ink::white);
    sheet_.stroke(mark, LineStyle::border, Ink::accent);
    const TextStyle style{
        .size = 7 * point, .bold = true, .ink = Ink::accent, .align = Align::centre};
    sheet_.label({middle.x, middle.y + 0.9 * mm}, std::to_string(index + 1), style);
  }

  Sheet& sheet_;
  const LeakStudy& s_;
  const Seen& seen_;
  View view_;
  PatchWords words_;
};

// How the map lies on the page: all that is drawn, about the film's middle.
struct Fit {
  double scale = 1;
  Length half_high;
};

Fit fit_of(const Seen& seen, Length room_high, const LeakStudy& s) {
  Length half_wide = seen.wide() / 2, half_high = seen.high() / 2;
  for (std::size_t i = 0; i < drawn(s); ++i) {
    for (const SpacePoint& p : s.ways[i].points) {
      const PartPoint at = seen(p);
      half_wide = std::max(half_wide, abs(at.x));
      half_high = std::max(half_high, abs(at.y));
    }
  }
  return {std::min((content_width / 2 - 4 * mm) / half_wide, room_high / 2 / half_high), half_high};
}

}  // namespace

namespace paper {

Length light_map_height(Length room_high, const LeakStudy& s) {
  const Fit fit = fit_of(Seen(s.film), room_high, s);
  return 2 * fit.scale * fit.half_high;
}

void draw_light_map(Sheet& sheet, PagePoint corner, Length room_high, PatchWords words,
                    const LeakStudy& s) {
  const Seen seen(s.film);
  const Fit fit = fit_of(seen, room_high, s);
  const View view{{corner.x + content_width / 2, corner.y + fit.scale * fit.half_high}, fit.scale};
  Map(sheet, s, seen, view, words).draw();
}

}  // namespace paper

std::string leak_svg(const std::string& title, const LeakStudy& s,
                     const std::filesystem::path& font_folder) {
  Document document(font_folder, {title, short_verdict(s),
                                  "worked out by backfit; try it with film before you trust it"});
  Sheet& sheet = document.add_page();
  Length y = content_top;
  y += sheet.text({margin, y}, "Light on the film", title_text, content_width) + 2 * mm;
  y += sheet.text(
           {margin, y},
           fmt::format("The film from behind. In each patch: sun that raises {} by "
                       "0.02 over base and fog; the darker, the more light. Framed: the worst "
                       "patch. Lines with numbers: ways of the light, from where it comes in "
                       "to the film. Sun: {}.{}",
                       s.asked.film.name, sun_words(s),
                       s.asked.film.rule.empty() ? "" : " For this, " + s.asked.film.rule + "."),
           body_text, content_width) +
       8 * mm;
  const Length room_high = 150 * mm;
  draw_light_map(sheet, {margin, y}, room_high, PatchWords::time, s);
  y += light_map_height(room_high, s) + 8 * mm;
  y += sheet.text({margin, y}, fmt::format("Worst patch: {}.", light_words(s.worst_light)),
                  strong_text, content_width) +
       2 * mm;
  if (s.wall_need) {
    y += sheet.text({margin, y}, fmt::format("Not counted: {}.", wall_words(*s.wall_need)),
                    body_text, content_width) +
         2 * mm;
  }
  for (std::size_t i = 0; i < drawn(s); ++i) {
    const Length share = 4 * mm, words = 20 * mm;
    sheet.text({margin, y}, std::to_string(i + 1), body_text, share);
    sheet.text({margin + share, y}, fmt::format("{:.0f} %", 100 * s.ways[i].share),
               {.align = Align::right}, words - share - 2.5 * mm);
    y +=
        sheet.text({margin + words, y}, s.ways[i].seams, body_text, content_width - words) + 1 * mm;
  }
  return document.svg(0);
}

}  // namespace backfit

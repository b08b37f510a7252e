// SPDX-License-Identifier: MIT
#include "documents/survey_sketch.hpp"

#include <algorithm>

#include "documents/document.hpp"
#include "documents/drawing.hpp"
#include "documents/survey_form.hpp"

namespace backfit::paper {
namespace {

// All sizes here are those of the sketch, in millimetres of paper.
PartPoint at(double x, double y) { return {x * mm, y * mm}; }

class Sketch {
 public:
  Sketch(Sheet& sheet, PagePoint origin, std::string_view marked)
      : sheet_(sheet), view_{origin, 1}, marked_(marked) {}

  void line(const std::vector<PartPoint>& points, LineStyle style) {
    sheet_.stroke(polyline(view_(points)), style);
  }
  void cut(const std::vector<PartPoint>& points) {
    sheet_.hatch(polygon(view_(points)), 1.6 * mm);
    sheet_.stroke(polygon(view_(points)), LineStyle::border);
  }
  void box(double half_width, double half_height, double radius, LineStyle style) {
    sheet_.stroke(rectangle(view_(at(-half_width, half_height)),
                            view_(at(half_width, -half_height)), radius * mm),
                  style);
  }
  void hole(double x, double y) {
    sheet_.stroke(circle(view_(at(x, y)), 0.9 * mm), LineStyle::border);
    centre_cross(sheet_, view_(at(x, y)), 0.9 * mm);
  }
  void measure(PartPoint from, PartPoint to, Along along, double offset,
               const std::string& letter) {
    if (is_marked(letter)) {
      const bool upright = along == Along::y;
      const auto beyond = [&](Length a, Length b) {
        return (offset < 0 ? std::min(a, b) : std::max(a, b)) + offset * mm;
      };
      const Length line = upright ? beyond(from.x, to.x) : beyond(from.y, to.y);
      const PartPoint a =
          upright ? PartPoint{line - 1.8 * mm, from.y} : PartPoint{from.x, line - 1.8 * mm};
      const PartPoint b =
          upright ? PartPoint{line + 1.8 * mm, to.y} : PartPoint{to.x, line + 1.8 * mm};
      sheet_.fill(rectangle(view_(a), view_(b)), Ink::accent, 0.35);
    }
    dimension(sheet_, view_, {from, to, along, offset * mm, letter});
  }
  void point_out(PartPoint tip, PartPoint knee, const std::string& words) {
    if (is_marked(words)) sheet_.fill(circle(view_(tip), 2.5 * mm), Ink::accent, 0.35);
    leader(sheet_, view_(tip), view_(knee), words);
  }
  void name(PartPoint place, const std::string& words, Align align = Align::left) {
    sheet_.label(view_(place), words, {.size = 7 * point, .align = align});
  }

 private:
  bool is_marked(std::string_view letter) const {
    return !letter.empty() && marked_.find(letter) != marked_.npos;
  }

  Sheet& sheet_;
  View view_;
  std::string_view marked_;
};

// Bellows in folds from the lens board to their frame.
void draw_bellows(Sketch& s, double up) {
  std::vector<PartPoint> folds;
  for (int i = 0; i <= 12; ++i) {
    const double share = i / 12.0;
    const double fold = i % 2 == 0 ? 0 : 1.6;
    folds.push_back(at(-62 + 42 * share, up * (8 + 8 * share + fold)));
  }
  s.line(folds, LineStyle::dimension);
}

void draw_cut_camera(Sketch& s) {
  for (const double up : {1.0, -1.0}) {
    draw_bellows(s, up);
    s.cut({at(-20, up * 16), at(-14, up * 16), at(-14, up * 18), at(-8, up * 18), at(-8, up * 12),
           at(-7, up * 12), at(-7, up * 16), at(0, up * 16), at(0, up * 18), at(10, up * 18),
           at(10, up * 20), at(3, up * 20), at(3, up * 24), at(10, up * 24), at(10, up * 28),
           at(-20, up * 28)});
  }
  s.line({at(0, 18), at(0, -18)}, LineStyle::centre);
  s.line({at(-84, 0), at(18, 0)}, LineStyle::centre);
  s.line({at(-62, 9), at(-62, -9)}, LineStyle::outline);
  s.line({at(-76, 6), at(-62, 6)}, LineStyle::border);
  s.line({at(-76, -6), at(-62, -6)}, LineStyle::border);
  s.line({at(-76, 6), at(-76, -6)}, LineStyle::border);
  s.line({at(-66, 4), at(-66, -4)}, LineStyle::outline);
  s.line({at(-82, -24), at(-20, -24)}, LineStyle::border);
  s.line({at(-62, -9), at(-62, -24)}, LineStyle::border);

  const auto letter = [](std::string_view path, std::string_view key) {
    return sketch_letter(path, key);
  };
  s.measure(at(-7, 28), at(0, 28), Along::x, 5, letter("gate", "before_film"));
  s.measure(at(0, 28), at(10, 28), Along::x, 5, letter("seat", "behind_film"));
  s.measure(at(10, 20), at(10, 24), Along::y, 5, letter("seat.groove", "width"));
  s.measure(at(3, -28), at(10, -28), Along::x, -5, letter("seat.groove", "depth"));
  s.measure(at(-20, -28), at(0, -28), Along::x, -5, letter("openings", "before_film"));
  s.measure(at(-66, -28), at(0, -28), Along::x, -11, letter("lens", "exit_pupil_before_film"));
  s.measure(at(-74, 12), at(-62, 12), Along::x, 5, letter("focusing", "travel_forward"));
  s.measure(at(-62, 12), at(-50, 12), Along::x, 5, letter("focusing", "room_behind_infinity"));
  s.name(at(-84, 28), "standard forward, back;");
  s.name(at(-84, 25), "drawn at its infinity stop");
  s.name(at(-74, -10), "exit", Align::right);
  s.name(at(-74, -13), "pupil", Align::right);
  s.name(at(-21, -19.5), "bellows frame", Align::right);
  s.name(at(-10, -6), "gate", Align::right);
  s.name(at(2, 6), "film plane");
  s.name(at(12, -20), "seat");
  s.name(at(12, 11), "groove");
}

void draw_seat(Sketch& s) {
  s.box(26, 24, 3, LineStyle::outline);
  s.box(17, 16, 1, LineStyle::border);
  s.box(19.5, 18.5, 3, LineStyle::border);
  s.box(10, 12, 0, LineStyle::outline);
  for (const double x : {-23.0, 23.0}) {
    for (const double y : {-20.0, 20.0}) s.hole(x, y);
  }
  s.line({at(-6, 0), at(6, 0)}, LineStyle::centre);
  s.line({at(0, -6), at(0, 6)}, LineStyle::centre);
  const auto letter = [](std::string_view path, std::string_view key) {
    return sketch_letter(path, key);
  };
  s.measure(at(-10, -12), at(10, -12), Along::x, 2.5, letter("gate", "width"));
  s.measure(at(-10, -12), at(-10, 12), Along::y, 3.5, letter("gate", "height"));
  s.measure(at(-26, -24), at(26, -24), Along::x, -6, letter("seat", "width"));
  s.measure(at(-26, -24), at(-26, 24), Along::y, -6, letter("seat", "height"));
  s.measure(at(-17, -16), at(17, -16), Along::x, -19.5, letter("seat.groove", "inner_width"));
  s.measure(at(17, -16), at(17, 16), Along::y, 20, letter("seat.groove", "inner_height"));
  s.measure(at(0, 20), at(23, 20), Along::x, 9, letter("seat.screws", "x"));
  s.measure(at(23, 0), at(23, 20), Along::y, 8, letter("seat.screws", "y"));
  s.point_out(at(-25.1, 23.1), at(-28, 29), letter("seat", "corner_radius"));
}

}  // namespace

void draw_survey_sketch(Sheet& sheet, PagePoint corner, std::string_view marked) {
  TextStyle caption = small_text;
  caption.bold = true;
  sheet.label({corner.x, corner.y + 3 * mm}, "Cut from top to bottom, from its left side", caption);
  Sketch cut(sheet, {corner.x + 84 * mm, corner.y + 41 * mm}, marked);
  draw_cut_camera(cut);
  sheet.label({corner.x + 107 * mm, corner.y + 3 * mm}, "The seat from behind", caption);
  Sketch seat(sheet, {corner.x + 139 * mm, corner.y + 41 * mm}, marked);
  draw_seat(seat);
}

std::string survey_sketch_svg(std::string_view marked, const std::filesystem::path& font_folder) {
  Document document(font_folder, {});
  const PagePoint corner{margin, content_top};
  draw_survey_sketch(document.add_page(), corner, marked);
  constexpr Length edge = 2 * mm;  // strokes are wide
  return document.svg(0, {corner.x - edge, corner.y - edge}, content_width + 2 * edge,
                      survey_sketch_height + 2 * edge);
}

}  // namespace backfit::paper

// SPDX-License-Identifier: MIT
#include "documents/cover_answer.hpp"

#include <fmt/format.h>

#include "documents/build_words.hpp"
#include "documents/json_numbers.hpp"
#include "documents/padded.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

using namespace json;

std::string stops_text(const std::optional<Stops>& lost) {
  return lost ? fixed(lost->value, 2) : "dark";
}

std::string size_text(const FrameSize& size) { return paper::sides(size) + " mm"; }

}  // namespace

std::string cover_summary(const Report& r, const CoverStudy& s) {
  const Assembly& a = r.assembly;
  std::string out = fmt::format("{} to {}: light on {}, by {}\n", *a.camera.name, *a.film.name,
                                size_text(s.window), name_of(s.grade));
  out += fmt::format("  image circle {}, the body clear to ⌀ {} at {}\n\n",
                     text_with_u(s.circle.value, s.circle.standard_uncertainty),
                     text(s.clear_circle.value_or(Length{}), 1), text(s.map_aperture));
  out +=
      fmt::format("{:<8}{}{}{}{}  {}  {}\n", "stop", padded("subject", 10), padded("side", 7),
                  padded("top", 7), padded("corner", 8),
                  padded(fmt::format("largest to {:g} stops", s.allowed.value), -19), "limited by");
  for (const CoverStudy::Row& row : s.rows) {
    out += fmt::format("{:<8}{}{}{}{}  {}  {}\n", text(row.aperture),
                       padded(row.subject ? distance_text(*row.subject) : "infinity", 10),
                       padded(stops_text(row.edge_x), 7), padded(stops_text(row.edge_y), 7),
                       padded(stops_text(row.corner), 8), padded(size_text(row.largest), -19),
                       row.limited_by);
  }
  out += fmt::format("\nstops lost at {}, seen from behind; x across, y down the side, mm\n{}",
                     text(s.map_aperture), padded("", 7));
  for (int column = 0; column < s.map.columns; ++column) {
    out += padded(fixed(s.map.place(column, 0).x / mm, 0), 6);
  }
  out += "\n";
  for (int row = s.map.rows - 1; row >= 0; --row) {
    out += padded(fixed(s.map.place(0, row).y / mm, 0), 7);
    for (int column = 0; column < s.map.columns; ++column) {
      const auto& lost = s.map.at(column, row);
      out += padded(lost ? fixed(lost->value, 2) : "·", 6);
    }
    out += "\n";
  }
  for (const AccessoryStudy& x : r.accessories) {
    const auto far = x.marks.front().focuses;
    out += fmt::format("{}  {}: {}, the picture's diagonal sees {}°, in focus from {} to {}\n",
                       &x == r.accessories.data()
                           ? "\naccessories, which leave light and image circle as they are\n"
                           : "",
                       x.name, text_with_u(x.focal.value, x.focal.standard_uncertainty),
                       fixed(x.angle / deg, 0), distance_text(*x.marks.back().focuses),
                       far ? distance_text(*far) : "infinity");
  }
  return out;
}

std::string cover_json(const Report& r, const CoverStudy& s) {
  const Assembly& a = r.assembly;
  Json j{{"schema", "backfit.cover/1"},
         {"camera", *a.camera.name},
         {"film", *a.film.id},
         {"grade", name_of(s.grade)},
         {"circle_mm", mm_of(s.circle.value)},
         {"circle_mm_u", mm_of(s.circle.standard_uncertainty)},
         {"clear_circle_mm", mm_of(s.clear_circle)},
         {"window_width_mm", mm_of(s.window.width)},
         {"window_height_mm", mm_of(s.window.height)},
         {"allowed_stops", s.allowed.value}};
  j["rows"] = Json::array();
  for (const CoverStudy::Row& row : s.rows) {
    j["rows"].push_back(
        {{"f_number", row.aperture.value},
         {"subject_mm", row.subject ? mm_of(*row.subject) : Json(nullptr)},
         {"side_stops", stops_of(row.edge_x)},
         {"top_stops", stops_of(row.edge_y)},
         {"corner_stops", stops_of(row.corner)},
         {"largest_width_mm", mm_of(row.largest.width)},
         {"largest_height_mm", mm_of(row.largest.height)},
         {"limited_by", row.limited_by.empty() ? Json(nullptr) : Json(row.limited_by)}});
  }
  Json map{{"f_number", s.map_aperture.value},
           {"columns", s.map.columns},
           {"rows", s.map.rows},
           {"x_mm", Json::array()},
           {"y_mm", Json::array()},
           {"loss_stops", Json::array()}};
  for (int i = 0; i < s.map.columns; ++i) map["x_mm"].push_back(mm_of(s.map.place(i, 0).x));
  for (int i = 0; i < s.map.rows; ++i) map["y_mm"].push_back(mm_of(s.map.place(0, i).y));
  for (int row = 0; row < s.map.rows; ++row) {
    Json line = Json::array();
    for (int column = 0; column < s.map.columns; ++column) {
      line.push_back(stops_of(s.map.at(column, row)));
    }
    map["loss_stops"].push_back(line);
  }
  j["map"] = map;
  return j.dump(2) + "\n";
}

}  // namespace backfit

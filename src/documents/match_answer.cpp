// SPDX-License-Identifier: MIT
#include "documents/match_answer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "documents/build_words.hpp"
#include "documents/json_numbers.hpp"
#include "documents/padded.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

using namespace json;

constexpr std::size_t page = 100;  // columns
constexpr std::size_t work_indent = 6;
constexpr int film_column = 18;

// "12 %", "over 99 %": draws don't tell more.
std::string percent(double odds) {
  if (odds > 0.99) return "over 99 %";
  if (odds < 0.01) return "under 1 %";
  return fixed(100 * odds, 0) + " %";
}

std::string signed_percent(double share) {
  const std::string digits = fixed(100 * std::abs(share), 0);
  if (digits == "0") return "0 %";
  return (share < 0 ? "−" : "+") + digits + " %";
}

// The word of `text` at `at`, with a "×", "±" or unit that belongs to it.
std::string word_at(const std::string& text, std::size_t at) {
  std::size_t end = std::min(text.find(' ', at), text.size());
  for (bool glued = true; glued && end < text.size();) {
    const std::size_t next = std::min(text.find(' ', end + 1), text.size());
    const std::string_view after = std::string_view(text).substr(end + 1, next - end - 1);
    const std::string_view before = std::string_view(text).substr(at, end - at);
    glued = after == "×" || after == "±" || after == "%" || after.starts_with("mm") ||
            before.ends_with("×") || before.ends_with("±");
    if (glued) end = next;
  }
  return text.substr(at, end - at);
}

// `text` behind `start`, broken between words at `page` columns; further lines stand `indent` in.
std::string wrapped(std::string start, std::size_t indent, const std::string& text) {
  std::string out;
  bool first = true;
  for (std::size_t at = 0; at < text.size();) {
    const std::string word = word_at(text, at);
    at += word.size() + 1;
    if (!first && code_points(start) + 1 + code_points(word) > page) {
      out += start + "\n";
      start = std::string(indent, ' ');
      first = true;
    }
    start += (first ? "" : " ") + word;
    first = false;
  }
  return out + start + "\n";
}

std::string listed(const std::vector<std::string>& list, std::string_view joint) {
  std::string out;
  for (const std::string& item : list) out += (out.empty() ? "" : std::string(joint)) + item;
  return out;
}

// What it takes, or what stands in the way.
std::string words_of(const MatchRow& row) {
  std::vector<std::string> words;
  std::vector<std::string> unknown;
  for (const MissingMeasurement& m : row.measure) unknown.push_back(m.how);
  if (!unknown.empty()) words.push_back("measure the " + listed(unknown, ", the "));
  if (!row.reason.empty()) words.push_back(row.reason);
  words.insert(words.end(), row.work.begin(), row.work.end());
  if (!row.numbers && row.method && row.reversed) words.emplace_back("reads mirrored");
  std::string line = row.method ? std::string(name_of(*row.method)) : std::string();
  if (!line.empty() && !words.empty()) line += ": ";
  return line + listed(words, "; ");
}

std::string line_of(const std::vector<std::string>& cells) {
  static constexpr int widths[] = {-film_column, 15, 11, 10, 15, 9, 8, 10, 10};
  std::string line = "  ";
  for (std::size_t i = 0; i < cells.size(); ++i) line += padded(cells[i], widths[i]);
  return line + "\n";
}

std::string cost_text(const MatchRow& row) {
  return row.picture_cost ? fixed(*row.picture_cost, 2) : "-";
}

std::string block_of(const MatchRow& row, const std::string& currency) {
  if (!row.numbers) {
    std::string words = words_of(row);
    if (row.picture_cost) words += fmt::format("; a picture {} {}", cost_text(row), currency);
    return wrapped("  " + padded(row.film, -film_column), film_column + 2, words);
  }
  const MatchRow::Numbers& n = *row.numbers;
  std::vector<std::string> cells{
      row.film,
      mm_with_u(n.set_back.value, n.set_back.standard_uncertainty),
      n.farthest_focus ? "to " + distance_text(*n.farthest_focus) : percent(n.odds_infinity),
      distance_text(n.nearest_focus),
      paper::sides(n.picture),
      signed_percent(n.area_change),
      n.corner ? fixed(n.corner->value, 1) : "dark",
      row.reversed ? "mirrored" : "right"};
  if (!currency.empty()) cells.push_back(cost_text(row));
  return line_of(cells) + wrapped(std::string(work_indent, ' '), work_indent, words_of(row));
}

Json json_of(const MatchRow& row) {
  Json j{{"film", row.film},
         {"name", row.name},
         {"method", row.method ? Json(name_of(*row.method)) : Json(nullptr)},
         {"verdict", name_of(row.verdict)},
         {"laterally_reversed", row.reversed},
         {"picture_cost", row.picture_cost ? rounded(*row.picture_cost, 4) : Json(nullptr)}};
  if (row.numbers) {
    const MatchRow::Numbers& n = *row.numbers;
    j["set_back_mm"] = mm_of(n.set_back.value);
    j["set_back_mm_u"] = mm_of(n.set_back.standard_uncertainty);
    j["odds_infinity"] = share_of(n.odds_infinity);
    j["farthest_focus_mm"] = n.farthest_focus ? mm_of(*n.farthest_focus) : Json(nullptr);
    j["nearest_focus_mm"] = mm_of(n.nearest_focus);
    j["picture_width_mm"] = mm_of(n.picture.width);
    j["picture_height_mm"] = mm_of(n.picture.height);
    j["area_change"] = share_of(n.area_change);
    j["corner_loss_stops"] = n.corner ? share_of(n.corner->value) : Json(nullptr);
    j["odds_covered"] = share_of(n.odds_covered);
    j["covered_width_mm"] = mm_of(n.covered.width);
    j["covered_height_mm"] = mm_of(n.covered.height);
  }
  j["measure"] = Json::array();
  for (const MissingMeasurement& m : row.measure) {
    j["measure"].push_back({{"key", m.key}, {"how", m.how}});
  }
  j["work"] = row.work;
  j["reason"] = row.reason.empty() ? Json(nullptr) : Json(row.reason);
  return j;
}

}  // namespace

std::string match_summary(const Match& match) {
  std::string out =
      fmt::format("{}: the films of the catalogue, best first, light and sharpness at {}\n",
                  *match.camera.name, text(match.aperture));
  std::vector<std::string> heads{"film",        "set-back, mm", "infinity", "nearest",
                                 "picture, mm", "area",         "corner",   "reads"};
  if (!match.currency.empty()) heads.push_back(match.currency);
  const std::string head = line_of(heads);
  std::optional<Verdict> under;
  for (const MatchRow& row : match.rows) {
    if (under != row.verdict) {
      under = row.verdict;
      out += fmt::format("\n{}\n", name_of(row.verdict));
      if (row.numbers) out += head;
    }
    out += block_of(row, match.currency);
  }
  return out +
         "\n"
         "infinity  the odds that it is reached, or the farthest focus; set-back ± is 95 %\n"
         "area      of the picture, against that of the old gate\n"
         "corner    stops that the picture's corner loses\n" +
         (match.currency.empty()
              ? std::string()
              : padded(match.currency, -10) + "for a picture, by your prices\n") +
         "Taken for want of a plan: sharp to 1/1500 of the diagonal; a back printed with a nozzle "
         "of\n"
         "0.4 mm, an insert with its rails in the old film plane, both true to 0.1 mm.\n";
}

std::string match_json(const Match& match) {
  Json j{{"schema", "backfit.match/1"},
         {"camera", *match.camera.name},
         {"f_number", match.aperture.value},
         {"currency", match.currency.empty() ? Json(nullptr) : Json(match.currency)},
         {"rows", Json::array()}};
  for (const MatchRow& row : match.rows) j["rows"].push_back(json_of(row));
  return j.dump(2) + "\n";
}

}  // namespace backfit

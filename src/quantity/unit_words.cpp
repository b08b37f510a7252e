// SPDX-License-Identifier: MIT
#include "quantity/unit_words.hpp"

#include <algorithm>
#include <utility>
#include <vector>

namespace backfit {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

// Whether two words may be one unit with two prefixes, or one with and one without.
bool may_differ_by_prefix(std::string_view a, std::string_view b) {
  const auto stem = [](std::string_view word) {
    const bool prefixed =
        word.size() > 1 && std::string_view("GMkhdcmunp").find(word.front()) != std::string::npos;
    return prefixed ? word.substr(1) : word;
  };
  return stem(a) == stem(b) || a.substr(1) == b || a == stem(b);
}

constexpr std::pair<std::string_view, std::string_view> lookalikes[] = {
    {"−", "-"},   {"–", "-"},      {"⁄", "/"},      {"∕", "/"},      {"½", "1/2"},
    {"¼", "1/4"}, {"¾", "3/4"},    {"⅛", "1/8"},    {"⅜", "3/8"},    {"⅝", "5/8"},
    {"⅞", "7/8"}, {"″", "\""},     {"”", "\""},     {"\u03BC", "µ"}, {"\u2126", "Ω"},
    {"º", "°"},   {"\u00A0", " "}, {"\u2007", " "}, {"\u2009", " "}, {"\u202F", " "}};

}  // namespace

std::string with_article(std::string_view noun) {
  const bool vowel = std::string_view("aeiou").find(noun.front()) != std::string_view::npos;
  return (vowel || noun.starts_with("f-") ? "an " : "a ") + std::string(noun);
}

const UnitName* unit_named(const QuantityKind& kind, std::string_view word) {
  const auto it = std::ranges::find(kind.units, word, &UnitName::spelling);
  return it == kind.units.end() ? nullptr : &*it;
}

std::string unit_list(const QuantityKind& kind) {
  std::string list;
  for (const UnitName& u : kind.units) {
    list += (list.empty() ? "" : ", ") + std::string(u.spelling);
  }
  return list;
}

std::string_view nearest_unit(const QuantityKind& kind, std::string_view word) {
  if (word.size() < 2) return {};
  std::vector<std::string_view> names;
  for (const UnitName& u : kind.units) {
    if (may_differ_by_prefix(word, u.spelling)) return {};
    names.push_back(u.spelling);
  }
  return nearest_name(word, names);
}

std::string with_points(std::string_view text) {
  std::string out(text);
  for (std::size_t i = 1; i + 1 < out.size(); ++i) {
    if (out[i] == ',' && is_digit(out[i - 1]) && is_digit(out[i + 1])) out[i] = '.';
  }
  return out;
}

std::string flipped_fraction(std::string_view fraction) {
  const std::size_t slash = fraction.find('/');
  const std::string_view top = fraction.substr(0, slash);
  for (const std::string_view of_a_rule : {"2", "4", "8", "16", "32", "64"}) {
    if (top == of_a_rule) return std::string(fraction.substr(slash + 1)) + "/" + std::string(top);
  }
  return {};
}

PlainSigns with_plain_signs(std::string_view text) {
  PlainSigns result;
  std::size_t i = 0;
  while (i < text.size()) {
    const auto* const it = std::ranges::find_if(
        lookalikes, [&](const auto& pair) { return text.substr(i).starts_with(pair.first); });
    if (it == std::end(lookalikes)) {
      result.text += text[i++];
      continue;
    }
    // "2¼" is two and a quarter, not twenty-one quarters.
    const bool after_digit = !result.text.empty() && is_digit(result.text.back());
    if (after_digit && is_digit(it->second.front())) result.text += ' ';
    if (result.length == 0) {
      result.begin = i;
      result.length = it->first.size();
      result.plain = it->second;
    }
    result.text += it->second;
    i += it->first.size();
  }
  return result;
}

}  // namespace backfit

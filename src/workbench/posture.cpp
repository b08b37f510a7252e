// SPDX-License-Identifier: MIT
#include "workbench/posture.hpp"

#include <algorithm>
#include <string>

namespace backfit {
namespace {

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

bool same_word(std::string_view a, std::string_view b) {
  return std::ranges::equal(a, b, {}, lower, lower);
}

std::vector<std::string_view> all_of(const RequestHead& head, std::string_view name) {
  std::vector<std::string_view> values;
  for (const auto& [field, value] : head.fields) {
    if (same_word(field, name)) values.push_back(value);
  }
  return values;
}

bool is_ours(std::string_view host, std::uint16_t port) {
  const std::string end = ":" + std::to_string(port);
  return host == "127.0.0.1" + end || host == "localhost" + end || host == "[::1]" + end;
}

// Takes as long for every guess of the right length.
bool is_token(std::string_view guess, std::string_view token) {
  if (guess.size() != token.size() || token.empty()) return false;
  unsigned difference = 0;
  for (std::size_t i = 0; i < token.size(); ++i) {
    difference |= static_cast<unsigned char>(guess[i]) ^ static_cast<unsigned char>(token[i]);
  }
  return difference == 0;
}

bool is_json(std::string_view type) {
  type = type.substr(0, type.find(';'));
  while (type.ends_with(' ') || type.ends_with('\t')) type.remove_suffix(1);
  return same_word(type, "application/json");
}

}  // namespace

std::optional<Refusal> refusal(const RequestHead& head, const OwnAddress& own) {
  std::size_t size = 0;
  for (const auto& [name, value] : head.fields) size += name.size() + value.size();
  if (size > largest_head) return Refusal{431, "head_too_large"};

  const auto hosts = all_of(head, "Host");
  if (hosts.size() != 1 || !is_ours(hosts.front(), own.port)) return Refusal{403, "bad_host"};

  const std::string origin = "http://" + std::string(hosts.front());
  for (const std::string_view sent : all_of(head, "Origin")) {
    if (sent != origin) return Refusal{403, "bad_origin"};
  }

  const bool api = head.target.starts_with("/api/");
  for (const std::string_view site : all_of(head, "Sec-Fetch-Site")) {
    if (site != "same-origin" && (api || site != "none")) return Refusal{403, "bad_site"};
  }

  const bool post = head.method == "POST";
  if (head.method != "GET" && !(api && post)) return Refusal{405, "bad_method"};
  if (constexpr std::string_view made = "/made/"; head.target.starts_with(made)) {
    const std::string_view rest = head.target.substr(made.size());
    if (!is_token(rest.substr(0, rest.find('/')), own.made)) return Refusal{403, "bad_token"};
  }
  if (!api) return {};

  const auto tokens = all_of(head, "X-Backfit-Token");
  if (tokens.size() != 1 || !is_token(tokens.front(), own.token)) return Refusal{403, "bad_token"};
  const auto types = all_of(head, "Content-Type");
  if (post && (types.size() != 1 || !is_json(types.front()))) return Refusal{415, "bad_type"};
  return {};
}

}  // namespace backfit

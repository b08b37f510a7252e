// SPDX-License-Identifier: MIT
// Which requests the workbench answers at all: those of its own page, and no others.
#pragma once
#include <cstdint>
#include <optional>
#include <string_view>
#include <utility>
#include <vector>

namespace backfit {

// The head of a request as it came: field names in any case, one entry for each line.
struct RequestHead {
  std::string_view method, target;
  std::vector<std::pair<std::string_view, std::string_view>> fields;
};

// What only this run of the program knows.
struct OwnAddress {
  std::uint16_t port = 0;
  std::string_view token;
  std::string_view made;  // stands in the address of each result
};

struct Refusal {
  int status = 403;
  std::string_view code;  // one word for the page
};

inline constexpr std::size_t largest_head = 16UL * 1024;  // bytes, names and values together

// Why a request must be refused; empty for one to answer. In this order:
// - the fields hold more than `largest_head`;
// - not exactly one Host, or another than 127.0.0.1, localhost or [::1] with our port: a foreign
//   name that resolves to this machine sends no other sign (DNS rebinding);
// - an Origin that is not http:// and that Host;
// - a Sec-Fetch-Site other than same-origin; a page may also come from the address bar ("none").
//   Another port of this machine counts as same-site and is refused;
// - a result's address, below /made/, without our `made`: a link can't bear a token, and another
//   user of this machine could ask for it;
// - another method than GET for pages, GET or POST below /api/;
// - below /api/ a token (X-Backfit-Token) that isn't ours, and a POST that isn't application/json,
//   which no form and no simple request of a foreign page can send.
std::optional<Refusal> refusal(const RequestHead& head, const OwnAddress& own);

}  // namespace backfit

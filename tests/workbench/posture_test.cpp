// SPDX-License-Identifier: MIT
// Law: only the workbench's own page is answered.
#include "workbench/posture.hpp"

#include <gtest/gtest.h>

#include <string>

namespace backfit {
namespace {

constexpr OwnAddress own{4711, "0123456789abcdef", "fedcba9876543210"};

RequestHead page() { return {"GET", "/", {{"Host", "127.0.0.1:4711"}}}; }
RequestHead call() {
  return {"POST",
          "/api/study",
          {{"Host", "127.0.0.1:4711"},
           {"Origin", "http://127.0.0.1:4711"},
           {"Sec-Fetch-Site", "same-origin"},
           {"Content-Type", "application/json"},
           {"X-Backfit-Token", "0123456789abcdef"}}};
}
RequestHead with(RequestHead head, std::string_view name, std::string_view value) {
  std::erase_if(head.fields, [&](const auto& f) { return f.first == name; });
  head.fields.emplace_back(name, value);
  return head;
}
RequestHead without(RequestHead head, std::string_view name) {
  std::erase_if(head.fields, [&](const auto& f) { return f.first == name; });
  return head;
}
std::string code(const RequestHead& head) {
  const auto why = refusal(head, own);
  return why ? std::to_string(why->status) + " " + std::string(why->code) : "";
}

TEST(Posture, AnswersItsOwnPage) {
  EXPECT_EQ(code(page()), "");
  EXPECT_EQ(code(with(page(), "Sec-Fetch-Site", "none")), "");
  EXPECT_EQ(code(with(page(), "Host", "localhost:4711")), "");
  EXPECT_EQ(code(with(page(), "Host", "[::1]:4711")), "");
  EXPECT_EQ(code(call()), "");
  EXPECT_EQ(code(with(call(), "Content-Type", "Application/JSON; charset=utf-8")), "");
  EXPECT_EQ(code(without(without(call(), "Origin"), "Sec-Fetch-Site")), "");
}

TEST(Posture, RefusesAForeignHost) {
  EXPECT_EQ(code(with(page(), "Host", "evil.example")), "403 bad_host");
  EXPECT_EQ(code(with(page(), "Host", "127.0.0.1")), "403 bad_host");
  EXPECT_EQ(code(with(page(), "Host", "127.0.0.1:4712")), "403 bad_host");
  EXPECT_EQ(code(with(page(), "Host", "127.0.0.1:4711.evil.example")), "403 bad_host");
  EXPECT_EQ(code(without(page(), "Host")), "403 bad_host");
  RequestHead two = page();
  two.fields.emplace_back("host", "127.0.0.1:4711");
  EXPECT_EQ(code(two), "403 bad_host");
}

TEST(Posture, RefusesAForeignOrigin) {
  EXPECT_EQ(code(with(call(), "Origin", "http://evil.example")), "403 bad_origin");
  EXPECT_EQ(code(with(call(), "Origin", "http://127.0.0.1:4712")), "403 bad_origin");
  EXPECT_EQ(code(with(call(), "Origin", "https://127.0.0.1:4711")), "403 bad_origin");
  EXPECT_EQ(code(with(call(), "Origin", "null")), "403 bad_origin");
  // The other spelling of this machine is another origin.
  EXPECT_EQ(code(with(call(), "Origin", "http://localhost:4711")), "403 bad_origin");
}

TEST(Posture, RefusesWhatABrowserSendsForAnotherSite) {
  EXPECT_EQ(code(with(page(), "Sec-Fetch-Site", "cross-site")), "403 bad_site");
  EXPECT_EQ(code(with(page(), "Sec-Fetch-Site", "same-site")), "403 bad_site");
  EXPECT_EQ(code(with(call(), "Sec-Fetch-Site", "none")), "403 bad_site");
}

TEST(Posture, RefusesOtherMethods) {
  RequestHead head = page();
  for (const char* method : {"POST", "PUT", "DELETE", "OPTIONS", "HEAD", "TRACE"}) {
    head.method = method;
    EXPECT_EQ(code(head), "405 bad_method") << method;
  }
  head = call();
  head.method = "OPTIONS";
  EXPECT_EQ(code(head), "405 bad_method");
}

TEST(Posture, AsksForItsTokenBelowApi) {
  EXPECT_EQ(code(without(call(), "X-Backfit-Token")), "403 bad_token");
  EXPECT_EQ(code(with(call(), "X-Backfit-Token", "")), "403 bad_token");
  EXPECT_EQ(code(with(call(), "X-Backfit-Token", "0123456789abcdeF")), "403 bad_token");
  EXPECT_EQ(code(with(call(), "X-Backfit-Token", "0123456789abcdef0")), "403 bad_token");
  RequestHead two = call();
  two.fields.emplace_back("x-backfit-token", "0123456789abcdef");
  EXPECT_EQ(code(two), "403 bad_token");
  // A program that forgot to make one answers nobody.
  EXPECT_TRUE(refusal(with(call(), "X-Backfit-Token", ""), {4711, "", ""}));
}

TEST(Posture, GivesResultsToWhoKnowsTheirAddress) {
  const auto result = [](std::string_view target, std::string_view site = "same-origin") {
    RequestHead head = with(page(), "Sec-Fetch-Site", site);
    head.target = target;
    return code(head);
  };
  EXPECT_EQ(result("/made/fedcba9876543210/build-sheet.pdf"), "");
  EXPECT_EQ(result("/made/fedcba9876543210/build-sheet.pdf", "none"), "");
  EXPECT_EQ(result("/made/fedcba9876543210/build-sheet.pdf", "cross-site"), "403 bad_site");
  EXPECT_EQ(result("/made/0123456789abcdef/build-sheet.pdf"), "403 bad_token");
  EXPECT_EQ(result("/made/build-sheet.pdf"), "403 bad_token");
  EXPECT_EQ(result("/made//build-sheet.pdf"), "403 bad_token");
  RequestHead post = page();
  post.method = "POST";
  post.target = "/made/fedcba9876543210/build-sheet.pdf";
  EXPECT_EQ(code(post), "405 bad_method");
  RequestHead nobody = page();
  nobody.target = "/made//x";
  EXPECT_TRUE(refusal(nobody, {4711, "0123456789abcdef", ""}));
}

TEST(Posture, TakesJsonAlone) {
  EXPECT_EQ(code(with(call(), "Content-Type", "text/plain")), "415 bad_type");
  EXPECT_EQ(code(with(call(), "Content-Type", "application/json5")), "415 bad_type");
  EXPECT_EQ(code(without(call(), "Content-Type")), "415 bad_type");
}

TEST(Posture, BoundsTheHead) {
  const std::string long_value(largest_head, 'x');
  EXPECT_EQ(code(with(page(), "X", long_value)), "431 head_too_large");
  RequestHead many = page();
  for (int i = 0; i < 4000; ++i) many.fields.emplace_back("abc", "def");
  EXPECT_EQ(code(many), "431 head_too_large");
}

}  // namespace
}  // namespace backfit

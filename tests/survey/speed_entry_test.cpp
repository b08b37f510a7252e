// SPDX-License-Identifier: MIT
#include "survey/speed_entry.hpp"

#include <gmock/gmock.h>

#include <fstream>
#include <iterator>

#include "files/reader.hpp"

namespace backfit {
namespace {

std::string heron(const std::string& shutter) {
  std::ifstream in(std::string(BACKFIT_SOURCE_DIR) + "/examples/heron/heron.camera.toml");
  std::string text{std::istreambuf_iterator<char>(in), {}};
  const std::string old =
      "[shutter]\ntiming = \"mechanical\"\nmarked_speeds = [\"1/25 s\", \"1/50 s\", \"1/100 s\"]\n"
      "sync = \"none\"\n";
  const std::size_t at = text.find(old);
  EXPECT_NE(at, std::string::npos);
  return text.replace(at, old.size(), shutter);
}

const SpeedEntry entry{second / 50.0, "1/50 s", "21.4 ms ± 0.6"};
std::string why;

// `text` with the entry; empty when it is refused.
std::string entered(const std::string& text) {
  const auto source = std::make_shared<const SourceText>("heron.camera.toml", text);
  Diagnostics diagnostics;
  const auto camera = read_record<Camera>(source, diagnostics);
  EXPECT_TRUE(camera) << rendered(diagnostics.list().front());
  return camera ? with_speed(source, *camera, entry, why).value_or("") : "";
}

const std::string keys = "timing = \"mechanical\"\nsync = \"none\"  # by its owner\n";
const std::string added =
    "\n[[shutter.measured]]\nmarked = \"1/50 s\"\neffective = \"21.4 ms ± 0.6\"\n";

// Law: the entry stands where it belongs, and every other byte is as it was.
TEST(WithSpeed, AddsATableBehindTheShuttersKeys) {
  EXPECT_EQ(entered(heron("[shutter]\n" + keys)), heron("[shutter]\n" + keys + added));
  // Comments before the next table stay with it.
  EXPECT_EQ(entered(heron("[shutter] # hm\n" + keys + "\n# openings\n")),
            heron("[shutter] # hm\n" + keys + added + "\n# openings\n"));
}

TEST(WithSpeed, AddsBehindThoseThatAreThere) {
  const std::string there =
      "\n[[shutter.measured]]\nmarked = \"1/100 s\"\neffective = \"12 ms\"  # once\n";
  EXPECT_EQ(entered(heron("[shutter]\n" + keys + there)),
            heron("[shutter]\n" + keys + there + added));
  const std::string braces = "measured = [{ marked = \"1/100 s\", effective = \"12 ms\" }]\n";
  EXPECT_EQ(entered(heron("[shutter]\n" + keys + braces)),
            heron("[shutter]\n" + keys +
                  "measured = [{ marked = \"1/100 s\", effective = \"12 ms\" }, { marked = "
                  "\"1/50 s\", effective = \"21.4 ms ± 0.6\" }]\n"));
}

TEST(WithSpeed, ReplacesTheValueOfTheSameSpeed) {
  const auto with = [](const char* value) {
    return heron("[shutter]\n" + keys + "[[shutter.measured]]\neffective = " + value +
                 " # µ, last year\nmarked = '1/50 s'\n");
  };
  EXPECT_EQ(entered(with("\"20 ms ± 2\"")), with("\"21.4 ms ± 0.6\""));
  EXPECT_EQ(entered(with("'20 ms'")), with("\"21.4 ms ± 0.6\""));
}

TEST(WithSpeed, KeepsLineEnds) {
  std::string old = heron("[shutter]\n" + keys), now = heron("[shutter]\n" + keys + added);
  for (std::string* text : {&old, &now}) {
    for (std::size_t at = 0; (at = text->find('\n', at)) != std::string::npos; at += 2) {
      text->insert(at, "\r");
    }
  }
  EXPECT_EQ(entered(old), now);
}

// A file whose last line has no end.
TEST(WithSpeed, EndsTheFileWell) {
  std::string text = heron("") + "[shutter]\n" + keys;
  text.pop_back();
  EXPECT_EQ(entered(text), heron("") + "[shutter]\n" + keys + added);
}

TEST(WithSpeed, RefusesATextWithoutAPlace) {
  const std::string inline_table = "shutter = { timing = \"mechanical\" }\n";
  std::string text = heron("");
  text.insert(text.find("name = "), inline_table);
  EXPECT_EQ(entered(text), "");
  EXPECT_EQ(why, "the file has no table [shutter] that a measured speed could be added to");
  text.replace(text.find(inline_table), inline_table.size(), "shutter.timing = \"mechanical\"\n");
  EXPECT_EQ(entered(text), "");
}

}  // namespace
}  // namespace backfit

// SPDX-License-Identifier: MIT
// Law: what takes long is told as it goes on and answered once; results are made where it was said.
#include "workbench/errand.hpp"

#include <gmock/gmock.h>

#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <sstream>

namespace backfit {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;
using testing::HasSubstr;

const fs::path source = BACKFIT_SOURCE_DIR;

std::string text_of(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

// The names of events with their data, in order.
std::vector<std::pair<std::string, json>> events_in(const std::string& text) {
  std::vector<std::pair<std::string, json>> list;
  std::istringstream lines(text);
  std::string name, data;
  for (std::string line; std::getline(lines, line);) {
    if (line.starts_with("event: ")) name = line.substr(7);
    if (line.starts_with("data: ")) data += line.substr(6) + "\n";
    if (line.empty()) {
      list.emplace_back(name, json::parse(data));
      data.clear();
    }
  }
  return list;
}

struct Kestrel {
  fs::path conversion = source / "examples/kestrel/kestrel-4x5.conversion.toml";
  fs::path camera = source / "examples/kestrel/kestrel.camera.toml";
  json question{{"conversion", text_of(conversion)}, {"camera", text_of(camera)}};
  Maker make = [](const MakeOrder&, std::ostream&, std::ostream&, const Progress&) { return 2; };

  std::vector<std::pair<std::string, json>> answers(const std::string& path) const {
    std::istringstream in(errand_heading(camera) + question.dump());
    std::ostringstream out;
    EXPECT_EQ(run_errand({conversion, "some-folder", source / "data", make}, path, in, out), 0);
    return events_in(out.str());
  }
};

TEST(Errand, AnswersWhatWasAskedOfTheTextsSent) {
  Kestrel k;
  std::string camera = k.question["camera"];
  const std::string name = "name = \"Kestrel\"";
  ASSERT_NE(camera.find(name), std::string::npos);
  const auto events = k.answers("/api/parts");
  ASSERT_FALSE(events.empty());
  EXPECT_EQ(events.back().first, "answer");
  EXPECT_EQ(events.back().second["parts"]["pieces"][0]["name"], "back plate");
  // A mistake in the text sent, which isn't on any disk.
  k.question["camera"] = camera.replace(camera.find(name), name.size(), "name = 1");
  EXPECT_TRUE(k.answers("/api/parts").back().second["parts"].is_null());
}

TEST(Errand, MakesWhatIsSavedInItsFolderAndTellsTheStages) {
  Kestrel k;
  MakeOrder order;
  k.make = [&](const MakeOrder& o, std::ostream& out, std::ostream& err, const Progress& tell) {
    order = o;
    tell("drawing", 0);
    tell("writing", 0.5);
    out << "{\"schema\": \"x\"}\n";
    err << "a note\n";
    return 0;
  };
  k.question["despite_blockers"] = true;
  const auto events = k.answers("/api/make");
  ASSERT_EQ(events.size(), 3);
  EXPECT_EQ(events[0].second["stage"], "drawing");
  EXPECT_EQ(events[1].second["done"], 0.5);
  EXPECT_EQ(events[2].second["status"], 0);
  EXPECT_EQ(events[2].second["told"], "a note\n");
  EXPECT_EQ(order.conversion, k.conversion);
  EXPECT_EQ(order.folder, "some-folder");
  EXPECT_TRUE(order.despite_blockers);
}

TEST(Errand, MakesNothingOfATextThatIsNotSaved) {
  Kestrel k;
  bool asked = false;
  k.make = [&](const MakeOrder&, std::ostream&, std::ostream&, const Progress&) {
    asked = true;
    return 0;
  };
  k.question["conversion"] = std::string(k.question["conversion"]) + "# more\n";
  const auto events = k.answers("/api/make");
  EXPECT_FALSE(asked);
  EXPECT_EQ(events.back().second["status"], 2);
  EXPECT_THAT(std::string(events.back().second["told"]), HasSubstr("save them first"));
}

// A failure of the maker's is told, and no more.
TEST(Errand, TellsWhatTheMakerFailedBy) {
  Kestrel k;
  k.make = [](const MakeOrder&, std::ostream&, std::ostream&, const Progress&) -> int {
    throw std::runtime_error("the disk is full");
  };
  EXPECT_EQ(k.answers("/api/make").back().second["told"], "the disk is full\n");
}

// Truth: base64 of "RIFF" is UklGRg== (RFC 4648, section 4, worked by hand).
TEST(Errand, ReadsRecordingsOutOfBase64) {
  Kestrel k;
  k.question["name"] = "shots.wav";
  k.question["bytes"] = "UklGRg==";
  EXPECT_THAT(k.answers("/api/trace").back().second["messages"].dump(),
              HasSubstr("'shots.wav' is no sound file"));
  k.question["bytes"] = "U*klGRg==";
  EXPECT_THAT(k.answers("/api/trace").back().second["messages"].dump(),
              HasSubstr("did not arrive whole"));
  k.question["marked"] = "1/60";
  EXPECT_THAT(k.answers("/api/trace").back().second["messages"].dump(), HasSubstr("marked speeds"));
}

TEST(ResultFolder, LiesBesideTheConversionUnlessItIsNamed) {
  EXPECT_EQ(result_folder({"a/kestrel-4x5.conversion.toml", "", "", {}}), "a/kestrel-4x5-made");
  EXPECT_EQ(result_folder({"plan.toml", "", "", {}}), "plan-made");
  EXPECT_EQ(result_folder({"odd", "", "", {}}), "odd-made");
  EXPECT_EQ(result_folder({"a/b.toml", "there", "", {}}), "there");
}

}  // namespace
}  // namespace backfit

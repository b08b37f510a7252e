// SPDX-License-Identifier: MIT
#include "conversion/trace_study.hpp"

#include <gmock/gmock.h>

#include <cmath>
#include <fstream>
#include <iterator>
#include <numbers>

#include "conversion/exposure_study.hpp"
#include "conversion/trace_saving.hpp"
#include "kestrel.hpp"

namespace backfit {
namespace {

using testing::HasSubstr;

const std::string root = BACKFIT_SOURCE_DIR;

std::optional<TraceStudy> traced(const std::string& file, const TraceQuestions& q,
                                 Diagnostics& diagnostics) {
  const auto recording = read_recording(root + "/examples/" + file, {}, diagnostics);
  EXPECT_TRUE(recording);
  return recording ? study_trace(*recording, q, diagnostics) : std::nullopt;
}

// The demo's recording: at each of three marks two shots, 22, 31 and 42 % longer than marked, and
// 1.8 ms more, with edges of 2.4 and 3.1 ms and a power of 1.7; scatter 1.2 %. All invented.
// Truth: effective = total - (2.4 + 3.1) 1.7 / 2.7 ms.
TEST(StudyTrace, FindsTheSpeedsBehindTheDemosRecording) {
  Diagnostics diagnostics;
  const auto s =
      traced("heron/heron-shutter.wav",
             {false, {second / 25.0, second / 50.0, second / 100.0}, {}, {}}, diagnostics);
  ASSERT_TRUE(s);
  ASSERT_EQ(s->shots.size(), 6U);
  ASSERT_EQ(s->speeds.size(), 3U);
  const double marked[] = {25, 50, 100}, slow[] = {1.22, 1.31, 1.42};
  for (std::size_t i = 0; i < 3; ++i) {
    const double truth_ms = 1000 * slow[i] / marked[i] + 1.8 - 5.5 * 1.7 / 2.7;
    const SpeedSummary& v = s->speeds[i];
    EXPECT_TRUE(v.effective);
    EXPECT_EQ(v.shots, 2U);
    EXPECT_NEAR(v.mean / ms, truth_ms, 0.03 * truth_ms) << i;  // the scatter of two
    EXPECT_NEAR(v.reading.value / ms, truth_ms, v.reading.half_width / ms + 0.03 * truth_ms);
    EXPECT_EQ(*v.marked, second / marked[i]);
  }
}

// Law: the deviation is that of the effective time from what the mark means, 1/50 s from 2^(-17/3)
// s.
TEST(StudyTrace, ComparesWithWhatTheMarkMeans) {
  Diagnostics diagnostics;
  const auto s = traced("heron/heron-shutter.wav", {false, {second / 50.0}, {}, {}}, diagnostics);
  ASSERT_TRUE(s);
  ASSERT_EQ(s->speeds.size(), 1U);
  const TracedShot& shot = s->shots[2];
  const double t = shot.light->effective->value / second;
  EXPECT_NEAR(shot.deviation->value, std::log2(t) + 17.0 / 3, 1e-9);
  EXPECT_NEAR(shot.deviation_u->value,
              shot.light->effective->standard_uncertainty / second / t / std::numbers::ln2, 1e-12);
}

TEST(StudyTrace, SharesMarksOutEvenlyOrNotAtAll) {
  Diagnostics diagnostics;
  EXPECT_FALSE(traced("heron/heron-shutter.wav", {false, {4 * ms, 5 * ms, 6 * ms, 7 * ms}, {}, {}},
                      diagnostics));
  EXPECT_THAT(rendered(diagnostics.list().back()),
              HasSubstr("6 shots can't be shared evenly among 4 marks"));
}

// A shot of Bittern's: an oscilloscope's table, total 38.8 ms, edges of 4.2 and 4.7 ms that follow
// no power but 1; invented.
TEST(StudyTrace, ReadsAnOscilloscopesTable) {
  Diagnostics diagnostics;
  const auto s =
      traced("bittern/bittern-shutter.csv", {false, {second / 30.0}, {}, {}}, diagnostics);
  ASSERT_TRUE(s);
  ASSERT_EQ(s->shots.size(), 1U);
  const TimedShot& t = *s->shots[0].light;
  const auto near = [](const Estimate<Time>& e, double truth_ms) {
    EXPECT_NEAR(e.value / ms, truth_ms, 3 * (e.standard_uncertainty / ms));
  };
  near(t.total, 38.8);
  near(t.half, 38.8 - 4.45);
  near(*t.effective, 38.8 - 4.45);
}

// The whole loop: a card goes by the marks; a recording is saved; now it goes by the recording.
TEST(WithSpeeds, MakesTheExposureCardUseTheRecording) {
  Diagnostics diagnostics;
  const auto s =
      traced("heron/heron-shutter.wav",
             {false, {second / 25.0, second / 50.0, second / 100.0}, {}, {}}, diagnostics);
  ASSERT_TRUE(s);
  const auto part = [](const std::string& name, std::string_view from, std::string_view to) {
    std::ifstream in(root + "/examples/kestrel/" + name);
    const std::string text{std::istreambuf_iterator<char>(in), {}};
    const std::size_t begin = text.find(from);
    return text.substr(begin, text.find(to, begin) - begin);
  };
  // The demo's camera with a plain shutter in place of its timer.
  const std::string shutter =
      "[shutter]\ntiming = \"mechanical\"\nmarked_speeds = [\"1/25 s\", \"1/50 s\", \"1/100 s\"]\n"
      "sync = \"X\"\n";
  Edits edits{{"[shutter]\ntiming = \"photocell\"\nsync = \"X\"\n", shutter},
              {part("kestrel.camera.toml", "[shutter.timer]", "[[accessories]]"), ""},
              {part("kestrel-4x5.conversion.toml", "[timer]", "[exposure]"), ""}};
  const Kestrel before(edits);
  for (const Diagnostic& d : before.diagnostics.list()) {
    if (d.severity == Severity::error) ADD_FAILURE() << rendered(d);
  }
  ASSERT_TRUE(before.report);
  const ShutterSpeeds marks = speeds_of(*before.report);
  EXPECT_EQ(marks.by, SpeedsBy::marks);

  const auto path = before.report->assembly.camera.name.place.source->path();
  std::ifstream file(path);
  const std::string old{std::istreambuf_iterator<char>(file), {}};
  const auto saved = with_speeds(path, *s, diagnostics);
  ASSERT_TRUE(saved) << rendered(diagnostics.list().back());
  EXPECT_FALSE(saved->timer_goes_before);
  ASSERT_EQ(saved->lines.size(), 3U);
  // Nothing but an addition: the old text stands around it.
  const std::size_t at = saved->text.find("\n[[shutter.measured]]");
  const std::size_t more = saved->text.size() - old.size();
  EXPECT_EQ(saved->text.substr(0, at) + saved->text.substr(at + more), old);

  edits[0].second = shutter + saved->text.substr(at, more);
  const Kestrel after(edits);
  ASSERT_TRUE(after.report) << rendered(after.diagnostics.list().back());
  const ShutterSpeeds measured = speeds_of(*after.report);
  EXPECT_EQ(measured.by, SpeedsBy::recordings);
  ASSERT_EQ(measured.list.size(), 3U);
  for (const ShutterSpeed& speed : measured.list) {
    const auto v = std::ranges::find_if(s->speeds, [&](const SpeedSummary& x) {
      return std::abs(*x.marked / speed.marked - 1) < 1e-9;
    });
    ASSERT_NE(v, s->speeds.end());
    EXPECT_NEAR(speed.gives / ms, v->mean / ms, 0.02 * (v->mean / ms));
    EXPECT_NEAR(speed.standard_uncertainty.value,
                v->reading.half_width / v->mean / std::numbers::sqrt3 / std::numbers::ln2, 0.003);
    EXPECT_GT(speed.gives, 1.15 * speed.marked);
  }
  // A second save replaces, and adds nothing.
  std::ofstream(path) << saved->text;
  const auto again = with_speeds(path, *s, diagnostics);
  ASSERT_TRUE(again);
  EXPECT_EQ(again->text, saved->text);
}

TEST(WithSpeeds, RefusesWhatACameraFileCantHold) {
  Diagnostics diagnostics;
  const auto s = traced("heron/heron-shutter.wav", {}, diagnostics);
  ASSERT_TRUE(s);
  EXPECT_FALSE(with_speeds(root + "/examples/heron/heron.camera.toml", *s, diagnostics));
  EXPECT_THAT(rendered(diagnostics.list().back()),
              HasSubstr("nothing was saved: only a speed with its mark can be saved"));
}

}  // namespace
}  // namespace backfit

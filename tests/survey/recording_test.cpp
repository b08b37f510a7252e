// SPDX-License-Identifier: MIT
#include "survey/recording.hpp"

#include <gmock/gmock.h>

#include <bit>
#include <cmath>
#include <cstdint>
#include <fstream>
#include <iterator>
#include <limits>

namespace backfit {
namespace {

namespace fs = std::filesystem;
using testing::HasSubstr;

// A file in a folder of the test's own.
class RecordingFile : public testing::Test {
 protected:
  void SetUp() override {
    folder_ =
        fs::temp_directory_path() / (std::string("backfit-recording-") +
                                     testing::UnitTest::GetInstance()->current_test_info()->name());
    fs::create_directories(folder_);
  }
  void TearDown() override { fs::remove_all(folder_); }

  fs::path file(const std::string& bytes, const char* name = "recording") {
    std::ofstream(folder_ / name, std::ios::binary) << bytes;
    return folder_ / name;
  }
  std::optional<Recording> read(const std::string& bytes) {
    diagnostics = {};
    return read_recording(file(bytes), step, diagnostics);
  }
  // What is said of a file that can't be read.
  std::string complaint(const std::string& bytes) {
    EXPECT_FALSE(read(bytes));
    if (diagnostics.list().size() != 1) return std::to_string(diagnostics.list().size());
    return rendered(diagnostics.list().front());
  }

  fs::path folder_;
  std::optional<Time> step;
  Diagnostics diagnostics;
};

std::string little(std::uint64_t value, int bytes) {
  std::string text;
  for (int i = 0; i < bytes; ++i) text += static_cast<char>((value >> (8 * i)) & 0xFFU);
  return text;
}

struct Wav {
  unsigned format = 1, channels = 1, rate = 44100, bits = 16;
  std::string data;
  std::uint64_t claimed = 0;  // size of the data in the head; 0: as it is

  std::string bytes() const {
    const std::uint64_t size = claimed != 0 ? claimed : data.size();
    const unsigned frame = channels * bits / 8;
    return "RIFF" + little(36 + size, 4) + "WAVEfmt " + little(16, 4) + little(format, 2) +
           little(channels, 2) + little(rate, 4) + little(std::uint64_t{rate} * frame, 4) +
           little(frame, 2) + little(bits, 2) + "data" + little(size, 4) + data;
  }
};

// A ramp of `count` samples from -1/2 to 1/2 of full scale in the format's own numbers.
std::string ramp(unsigned format, unsigned bits, int count) {
  std::string data;
  for (int i = 0; i < count; ++i) {
    const double x = double(i) / count - 0.5;
    if (format == 3 && bits == 32) {
      data += little(std::bit_cast<std::uint32_t>(static_cast<float>(x)), 4);
    } else if (format == 3) {
      data += little(std::bit_cast<std::uint64_t>(x), 8);
    } else if (bits == 8) {
      data += little(static_cast<std::uint64_t>(std::lround(x * 127) + 128), 1);
    } else {
      data += little(static_cast<std::uint64_t>(std::llround(std::ldexp(x, int(bits) - 1))),
                     int(bits) / 8);
    }
  }
  return data;
}

// Law: the same ramp comes out of every format that recorders write, at any rate.
TEST_F(RecordingFile, ReadsWavOfManyKinds) {
  for (const auto& [format, bits] :
       {std::pair(1U, 8U), {1U, 16U}, {1U, 24U}, {1U, 32U}, {3U, 32U}, {3U, 64U}}) {
    for (const unsigned rate : {8000U, 44100U, 192000U}) {
      const auto r = read(Wav{format, 1, rate, bits, ramp(format, bits, 400)}.bytes());
      ASSERT_TRUE(r) << bits;
      ASSERT_EQ(r->length(), 400U);
      EXPECT_NEAR(second / r->interval, rate, 1e-6);
      EXPECT_NEAR(r->channels[0][0], -0.5, 0.01);
      EXPECT_NEAR(r->channels[0][300], 0.25, 0.01);
      EXPECT_EQ(r->resolution, format == 3 ? 0 : std::ldexp(1.0, 1 - int(bits)));
      EXPECT_FALSE(r->clipped);
    }
  }
}

TEST_F(RecordingFile, PartsTheChannels) {
  std::string data;
  for (int i = 0; i < 100; ++i)
    data += little(1000, 2) + little(static_cast<std::uint64_t>(-2000), 2);
  const auto r = read(Wav{1, 2, 48000, 16, data}.bytes());
  ASSERT_TRUE(r);
  ASSERT_EQ(r->channels.size(), 2U);
  EXPECT_FLOAT_EQ(r->channels[0][50], 1000 / 32768.0F);
  EXPECT_FLOAT_EQ(r->channels[1][50], -2000 / 32768.0F);
  EXPECT_EQ(r->names[1], "right");
}

TEST_F(RecordingFile, NoticesAnOverdrivenInput) {
  std::string data;
  for (int i = 0; i < 100; ++i) data += little(i > 50 && i < 60 ? 32767 : 100, 2);
  EXPECT_TRUE(read(Wav{1, 1, 44100, 16, data}.bytes())->clipped);
  // Of floats full scale is no end.
  EXPECT_FALSE(read(Wav{3, 1, 44100, 32, ramp(3, 32, 400)}.bytes())->clipped);
}

// Law: however a sound file is broken, there is one message and no crash.
TEST_F(RecordingFile, RefusesBrokenWav) {
  const std::string good = Wav{1, 1, 44100, 16, ramp(1, 16, 400)}.bytes();
  EXPECT_THAT(complaint(good.substr(0, 30)), HasSubstr("is no sound file that can be read"));
  EXPECT_THAT(complaint("RIFF"), HasSubstr("is no sound file that can be read"));
  EXPECT_THAT(complaint(Wav{1, 0, 44100, 16, ramp(1, 16, 400)}.bytes()), HasSubstr("error: "));
  EXPECT_THAT(complaint(Wav{1, 1, 0, 16, ramp(1, 16, 400)}.bytes()), HasSubstr("error: "));
  EXPECT_THAT(complaint(Wav{1, 200, 44100, 16, ramp(1, 16, 40000)}.bytes()),
              HasSubstr("has 200 channels at 44100 Hz; 1 to 64 channels are taken"));
  EXPECT_THAT(complaint(Wav{1, 1, 44100, 16, ""}.bytes()), HasSubstr("0 samples"));
  std::string odd = ramp(3, 32, 400);
  odd.replace(400, 4, little(std::bit_cast<std::uint32_t>(std::nanf("")), 4));
  EXPECT_THAT(complaint(Wav{3, 1, 44100, 32, odd}.bytes()),
              HasSubstr("holds a sample that is no number, or too large a one, 0.002268 s from"));
  odd.replace(400, 4, little(std::bit_cast<std::uint32_t>(1e30F), 4));
  EXPECT_THAT(complaint(Wav{3, 1, 44100, 32, odd}.bytes()), HasSubstr("too large a one"));
  // Cut in the data, or a head that claims a gigabyte: what is there is read.
  for (const std::string& bytes :
       {good.substr(0, 500), Wav{1, 1, 44100, 16, ramp(1, 16, 400), 1'000'000'000}.bytes()}) {
    const auto r = read(bytes);
    ASSERT_TRUE(r);
    EXPECT_GT(r->length(), 200U);
    EXPECT_LE(r->length(), 400U);
  }
  // Any byte of the head changed to any of a few values.
  for (std::size_t i = 0; i < 44; ++i) {
    for (const char c : {'\0', '\1', '\x7F', '\x80', '\xFF'}) {
      std::string bytes = good;
      bytes[i] = c;
      const bool taken = read(bytes).has_value();
      EXPECT_EQ(taken, !diagnostics.has_errors());
    }
  }
}

TEST_F(RecordingFile, RefusesWhatIsNoRecording) {
  EXPECT_THAT(complaint(""), HasSubstr("is empty"));
  EXPECT_THAT(complaint(std::string(1000, '\0')),
              HasSubstr("is neither a sound file nor UTF-8 text"));
  EXPECT_THAT(complaint(std::string{'\xFF', '\xFE', '1', '\0', ',', '\0'}),
              HasSubstr("is neither a sound file nor UTF-8 text"));
  EXPECT_THAT(complaint("a letter to a friend\nwithout numbers\n"),
              HasSubstr("there is no table of numbers in this file"));
  EXPECT_FALSE(read_recording(folder_, {}, diagnostics));
  EXPECT_THAT(rendered(diagnostics.list().back()), HasSubstr("is a folder; a file is needed"));
  EXPECT_FALSE(read_recording(folder_ / "nothing", {}, diagnostics));
  EXPECT_THAT(rendered(diagnostics.list().back()), HasSubstr("there is no file"));
  step = 1 * us;
  EXPECT_THAT(complaint(Wav{1, 1, 44100, 16, ramp(1, 16, 400)}.bytes()),
              HasSubstr("is a sound file, which has times of its own"));
}

// Rows of time and value in a style; times in steps of 10 us as written by `time`.
std::string rows(const char* between, bool comma, double step = 1e-5, int count = 100) {
  std::string text;
  for (int i = 0; i < count; ++i) {
    std::string row = std::to_string(i * step) + between + std::to_string(0.25 * i) + "\n";
    if (comma) std::ranges::replace(row, '.', ',');
    text += row;
  }
  return text;
}

// Law: however columns part and decimals are written, the numbers are the same.
TEST_F(RecordingFile, ReadsTablesOfManyStyles) {
  const std::pair<const char*, std::string> tables[] = {
      {"commas", rows(",", false)},
      {"semicolons", "Time;Volt\n" + rows(";", false)},
      {"decimal commas", "Zeit;Spannung\n(s);(V)\n\n" + rows(";", true)},
      {"tabs", "time\tvolt\n" + rows("\t", false)},
      {"tabs and commas", rows("\t", true)},
      {"spaces", "# time volt\n" + rows("  ", false)},
      {"trailing", rows(",", false) + "0.001,25,\n"}};
  for (const auto& [name, text] : tables) {
    const auto r = read(text);
    ASSERT_TRUE(r) << name << rendered(diagnostics.list().front());
    EXPECT_NEAR(r->interval / us, 10, 1e-6) << name;
    EXPECT_FLOAT_EQ(r->channels[0][40], 10) << name;
    EXPECT_NEAR(r->resolution, 0.25, 1e-9) << name;
  }
}

TEST_F(RecordingFile, ReadsNamesAndUnits) {
  std::string text = "Time (ms),Sensor,Contact\r\n";
  for (int i = 0; i < 100; ++i) {
    text += std::to_string(0.02 * i) + "," + std::to_string(i) + ",-1e-3\r\n";
  }
  const auto r = read(text);
  ASSERT_TRUE(r);
  EXPECT_NEAR(r->interval / us, 20, 1e-9);
  ASSERT_EQ(r->channels.size(), 2U);
  EXPECT_EQ(r->names[0], "Sensor");
  EXPECT_FLOAT_EQ(r->channels[1][5], -1e-3F);
  // An oscilloscope's "µs" in Latin-1, in a row of units.
  const auto latin = read("Time;Channel A\n(\xB5s);(mV)\n" + rows(";", true, 2));
  ASSERT_TRUE(latin);
  EXPECT_NEAR(latin->interval / us, 2, 1e-9);
  EXPECT_EQ(latin->names[0], "Channel A");
}

TEST_F(RecordingFile, TakesOneColumnWithAStep) {
  std::string text;
  for (int i = 0; i < 100; ++i) text += std::to_string(i % 7) + ",5\n";
  std::ranges::replace(text, ',', '.');
  EXPECT_THAT(complaint(text), HasSubstr("the table has one column, and no times"));
  step = 20 * us;
  const auto r = read(text);
  ASSERT_TRUE(r);
  EXPECT_EQ(r->interval, 20 * us);
  EXPECT_FLOAT_EQ(r->channels[0][3], 3.5);
  EXPECT_THAT(complaint(rows(",", false)), HasSubstr("the table has times of its own"));
}

// Law: a fault is told at its line and column.
TEST_F(RecordingFile, PointsAtFaultsInTables) {
  const auto with = [](int row, const std::string& text) {
    std::string all = "t,v\n";
    for (int i = 0; i < 100; ++i) {
      all += i == row ? text + "\n" : std::to_string(1e-5 * i) + ",1\n";
    }
    return all;
  };
  EXPECT_THAT(complaint(with(9, "0.00009,high")),
              HasSubstr("recording:11:9: error: 'high' is not a number"));
  EXPECT_THAT(complaint(with(9, "0.00009,nan")),
              HasSubstr("11:9: error: 'nan' is no finite number"));
  EXPECT_THAT(complaint(with(9, "0.00009,1e999")), HasSubstr("'1e999' is no finite number"));
  EXPECT_THAT(complaint(with(9, "0.00009,")),
              HasSubstr("1 cell in this row; the table has 2 columns"));
  EXPECT_THAT(complaint(with(9, "0.00009,1,2")), HasSubstr("3 cells in this row"));
  EXPECT_THAT(complaint(with(9, "0.00099,1")),
              HasSubstr("11:1: error: the times don't rise evenly"));
  EXPECT_THAT(complaint("t,v\n0,1\n1,1\n"),
              HasSubstr("2 rows of numbers; a shot needs 64 or more"));
  std::string still;
  for (int i = 0; i < 100; ++i) still += "5,1\n";
  EXPECT_THAT(complaint(still), HasSubstr("the times of the first column don't rise"));
  // Many faults: not a thousand messages.
  EXPECT_FALSE(read("1,2\n1,2\n" + [] {
    std::string text;
    for (int i = 0; i < 1000; ++i) text += "x,y\n";
    return text;
  }()));
  EXPECT_LE(diagnostics.list().size(), 25U);
}

// Law: bytes that came another way than by a file read as the file does.
TEST_F(RecordingFile, BytesReadAsTheirFileDoes) {
  for (const char* name : {"heron/heron-shutter.wav", "bittern/bittern-shutter.csv"}) {
    const fs::path path = fs::path(BACKFIT_SOURCE_DIR) / "examples" / name;
    std::ifstream in(path, std::ios::binary);
    const std::string bytes{std::istreambuf_iterator<char>(in), {}};
    const auto by_file = read_recording(path, {}, diagnostics);
    const auto by_bytes = recording_in_bytes("shots", bytes, {}, diagnostics);
    ASSERT_TRUE(by_file && by_bytes) << name;
    EXPECT_EQ(by_file->channels, by_bytes->channels);
    EXPECT_EQ(by_file->interval, by_bytes->interval);
    EXPECT_EQ(by_file->format, by_bytes->format);
  }
  EXPECT_TRUE(diagnostics.list().empty());
}

TEST_F(RecordingFile, BytesAreCalledByTheirName) {
  const auto said = [&](const std::string& bytes, std::optional<Time> rows = {}) {
    Diagnostics faults;
    EXPECT_FALSE(recording_in_bytes("shots.wav", bytes, rows, faults));
    return faults.list().empty() ? std::string() : rendered(faults.list().front());
  };
  EXPECT_THAT(said(""), HasSubstr("'shots.wav' is empty"));
  EXPECT_THAT(said("RIFF and no more"), HasSubstr("'shots.wav' is no sound file"));
  EXPECT_THAT(said("RIFF", 1 * ms), HasSubstr("leave out the time between rows"));
  EXPECT_THAT(said("no numbers\n"), HasSubstr("shots.wav"));
}

}  // namespace
}  // namespace backfit

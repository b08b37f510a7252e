// SPDX-License-Identifier: MIT
#include "survey/recording.hpp"

#include <fmt/format.h>
#include <sndfile.h>
#include <sys/mman.h>
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <iterator>
#include <memory>

namespace backfit {
namespace {

namespace fs = std::filesystem;

constexpr int most_channels = 64;
constexpr std::size_t most_samples = std::size_t{1} << 28;  // 1 GiB in memory
constexpr std::size_t least_samples = 64;
constexpr std::uintmax_t largest_table = 256'000'000;
constexpr float end_of_scale = 0.9995F;
constexpr float largest_sample = 1e12F;

struct SoundFileCloser {
  void operator()(SNDFILE* file) const { sf_close(file); }
};

// Smallest step of a sample, full scale being 1.
double resolution_of(int format) {
  switch (format & SF_FORMAT_SUBMASK) {
    case SF_FORMAT_PCM_S8:
    case SF_FORMAT_PCM_U8:
      return 0x1p-7;
    case SF_FORMAT_PCM_16:
      return 0x1p-15;
    case SF_FORMAT_PCM_24:
      return 0x1p-23;
    case SF_FORMAT_PCM_32:
      return 0x1p-31;
    default:
      return 0;
  }
}

std::string format_text(int format) {
  switch (format & SF_FORMAT_SUBMASK) {
    case SF_FORMAT_PCM_S8:
    case SF_FORMAT_PCM_U8:
      return "sound, 8 bit";
    case SF_FORMAT_PCM_16:
      return "sound, 16 bit";
    case SF_FORMAT_PCM_24:
      return "sound, 24 bit";
    case SF_FORMAT_PCM_32:
      return "sound, 32 bit";
    case SF_FORMAT_FLOAT:
      return "sound, 32 bit float";
    case SF_FORMAT_DOUBLE:
      return "sound, 64 bit float";
    default:
      return "sound, compressed";
  }
}

std::string name_of(int channel, int channels) {
  if (channels == 1) return "mono";
  if (channels == 2) return channel == 0 ? "left" : "right";
  return fmt::format("channel {}", channel + 1);
}

// A sound file begins with one of these; text does not.
bool begins_like_sound(std::string_view bytes) {
  for (const std::string_view mark :
       {"RIFF", "RIFX", "RF64", "FORM", "fLaC", "OggS", "caff", "riff", ".snd", "ID3"}) {
    if (bytes.starts_with(mark)) return true;
  }
  return bytes.size() > 1 && bytes[0] == '\xFF' && (bytes[1] & '\xE0') == '\xE0' &&
         bytes[1] != '\xFE';
}

// The sound in `where`; messages call it `path`.
std::optional<Recording> sound_in(const fs::path& path, const fs::path& where,
                                  Diagnostics& diagnostics) {
  SF_INFO info{};
  const std::unique_ptr<SNDFILE, SoundFileCloser> file(sf_open(where.c_str(), SFM_READ, &info));
  const auto fail = [&](std::string what, std::string help = {}) {
    diagnostics.error({}, fmt::format("'{}' {}", path.string(), what), std::move(help));
    return std::nullopt;
  };
  if (!file) {
    return fail(fmt::format("is no sound file that can be read: {}", sf_strerror(nullptr)),
                "record again as WAV, 16 or 24 bit");
  }
  if (info.channels < 1 || info.channels > most_channels || info.samplerate < 1) {
    return fail(fmt::format("has {} channels at {} Hz; 1 to {} channels are taken", info.channels,
                            info.samplerate, most_channels));
  }
  Recording r;
  r.format = format_text(info.format);
  r.interval = second / info.samplerate;
  r.resolution = resolution_of(info.format);
  const auto channels = static_cast<std::size_t>(info.channels);
  r.channels.resize(channels);
  for (int c = 0; c < info.channels; ++c) r.names.push_back(name_of(c, info.channels));
  // What the head says of the length is believed as far as the file's size goes.
  std::error_code failure;
  const std::uintmax_t size = fs::file_size(where, failure);
  const auto said = static_cast<std::uintmax_t>(std::max<sf_count_t>(0, info.frames));
  for (auto& channel : r.channels) {
    channel.reserve(std::min({said, failure ? 0 : size / channels, std::uintmax_t{most_samples}}));
  }
  std::vector<float> buffer((std::size_t{1} << 16) / channels * channels);
  std::vector<int> at_the_end(channels);
  const auto frames = static_cast<sf_count_t>(buffer.size() / channels);
  for (;;) {
    const auto got = static_cast<std::size_t>(
        std::max<sf_count_t>(0, sf_readf_float(file.get(), buffer.data(), frames)));
    if (got == 0) break;
    const std::size_t begin = r.length();
    if ((begin + got) * channels > most_samples) {
      return fail(fmt::format("holds more than {} million samples; cut it into shorter ones",
                              most_samples / 1'000'000));
    }
    for (std::size_t c = 0; c < channels; ++c) {
      std::vector<float>& channel = r.channels[c];
      channel.resize(begin + got);
      const float* from = buffer.data() + c;
      float largest = 0;
      bool finite = true;
      for (std::size_t i = 0; i < got; ++i, from += channels) {
        channel[begin + i] = *from;
        largest = std::max(largest, std::abs(*from));
        finite = finite && std::abs(*from) <= largest_sample;
      }
      if (!finite) {
        const auto bad = std::find_if(channel.begin(), channel.end(),
                                      [](float x) { return !(std::abs(x) <= largest_sample); });
        const auto place = static_cast<double>(bad - channel.begin());
        return fail(fmt::format(
            "holds a sample that is no number, or too large a one, {:.6f} s from its start",
            place / info.samplerate));
      }
      if (r.resolution == 0 || largest < end_of_scale) {  // floats have no end
        at_the_end[c] = 0;
        continue;
      }
      for (std::size_t i = begin; i < begin + got; ++i) {
        at_the_end[c] = std::abs(channel[i]) >= end_of_scale ? at_the_end[c] + 1 : 0;
        r.clipped = r.clipped || at_the_end[c] >= 3;
      }
    }
  }
  if (r.length() < least_samples) {
    return fail(fmt::format("holds {} samples; a shot needs {} or more", r.length(), least_samples),
                "begin the recording before the shot and end it after");
  }
  return r;
}

}  // namespace

std::optional<Recording> read_recording(const fs::path& path, std::optional<Time> step,
                                        Diagnostics& diagnostics) {
  const auto fail = [&](std::string what, std::string help = {}) {
    diagnostics.error({}, fmt::format("'{}' {}", path.string(), what), std::move(help));
    return std::nullopt;
  };
  std::error_code failure;
  const auto status = fs::status(path, failure);
  if (!fs::exists(status)) {
    diagnostics.error({}, fmt::format("there is no file '{}'", path.string()));
    return {};
  }
  if (!fs::is_regular_file(status)) {
    return fail(fs::is_directory(status) ? "is a folder; a file is needed"
                                         : "is not a file that can be read");
  }
  std::ifstream file(path, std::ios::binary);
  std::string bytes(16, '\0');
  file.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  bytes.resize(static_cast<std::size_t>(std::max<std::streamsize>(0, file.gcount())));
  if (file.bad() || (bytes.empty() && !file.eof())) return fail("can't be read");
  if (bytes.empty()) return fail("is empty");
  if (begins_like_sound(bytes)) {
    if (step) return fail("is a sound file, which has times of its own", "leave out --step");
    return sound_in(path, path, diagnostics);
  }
  const std::uintmax_t size = fs::file_size(path, failure);
  if (failure || size > largest_table) {
    return fail(fmt::format("holds {:.0f} MB; a table of less than {} MB is taken",
                            static_cast<double>(size) / 1e6, largest_table / 1'000'000),
                "save it as WAV, or cut it around the shots");
  }
  file.clear();
  file.seekg(0);
  bytes.assign(std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>());
  if (file.bad()) return fail("can't be read");
  return recording_in_text(path, std::move(bytes), step, diagnostics);
}

std::optional<Recording> recording_in_bytes(const fs::path& name, std::string bytes,
                                            std::optional<Time> step, Diagnostics& diagnostics) {
  const auto fail = [&](std::string_view what, std::string help = {}) {
    diagnostics.error({}, fmt::format("'{}' {}", name.string(), what), std::move(help));
    return std::nullopt;
  };
  if (bytes.empty()) return fail("is empty");
  if (!begins_like_sound(bytes)) {
    return recording_in_text(name, std::move(bytes), step, diagnostics);
  }
  if (step) {
    return fail("is a sound file, which has times of its own", "leave out the time between rows");
  }
  // A file without a place on any disk.
  const int file = ::memfd_create("recording", MFD_CLOEXEC);
  std::size_t done = 0;
  while (file >= 0 && done < bytes.size()) {
    const ssize_t n = ::write(file, bytes.data() + done, bytes.size() - done);
    if (n <= 0) break;
    done += static_cast<std::size_t>(n);
  }
  std::optional<Recording> recording;
  if (done == bytes.size()) {
    recording = sound_in(name, fmt::format("/proc/self/fd/{}", file), diagnostics);
  } else {
    fail("can't be held in memory");
  }
  if (file >= 0) ::close(file);
  return recording;
}

}  // namespace backfit

// SPDX-License-Identifier: MIT
#include <fmt/format.h>
#include <zlib.h>

#include <algorithm>
#include <optional>

#include "solid/zip.hpp"

namespace backfit {
namespace {

constexpr std::size_t largest_entry = std::size_t{1}
                                      << 29U;  // unpacked: more is no drawing of ours

std::size_t number(std::string_view bytes, std::size_t at, std::size_t count) {
  std::size_t value = 0;
  for (std::size_t i = 0; i < count; ++i) {
    value |= std::size_t{static_cast<unsigned char>(bytes[at + i])} << (8 * i);
  }
  return value;
}

std::optional<std::string> inflated(std::string_view packed, std::size_t size) {
  z_stream stream{};
  if (inflateInit2(&stream, -15) != Z_OK) return {};
  std::string input(packed), plain(size + 1, '\0');  // zlib's interface takes no constant input
  stream.next_in = reinterpret_cast<Bytef*>(input.data());
  stream.avail_in = static_cast<uInt>(input.size());
  stream.next_out = reinterpret_cast<Bytef*>(plain.data());
  stream.avail_out = static_cast<uInt>(plain.size());
  const int status = inflate(&stream, Z_FINISH);
  const std::size_t made = stream.total_out;
  inflateEnd(&stream);
  if (status != Z_STREAM_END || made != size) return {};
  plain.resize(size);
  return plain;
}

}  // namespace

std::variant<std::vector<ZipEntry>, std::string> zip_entries(std::string_view archive) {
  constexpr std::size_t end_bytes = 22, directory_bytes = 46, local_bytes = 30;
  const std::size_t end = archive.rfind("PK\x05\x06");
  if (end == std::string_view::npos || end + end_bytes > archive.size()) {
    return "the package has no directory at its end: it is cut short";
  }
  const std::size_t count = number(archive, end + 10, 2);
  std::size_t at = number(archive, end + 16, 4);
  std::vector<ZipEntry> entries;
  for (std::size_t i = 0; i < count; ++i) {
    if (at > end || end - at < directory_bytes ||
        archive.substr(at, 4) != std::string_view("PK\x01\x02")) {
      return fmt::format("the package's directory breaks off at entry {} of {}", i + 1, count);
    }
    const std::size_t flags = number(archive, at + 8, 2), method = number(archive, at + 10, 2);
    const std::size_t checksum = number(archive, at + 16, 4), packed = number(archive, at + 20, 4);
    const std::size_t size = number(archive, at + 24, 4), name = number(archive, at + 28, 2);
    const std::size_t more = number(archive, at + 30, 2) + number(archive, at + 32, 2);
    const std::size_t local = number(archive, at + 42, 4);
    if (end - at < directory_bytes + name + more) {
      return fmt::format("the package's directory breaks off at entry {} of {}", i + 1, count);
    }
    ZipEntry entry{std::string(archive.substr(at + directory_bytes, name)), {}};
    at += directory_bytes + name + more;
    if ((flags & 1U) != 0) return fmt::format("'{}' in the package is encrypted", entry.name);
    if (size > largest_entry) {
      return fmt::format("'{}' in the package unpacks to {} MB, at most {} MB are read", entry.name,
                         size >> 20U, largest_entry >> 20U);
    }
    if (local > archive.size() || archive.size() - local < local_bytes ||
        archive.substr(local, 4) != std::string_view("PK\x03\x04")) {
      return fmt::format("'{}' is not where the package's directory says", entry.name);
    }
    const std::size_t from =
        local + local_bytes + number(archive, local + 26, 2) + number(archive, local + 28, 2);
    if (from > archive.size() || archive.size() - from < packed) {
      return fmt::format("'{}' in the package is cut short", entry.name);
    }
    const std::string_view held = archive.substr(from, packed);
    if (method == 0 && packed == size) {
      entry.bytes = held;
    } else if (auto plain = method == 8 ? inflated(held, size) : std::nullopt) {
      entry.bytes = std::move(*plain);
    } else {
      return fmt::format("'{}' in the package can't be unpacked", entry.name);
    }
    if (crc32(0, reinterpret_cast<const Bytef*>(entry.bytes.data()),
              static_cast<uInt>(entry.bytes.size())) != checksum) {
      return fmt::format("'{}' in the package is damaged: its checksum is wrong", entry.name);
    }
    entries.push_back(std::move(entry));
  }
  return entries;
}

}  // namespace backfit

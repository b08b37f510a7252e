// SPDX-License-Identifier: MIT
#include "solid/zip.hpp"

#include <zlib.h>

#include <cassert>
#include <cstdint>
#include <limits>

namespace backfit {
namespace {

constexpr std::uint32_t deflated = 8;
constexpr std::uint32_t version_needed = 20;        // 2.0, the first with deflate
constexpr std::uint32_t first_day = 1U << 5U | 1U;  // 1980-01-01: years since 1980, month, day

template <int ByteCount>
void append(std::string& bytes, std::size_t value) {
  for (int i = 0; i < ByteCount; ++i) {
    bytes.push_back(static_cast<char>(value >> (8 * i) & 0xffU));
  }
}

// `plain` as a raw deflate stream (RFC 1951).
std::string deflate_of(const std::string& plain) {
  z_stream stream{};
  const int raw_with_widest_window = -15;
  const int usual_memory = 8;
  int status = deflateInit2(&stream, Z_BEST_COMPRESSION, Z_DEFLATED, raw_with_widest_window,
                            usual_memory, Z_DEFAULT_STRATEGY);
  assert(status == Z_OK);
  std::string packed(deflateBound(&stream, static_cast<uLong>(plain.size())), '\0');
  std::string input = plain;  // zlib's interface takes no constant input
  stream.next_in = reinterpret_cast<Bytef*>(input.data());
  stream.avail_in = static_cast<uInt>(input.size());
  stream.next_out = reinterpret_cast<Bytef*>(packed.data());
  stream.avail_out = static_cast<uInt>(packed.size());
  status = deflate(&stream, Z_FINISH);
  assert(status == Z_STREAM_END);
  packed.resize(stream.total_out);
  deflateEnd(&stream);
  return packed;
}

// What the local header and the directory say alike about an entry.
void append_description(std::string& bytes, const ZipEntry& entry, std::size_t packed_size) {
  const uLong checksum = crc32(0, reinterpret_cast<const Bytef*>(entry.bytes.data()),
                               static_cast<uInt>(entry.bytes.size()));
  append<2>(bytes, version_needed);
  append<2>(bytes, 0);  // flags
  append<2>(bytes, deflated);
  append<2>(bytes, 0);  // midnight
  append<2>(bytes, first_day);
  append<4>(bytes, checksum);
  append<4>(bytes, packed_size);
  append<4>(bytes, entry.bytes.size());
  append<2>(bytes, entry.name.size());
  append<2>(bytes, 0);  // extra field
}

}  // namespace

std::string zip_archive(const std::vector<ZipEntry>& entries) {
  assert(entries.size() < 65536);
  std::string archive;
  std::string directory;
  for (const ZipEntry& entry : entries) {
    assert(entry.bytes.size() < std::numeric_limits<std::uint32_t>::max());
    const std::string packed = deflate_of(entry.bytes);

    append<4>(directory, 0x02014b50);
    append<2>(directory, version_needed);  // made by
    append_description(directory, entry, packed.size());
    append<2>(directory, 0);  // comment
    append<2>(directory, 0);  // disk
    append<2>(directory, 0);  // internal attributes
    append<4>(directory, 0);  // external attributes
    append<4>(directory, archive.size());
    directory += entry.name;

    append<4>(archive, 0x04034b50);
    append_description(archive, entry, packed.size());
    archive += entry.name;
    archive += packed;
  }
  const std::size_t directory_start = archive.size();
  archive += directory;
  append<4>(archive, 0x06054b50);
  append<2>(archive, 0);  // this disk
  append<2>(archive, 0);  // disk of the directory
  append<2>(archive, entries.size());
  append<2>(archive, entries.size());
  append<4>(archive, directory.size());
  append<4>(archive, directory_start);
  append<2>(archive, 0);  // comment
  assert(archive.size() < std::numeric_limits<std::uint32_t>::max());
  return archive;
}

}  // namespace backfit

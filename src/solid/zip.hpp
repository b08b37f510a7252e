// SPDX-License-Identifier: MIT
// A ZIP archive in memory: made, the same byte for byte whenever it is made, and read.
#pragma once
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace backfit {

struct ZipEntry {
  std::string name;  // ASCII, folders divided by '/'
  std::string bytes;
};

// The bytes of a ZIP archive of `entries`, in their order, deflated, all dated 1 January 1980, the
// format's first day. Requires each entry and the whole under 4 GiB, and fewer than 65536 entries.
std::string zip_archive(const std::vector<ZipEntry>& entries);

// The entries of an archive, stored or deflated, their checksums right; or what is wrong with it.
// None may unpack to more than 512 MB.
std::variant<std::vector<ZipEntry>, std::string> zip_entries(std::string_view archive);

}  // namespace backfit

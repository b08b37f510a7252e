// SPDX-License-Identifier: MIT
// A ZIP archive in memory that is the same, byte for byte, whenever it is made.
#pragma once
#include <string>
#include <vector>

namespace backfit {

struct ZipEntry {
  std::string name;  // ASCII, folders divided by '/'
  std::string bytes;
};

// The bytes of a ZIP archive of `entries`, in their order, deflated, all dated 1 January 1980, the
// format's first day. Requires each entry and the whole under 4 GiB, and fewer than 65536 entries.
std::string zip_archive(const std::vector<ZipEntry>& entries);

}  // namespace backfit

// SPDX-License-Identifier: MIT
// A folder of results that appears whole or not at all.
#pragma once
#include <filesystem>
#include <map>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

namespace backfit {

// The world failed us: a full disk, a folder that may not be written. Caught once, in main.
class WorldFailure : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

// Bytes by path inside the folder ("parts/back-plate.stl").
using FolderContents = std::map<std::string, std::string>;

// Why `target` can't be replaced without losing something of the owner's, as one sentence; empty
// when it may: it does not exist, is an empty folder, or holds only what `write_folder` wrote
// there, unchanged since.
std::optional<std::string> why_not_replaceable(const std::filesystem::path& target);

// Writes `contents` and a list of them with fingerprints of their bytes (contents.txt) into a
// sibling of `target`, flushes it to disk and puts it in the place of `target` in one step, so that
// at any moment, also when the process is killed, `target` is the old folder or the new one, whole.
// Siblings that earlier, killed runs left are removed. Requires why_not_replaceable(target) empty.
// Throws WorldFailure.
void write_folder(const std::filesystem::path& target, const FolderContents& contents);

// What `write_folder` wrote into `target` and still stands there, by the names in its list, which
// is not among them; empty where there is no such folder.
std::vector<std::string> written_names(const std::filesystem::path& target);

// The bytes of one of those. Empty for any other name, and for what was changed since.
std::optional<std::string> written_bytes(const std::filesystem::path& target,
                                         const std::string& name);

// Writes one file, whole or not at all; what stood there before goes. Throws as write_folder().
void replace_file(const std::filesystem::path& target, const std::string& bytes);

}  // namespace backfit

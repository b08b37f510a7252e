// SPDX-License-Identifier: MIT
// A file that the workbench was opened on: read anew when another editor writes it, and never
// written over what wasn't seen.
#pragma once
#include <filesystem>
#include <optional>
#include <string>

namespace backfit {

// A file's text as the page edits it: lines end in "\n", no byte order mark. `stamp` tells one
// state of the bytes on disk from another; empty when there is no such file.
struct FileState {
  std::string text, stamp;
};

class OpenFile {
 public:
  explicit OpenFile(std::filesystem::path path) : path_(std::move(path)) {}
  const std::filesystem::path& path() const { return path_; }

  // As it stands on disk now; both empty for what can't be read or isn't text.
  FileState on_disk() const;

  // Writes `text`, whole or not at all, with the line ends, the byte order mark and the rights that
  // the file has, if its bytes on disk still bear `seen`. The new stamp; empty, with nothing
  // written, when they don't. A link stays a link. Throws WorldFailure.
  std::optional<std::string> save(const std::string& text, const std::string& seen) const;

 private:
  std::filesystem::path path_;
};

}  // namespace backfit

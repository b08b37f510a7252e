// SPDX-License-Identifier: MIT
#include "files/folder.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <signal.h>
#include <stdio.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <charconv>
#include <cstdint>
#include <cstring>
#include <fstream>
#include <iterator>
#include <map>
#include <set>

namespace backfit {
namespace fs = std::filesystem;
namespace {

constexpr std::string_view list_name = "contents.txt";

[[noreturn]] void fail(const fs::path& path, std::string_view what, int error) {
  throw WorldFailure(fmt::format("{}: {}: {}", path.string(), what, std::strerror(error)));
}

// An open file descriptor, closed at the end of its scope.
class Descriptor {
 public:
  Descriptor(const fs::path& path, int flags) : fd_(::open(path.c_str(), flags | O_CLOEXEC, 0666)) {
    if (fd_ < 0) fail(path, "can't be opened", errno);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() { ::close(fd_); }
  int get() const { return fd_; }

 private:
  int fd_;
};

void flush_folder(const fs::path& folder) {
  const Descriptor fd(folder, O_RDONLY | O_DIRECTORY);
  if (::fsync(fd.get()) != 0) fail(folder, "can't be flushed", errno);
}

void write_file(const fs::path& path, const std::string& bytes) {
  const Descriptor fd(path, O_WRONLY | O_CREAT | O_EXCL);
  std::size_t done = 0;
  while (done < bytes.size()) {
    const ssize_t n = ::write(fd.get(), bytes.data() + done, bytes.size() - done);
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) fail(path, "can't be written", errno);
    done += static_cast<std::size_t>(n);
  }
  if (::fsync(fd.get()) != 0) fail(path, "can't be flushed", errno);
}

// A line of the list: a fingerprint of the bytes (FNV-1a, 64 bits; against slips, not forgery),
// then the name.
std::string listed(const std::string& name, const std::string& bytes) {
  std::uint64_t hash = 0xcbf29ce484222325;
  for (const char c : bytes) hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001b3;
  return fmt::format("{:016x} {}", hash, name);
}

std::string bytes_of(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

std::string sibling_prefix(const fs::path& target) {
  return "." + target.filename().string() + ".unfinished-";
}

// Removes siblings whose writer is gone.
void remove_abandoned(const fs::path& target) {
  const std::string prefix = sibling_prefix(target);
  std::error_code ignored;
  for (const fs::directory_entry& entry : fs::directory_iterator(target.parent_path(), ignored)) {
    const std::string name = entry.path().filename().string();
    if (!name.starts_with(prefix)) continue;
    long pid = 0;
    const char* first = name.data() + prefix.size();
    const char* last = name.data() + name.size();
    if (std::from_chars(first, last, pid).ptr != last || pid <= 0) continue;
    if (::kill(static_cast<pid_t>(pid), 0) != 0 && errno == ESRCH)
      fs::remove_all(entry.path(), ignored);
  }
}

fs::path whole(const fs::path& target) {
  fs::path p = fs::absolute(target).lexically_normal();
  return p.has_filename() ? p : p.parent_path();
}

}  // namespace

std::optional<std::string> why_not_replaceable(const fs::path& target_given) {
  const fs::path target = whole(target_given);
  std::error_code failure;
  const fs::file_status status = fs::symlink_status(target, failure);
  if (!fs::exists(status)) return {};
  if (!fs::is_directory(status))
    return fmt::format("'{}' exists and is not a folder", target_given.string());
  if (fs::is_empty(target, failure)) return {};
  std::ifstream list(target / list_name);
  if (!list) {
    return fmt::format("'{}' holds files that were not made by this program",
                       target_given.string());
  }
  std::set<std::string> ours{std::string(list_name)};
  for (std::string line; std::getline(list, line);) {
    const std::string name = line.substr(std::min(line.size(), line.find(' ') + 1));
    if (line != listed(name, bytes_of(target / name))) {
      if (!fs::exists(target / name)) continue;  // taken away: nothing to lose
      return fmt::format("'{}' holds '{}', which was changed since this program made it",
                         target_given.string(), name);
    }
    ours.insert(name);
  }
  for (const fs::directory_entry& entry : fs::recursive_directory_iterator(target, failure)) {
    if (fs::is_directory(entry.symlink_status())) continue;
    const std::string name = entry.path().lexically_relative(target).generic_string();
    if (ours.count(name) == 0) {
      return fmt::format("'{}' holds '{}', which was not made by this program",
                         target_given.string(), name);
    }
  }
  if (failure)
    return fmt::format("'{}' can't be read: {}", target_given.string(), failure.message());
  return {};
}

namespace {

// A name that leads nowhere but down from the folder.
bool leads_down(const std::string& name) {
  const fs::path path = name;
  return !path.empty() && path.is_relative() &&
         std::ranges::none_of(path, [](const fs::path& part) { return part == ".."; });
}

// The lines of the list in `target` by the name at their end.
std::map<std::string, std::string> lines_of_list(const fs::path& target) {
  std::map<std::string, std::string> lines;
  std::ifstream list(target / list_name);
  for (std::string line; std::getline(list, line);) {
    const std::string name = line.substr(std::min(line.size(), line.find(' ') + 1));
    if (leads_down(name)) lines[name] = line;
  }
  return lines;
}

}  // namespace

std::vector<std::string> written_names(const fs::path& target) {
  std::vector<std::string> names;
  for (const auto& [name, line] : lines_of_list(target)) {
    std::error_code failure;
    if (fs::is_regular_file(fs::symlink_status(target / name, failure))) names.push_back(name);
  }
  return names;
}

std::optional<std::string> written_bytes(const fs::path& target, const std::string& name) {
  const auto lines = lines_of_list(target);
  const auto found = lines.find(name);
  if (found == lines.end()) return {};
  std::string bytes = bytes_of(target / name);
  if (listed(name, bytes) != found->second) return {};
  return bytes;
}

void write_folder(const fs::path& target_given, const FolderContents& contents) {
  const fs::path target = whole(target_given);
  const fs::path parent = target.parent_path();
  std::error_code failure;
  fs::create_directories(parent, failure);
  if (failure) fail(parent, "can't be made", failure.value());
  remove_abandoned(target);
  const fs::path fresh = parent / (sibling_prefix(target) + std::to_string(::getpid()));
  fs::remove_all(fresh, failure);
  try {
    std::set<fs::path> folders{fresh};
    std::string list;
    for (const auto& [name, bytes] : contents) {
      const fs::path path = fresh / name;
      fs::create_directories(path.parent_path());
      folders.insert(path.parent_path());
      write_file(path, bytes);
      list += listed(name, bytes) + "\n";
    }
    write_file(fresh / list_name, list);
    for (const fs::path& folder : folders) flush_folder(folder);
    if (::rename(fresh.c_str(), target.c_str()) != 0) {
      // The target holds an older result: both names change hands in one step.
      if (::renameat2(AT_FDCWD, fresh.c_str(), AT_FDCWD, target.c_str(), RENAME_EXCHANGE) != 0) {
        fail(target, "can't be replaced", errno);
      }
    }
    flush_folder(parent);
  } catch (const fs::filesystem_error& e) {
    fs::remove_all(fresh, failure);
    throw WorldFailure(e.what());
  } catch (...) {
    fs::remove_all(fresh, failure);
    throw;
  }
  fs::remove_all(fresh, failure);
}

void replace_file(const fs::path& target_given, const std::string& bytes) {
  const fs::path target = whole(target_given);
  std::error_code failure;
  fs::create_directories(target.parent_path(), failure);
  if (failure) fail(target.parent_path(), "can't be made", failure.value());
  const fs::path fresh =
      target.parent_path() / (sibling_prefix(target) + std::to_string(::getpid()));
  try {
    write_file(fresh, bytes);
    if (::rename(fresh.c_str(), target.c_str()) != 0) fail(target, "can't be replaced", errno);
  } catch (...) {
    fs::remove(fresh, failure);
    throw;
  }
}

}  // namespace backfit

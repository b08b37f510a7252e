// SPDX-License-Identifier: MIT
#include "workbench/errand.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <signal.h>
#include <spawn.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <chrono>
#include <cstring>
#include <istream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <ostream>
#include <utility>
#include <vector>

#include "files/folder.hpp"
#include "workbench/desk.hpp"

namespace backfit {
namespace {

using Clock = std::chrono::steady_clock;

constexpr int politeness = 5;  // as nice() has it: what the page asks meanwhile goes before
constexpr auto least_between = std::chrono::milliseconds(150);  // of news on one stage

// The stages of an errand as events, no more of them than are worth reading.
class Told {
 public:
  explicit Told(std::ostream& out) : out_(out) {}
  void operator()(std::string_view stage, double done) {
    const auto now = Clock::now();
    if (stage == stage_ && now - last_ < least_between) return;
    stage_ = stage;
    last_ = now;
    out_ << event("progress", nlohmann::json{{"stage", stage}, {"done", done}}.dump())
         << std::flush;
  }

 private:
  std::ostream& out_;
  std::string stage_;
  Clock::time_point last_;
};

struct Pipe {
  int ends[2] = {-1, -1};  // to read, to write
  Pipe() {
    if (::pipe2(ends, O_CLOEXEC) != 0)
      throw WorldFailure(fmt::format("no pipe to be had: {}", std::strerror(errno)));
  }
  ~Pipe() {
    for (const int end : ends) {
      if (end >= 0) ::close(end);
    }
  }
  Pipe(const Pipe&) = delete;
  Pipe& operator=(const Pipe&) = delete;
  int release(std::size_t end) { return std::exchange(ends[end], -1); }
};

}  // namespace

std::string event(std::string_view name, std::string_view data) {
  std::string text = fmt::format("event: {}\n", name);
  while (!data.empty()) {
    const std::size_t end = std::min(data.find('\n'), data.size());
    text += fmt::format("data: {}\n", data.substr(0, end));
    data.remove_prefix(std::min(end + 1, data.size()));
  }
  return text + "\n";
}

std::string errand_heading(const std::filesystem::path& camera) { return camera.string() + "\n"; }

int run_errand(const Opening& opening, const std::string& path, std::istream& in,
               std::ostream& out) {
  ::prctl(PR_SET_PDEATHSIG, SIGKILL);
  [[maybe_unused]] const int priority = ::nice(politeness);
  std::string camera;
  std::getline(in, camera);
  const std::string body{std::istreambuf_iterator<char>(in), {}};
  Diagnostics diagnostics;
  const auto desk = Desk::opened(opening, diagnostics, camera);
  if (!desk) throw WorldFailure("the files that the workbench was opened on are gone");
  Told told(out);
  const DeskAnswer answer =
      desk->answer(path, body, [&](std::string_view stage, double done) { told(stage, done); });
  out << event("answer", answer.json) << std::flush;
  return 0;
}

ErrandProcess::ErrandProcess(const Opening& opening, const std::string& path) {
  Pipe to, from;
  std::vector<std::string> words{"backfit-make", "open", opening.conversion.string(),    "--errand",
                                 path,           "-o",   result_folder(opening).string()};
  std::vector<char*> pointers;
  pointers.reserve(words.size() + 1);
  for (std::string& word : words) pointers.push_back(word.data());
  pointers.push_back(nullptr);

  posix_spawn_file_actions_t files;
  ::posix_spawn_file_actions_init(&files);
  ::posix_spawn_file_actions_adddup2(&files, to.ends[0], STDIN_FILENO);
  ::posix_spawn_file_actions_adddup2(&files, from.ends[1], STDOUT_FILENO);
  // A connection that it held on to would never be closed.
  ::posix_spawn_file_actions_addclosefrom_np(&files, STDERR_FILENO + 1);
  posix_spawnattr_t attributes;
  ::posix_spawnattr_init(&attributes);
  sigset_t usual;
  sigemptyset(&usual);
  sigaddset(&usual, SIGPIPE);
  sigaddset(&usual, SIGINT);
  sigaddset(&usual, SIGTERM);
  ::posix_spawnattr_setsigdefault(&attributes, &usual);
  ::posix_spawnattr_setflags(&attributes, POSIX_SPAWN_SETSIGDEF);
  const int fault =
      ::posix_spawn(&process_, "/proc/self/exe", &files, &attributes, pointers.data(), environ);
  ::posix_spawn_file_actions_destroy(&files);
  ::posix_spawnattr_destroy(&attributes);
  if (fault != 0) {
    process_ = -1;
    throw WorldFailure(fmt::format("no process to be had: {}", std::strerror(fault)));
  }
  input_ = to.release(1);
  output_ = from.release(0);
}

ErrandProcess::~ErrandProcess() {
  for (const int descriptor : {input_, output_}) {
    if (descriptor >= 0) ::close(descriptor);
  }
  if (process_ < 0) return;
  ::kill(process_, SIGKILL);
  while (::waitpid(process_, nullptr, 0) < 0 && errno == EINTR) {
  }
}

int ErrandProcess::taken(int& descriptor) { return std::exchange(descriptor, -1); }

}  // namespace backfit

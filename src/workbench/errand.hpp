// SPDX-License-Identifier: MIT
// What takes long is done by the program itself in a process of its own: that can be ended at any
// moment, and one that breaks off takes nobody along.
#pragma once
#include <sys/types.h>

#include <filesystem>
#include <iosfwd>
#include <string>

#include "workbench/opening.hpp"

namespace backfit {

// The child's side: reads the camera file's path, on a line of its own, and behind it the question
// from `in`, and writes events (event()) to `out`: `progress` with `stage` and `done`, at last
// `answer` with what the desk answers to `path`. Ends with its parent. The exit status.
int run_errand(const Opening& opening, const std::string& path, std::istream& in,
               std::ostream& out);

// The parent's side: the errand's process, ended with this at the latest.
class ErrandProcess {
 public:
  // Throws WorldFailure.
  ErrandProcess(const Opening& opening, const std::string& path);
  ~ErrandProcess();
  ErrandProcess(const ErrandProcess&) = delete;
  ErrandProcess& operator=(const ErrandProcess&) = delete;

  // Its standard input and output, the caller's to close from then on; once each.
  int take_input() { return taken(input_); }
  int take_output() { return taken(output_); }

 private:
  static int taken(int& descriptor);
  pid_t process_ = -1;
  int input_ = -1, output_ = -1;
};

// What goes before a question to run_errand().
std::string errand_heading(const std::filesystem::path& camera);

// An event of a stream as browsers take them.
std::string event(std::string_view name, std::string_view data);

}  // namespace backfit

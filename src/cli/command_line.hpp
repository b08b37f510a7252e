// SPDX-License-Identifier: MIT
// The words after the program's name, read into what is asked.
#pragma once
#include <cstdint>
#include <filesystem>
#include <functional>
#include <string>

#include "cli/commands.hpp"
#include "cli/leak_options.hpp"

namespace backfit {

enum class Command {
  check,
  match,
  make,
  films,
  make_new,
  lens,
  cover,
  path,
  timer,
  trap,
  trace,
  leak,
  expose,
  flash,
  open
};

struct Request {
  Command command = Command::check;
  std::filesystem::path conversion, folder, svg;
  bool json = false;
  bool despite_blockers = false;
  bool with_light = false;
  Listing listing = Listing::films;
  NewKind kind = NewKind::camera;
  std::filesystem::path camera, prices;
  std::filesystem::path lens;
  LensQuestions questions;
  CoverQuestions cover;
  TrapQuestions trap;
  LeakRequest leak;
  ExposeQuestions expose;
  TraceRequest trace;
  std::uint16_t port = 0;
  std::string errand;  // of the workbench, to its own child
};

// Reads the words and does what they ask by `act`; the exit status. Help, version and errors are
// printed here, and so is a failure of the world: the one place where exceptions end.
int run(int argc, char** argv, const std::function<int(const Request&, const Surroundings&)>& act);

// The folder that this program's file lies in.
std::filesystem::path program_folder();

}  // namespace backfit

// SPDX-License-Identifier: MIT
// The words after the program's name, read into what is asked.
#pragma once
#include <filesystem>
#include <variant>

#include "cli/commands.hpp"

namespace backfit {

enum class Command { check, make, films, make_new };

struct Request {
  Command command = Command::check;
  std::filesystem::path conversion, folder;
  bool json = false;
  bool despite_blockers = false;
  Listing listing = Listing::films;
  NewKind kind = NewKind::camera;
};

// The request, or the exit status after help, version or an error has been printed.
std::variant<Request, int> read_command_line(int argc, char** argv);

// The folder of shipped data: beside an installed program, else where it was built.
std::filesystem::path data_folder();

// The folder that this program's file lies in.
std::filesystem::path program_folder();

}  // namespace backfit

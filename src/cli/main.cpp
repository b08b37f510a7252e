// SPDX-License-Identifier: MIT
// Studies run here. What needs the geometry kernel and the page layout runs in backfit-make, so
// that `backfit check` need not load them: that alone takes longer than the studies.
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <exception>
#include <iostream>
#include <string>

#include "cli/command_line.hpp"
#include "cli/studied.hpp"

namespace {

// Goes on as backfit-make with the same words; returns only when that fails.
int go_on_as_maker(char** argv) {
  const std::string maker = backfit::program_folder() / "backfit-make";
  execv(maker.c_str(), argv);
  std::cerr << "failed: " << maker << ": " << std::strerror(errno) << "\n";
  return backfit::unusable;
}

}  // namespace

int main(int argc, char** argv) {
  using namespace backfit;
  try {
    const auto read = read_command_line(argc, argv);
    if (const int* status = std::get_if<int>(&read)) return *status;
    const Request& request = std::get<Request>(read);
    const Surroundings around{data_folder(), std::cout, std::cerr};
    switch (request.command) {
      case Command::check:
        return check(request.conversion, request.json, around);
      case Command::films:
        return films(request.listing, request.json, around);
      case Command::make:
      case Command::make_new:
        return go_on_as_maker(argv);
    }
  } catch (const std::exception& e) {
    std::cerr << "failed: " << e.what() << "\n";
  }
  return unusable;
}

// SPDX-License-Identifier: MIT
// The half of the program that makes things; backfit starts it with its own words.
#include <exception>
#include <iostream>

#include "cli/command_line.hpp"
#include "cli/studied.hpp"

int main(int argc, char** argv) {
  using namespace backfit;
  try {
    const auto read = read_command_line(argc, argv);
    if (const int* status = std::get_if<int>(&read)) return *status;
    const Request& request = std::get<Request>(read);
    const Surroundings around{data_folder(), std::cout, std::cerr};
    if (request.command == Command::make) {
      return make(request.conversion, request.folder, request.json, request.despite_blockers,
                  around);
    }
    if (request.command == Command::make_new) {
      return make_new(request.kind, request.folder, request.json, around);
    }
    std::cerr << "error: this command runs as backfit\n";
  } catch (const std::exception& e) {
    std::cerr << "failed: " << e.what() << "\n";
  }
  return unusable;
}

// SPDX-License-Identifier: MIT
// The half of the program that makes things; backfit starts it with its own words.
#include "cli/command_line.hpp"
#include "files/folder.hpp"
#include "workbench/workbench.hpp"

int main(int argc, char** argv) {
  using namespace backfit;
  return run(argc, argv, [](const Request& request, const Surroundings& around) {
    switch (request.command) {
      case Command::make:
        return make(request.conversion, request.folder, request.json, request.despite_blockers,
                    around);
      case Command::make_new:
        return make_new(request.kind, request.folder, request.json, around);
      case Command::path:
        return draw_path(request.conversion, request.svg, request.json, around);
      case Command::trace:
        return trace(request.trace, request.json, around);
      case Command::open:
        return open_workbench(request.conversion, around.data, request.port, around.out,
                              around.err);
      case Command::leak:
        return draw_leak(request.leak, request.svg, request.json, around);
      case Command::check:
      case Command::match:
      case Command::films:
      case Command::lens:
      case Command::cover:
      case Command::timer:
      case Command::trap:
      case Command::expose:
      case Command::flash:
        break;
    }
    throw WorldFailure("this command runs as backfit");
  });
}

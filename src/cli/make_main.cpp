// SPDX-License-Identifier: MIT
// The half of the program that makes things; backfit starts it with its own words.
#include <iostream>

#include "cli/command_line.hpp"
#include "files/folder.hpp"
#include "workbench/errand.hpp"
#include "workbench/workbench.hpp"

namespace {

using namespace backfit;

Opening opening_of(const Request& request, const Surroundings& around) {
  const auto make_saved = [data = around.data](const MakeOrder& order, std::ostream& out,
                                               std::ostream& err, const Progress& progress) {
    return make(order.conversion, order.folder, true, order.despite_blockers,
                {data, out, err, [&](std::string_view stage) { progress(stage, 0); }});
  };
  return {request.conversion, request.folder, around.data, make_saved};
}

}  // namespace

int main(int argc, char** argv) {
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
        return request.errand.empty()
                   ? open_workbench(opening_of(request, around), request.port, around.out,
                                    around.err)
                   : run_errand(opening_of(request, around), request.errand, std::cin, around.out);
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

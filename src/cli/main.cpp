// SPDX-License-Identifier: MIT
// Studies run here. What needs the geometry kernel, the page layout or sound files runs in
// backfit-make, so
// that `backfit check` need not load them: that alone takes longer than the studies.
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <string>

#include "cli/command_line.hpp"
#include "files/folder.hpp"

namespace {

// Goes on as backfit-make with the same words; returns only by an exception.
int go_on_as_maker(char** argv) {
  const std::string maker = backfit::program_folder() / "backfit-make";
  execv(maker.c_str(), argv);
  throw backfit::WorldFailure(maker + ": " + std::strerror(errno));
}

}  // namespace

int main(int argc, char** argv) {
  using namespace backfit;
  return run(argc, argv, [argv](const Request& request, const Surroundings& around) {
    switch (request.command) {
      case Command::check:
        return check(request.conversion, request.with_light, request.json, around);
      case Command::match:
        return match(request.camera, request.prices, request.json, around);
      case Command::films:
        return films(request.listing, request.json, around);
      case Command::cover:
        return cover(request.conversion, request.cover, request.json, around);
      case Command::timer:
        return timer(request.conversion, request.json, around);
      case Command::lens:
        return lens(request.lens, request.questions, request.json, around);
      case Command::trap:
        return trap(request.trap, request.json, around);
      case Command::leak:
        if (!request.svg.empty()) break;
        return leak(request.leak, request.json, around);
      case Command::path:
        if (!request.svg.empty()) break;
        return path(request.conversion, request.json, around);
      case Command::expose:
        return expose(request.conversion, request.expose, request.json, around);
      case Command::flash:
        return flash(request.conversion, request.json, around);
      case Command::make:
      case Command::make_new:
      case Command::trace:
      case Command::open:
        break;
    }
    return go_on_as_maker(argv);
  });
}

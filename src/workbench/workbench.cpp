// SPDX-License-Identifier: MIT
#include "workbench/workbench.hpp"

#include <fmt/format.h>
#include <sys/random.h>

#include <array>
#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <ostream>

#include "files/folder.hpp"
#include "workbench/server.hpp"

namespace backfit {
namespace {

// 128 random bits, as hexadecimal digits.
std::string new_token() {
  std::array<unsigned char, 16> bytes{};
  if (::getrandom(bytes.data(), bytes.size(), 0) != static_cast<ssize_t>(bytes.size()))
    throw WorldFailure(fmt::format("no random numbers to be had: {}", std::strerror(errno)));
  std::string token;
  for (const unsigned char b : bytes) token += fmt::format("{:02x}", b);
  return token;
}

}  // namespace

int open_workbench(const Opening& opening, std::uint16_t port, std::ostream& out,
                   std::ostream& err) {
  Diagnostics diagnostics;
  const auto desk = Desk::opened(opening, diagnostics);
  for (const Diagnostic& d : diagnostics.list()) err << rendered(d);
  if (!desk) return 2;
  const std::string token = new_token();
  const Served served = serve(*desk, port, token, new_token(), [&](std::uint16_t open_port) {
    out << fmt::format("open http://127.0.0.1:{}/#{} in a browser; Ctrl-C here ends it\n",
                       open_port, token)
        << std::flush;
  });
  out << "\nclosed\n" << std::flush;
  // What the page asks of this process writes nothing but whole files: it may end with the program.
  if (served.unfinished) std::_Exit(0);
  return 0;
}

}  // namespace backfit

// SPDX-License-Identifier: MIT
// The workbench's server: HTTP on this machine alone, for one page.
#pragma once
#include <cstdint>
#include <functional>
#include <string>

#include "workbench/desk.hpp"

namespace backfit {

// Serves `desk` and the page on 127.0.0.1, on `port` or, for 0, on one that is free, to requests
// that posture.hpp passes and that bear `token`, or `made` for results; calls `listening` with the
// port. At most 64 connections, 16 KiB of head, 8 MiB of body (of a recording 32 MiB) and 30 s for
// each read and write. What takes long and the news of the files are answered by streams of events;
// what takes long runs in processes of its own, three at a time, and is ended when nobody listens
// any more. Returns on SIGINT or SIGTERM; an answer that isn't ready then is `unfinished`. Throws
// WorldFailure when the port can't be had.
struct Served {
  bool unfinished = false;
};
Served serve(const Desk& desk, std::uint16_t port, const std::string& token,
             const std::string& made, const std::function<void(std::uint16_t)>& listening);

}  // namespace backfit

// SPDX-License-Identifier: MIT
// Runs calls of the geometry kernel so that its exceptions, which aren't standard ones, become
// ours, and a KernelWatch can stop them.
#pragma once
#include <utility>

#include "solid/solid.hpp"

class Message_ProgressIndicator;  // the kernel's

namespace backfit {

// Rethrows the exception in flight as SolidFailure "<task>: <kernel's words>" when it comes from
// the kernel, unchanged otherwise.
[[noreturn]] void rethrow_from_kernel(const char* task);

// Throws SolidStopped when this thread's KernelWatch, if there is one, says so.
void stop_if_told();

// For one of the kernel's calls that take a range of progress: breaks it off when this thread's
// KernelWatch says so; what it has made is then worthless. A new one, for a Handle to own; null
// without a watch.
Message_ProgressIndicator* kernel_progress();

// What `call()` returns; `task` names it in a failure ("joining bodies"). SolidStopped where it was
// told to stop, before or within.
template <class Call>
auto kernel_call(const char* task, Call&& call) {
  stop_if_told();
  try {
    auto made = std::forward<Call>(call)();
    stop_if_told();
    return made;
  } catch (...) {
    stop_if_told();
    rethrow_from_kernel(task);
  }
}

}  // namespace backfit

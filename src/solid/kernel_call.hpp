// SPDX-License-Identifier: MIT
// Runs calls of the geometry kernel so that its exceptions, which aren't standard ones, become
// ours.
#pragma once
#include <utility>

#include "solid/solid.hpp"

namespace backfit {

// Rethrows the exception in flight as SolidFailure "<task>: <kernel's words>" when it comes from
// the kernel, unchanged otherwise.
[[noreturn]] void rethrow_from_kernel(const char* task);

// What `call()` returns; `task` names it in a failure ("joining bodies").
template <class Call>
auto kernel_call(const char* task, Call&& call) {
  try {
    return std::forward<Call>(call)();
  } catch (...) {
    rethrow_from_kernel(task);
  }
}

}  // namespace backfit

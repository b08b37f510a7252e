// SPDX-License-Identifier: MIT
#include "solid/kernel_call.hpp"

#include <Standard_Failure.hxx>
#include <string>

namespace backfit {

void rethrow_from_kernel(const char* task) {
  try {
    throw;
  } catch (const Standard_Failure& failure) {
    throw SolidFailure(std::string(task) + ": " + failure.GetMessageString());
  }
}

}  // namespace backfit

// SPDX-License-Identifier: MIT
#include <cstddef>
#include <cstdint>
#include <string>

#include "read_everything.hpp"

// The name and type are the fuzzing library's.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  backfit::read_everything(std::string(data, data + size));
  return 0;
}

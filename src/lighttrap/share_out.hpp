// SPDX-License-Identifier: MIT
// Work shared out among threads, task by task.
#pragma once
#include <atomic>
#include <cstddef>
#include <thread>
#include <vector>

namespace backfit {

// Does task(0) to task(tasks - 1), each once, in any order. Requires threads >= 1 and tasks that
// don't touch each other's results and don't throw.
template <class Task>
void share_out(std::size_t tasks, std::size_t threads, const Task& task) {
  std::atomic<std::size_t> next{0};
  const auto work = [&] {
    for (std::size_t i = next++; i < tasks; i = next++) task(i);
  };
  std::vector<std::thread> others;
  for (std::size_t i = 1; i < threads; ++i) others.emplace_back(work);
  work();
  for (std::thread& other : others) other.join();
}

}  // namespace backfit

// SPDX-License-Identifier: MIT
// Who may stop work on bodies, which can take seconds.
#pragma once
#include <exception>
#include <functional>

namespace backfit {

// Work on bodies ended because it was told to; what it made is gone.
class SolidStopped : public std::exception {
 public:
  const char* what() const noexcept override;
};

// While it lives, whatever this thread does with bodies goes on only as long as `may_go_on` says
// so, else it throws SolidStopped: asked before and after each of the kernel's calls, and many
// times while bodies are combined, cut or measured between. Of several the latest is asked; none of
// them outlives an older one.
class KernelWatch {
 public:
  explicit KernelWatch(std::function<bool()> may_go_on);
  ~KernelWatch();
  KernelWatch(const KernelWatch&) = delete;
  KernelWatch& operator=(const KernelWatch&) = delete;

 private:
  std::function<bool()> may_go_on_;
  const std::function<bool()>* before_;
};

}  // namespace backfit

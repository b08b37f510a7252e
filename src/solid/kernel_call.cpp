// SPDX-License-Identifier: MIT
#include "solid/kernel_call.hpp"

#include <Message_ProgressIndicator.hxx>
#include <Standard_Failure.hxx>
#include <string>

#include "solid/kernel_watch.hpp"

namespace backfit {
namespace {

thread_local const std::function<bool()>* watching = nullptr;

bool is_told_to_stop() { return watching != nullptr && !(*watching)(); }

class Progress : public Message_ProgressIndicator {
  Standard_Boolean UserBreak() override { return is_told_to_stop(); }
  void Show(const Message_ProgressScope&, Standard_Boolean) override {}
};

}  // namespace

const char* SolidStopped::what() const noexcept { return "work on bodies was stopped"; }

KernelWatch::KernelWatch(std::function<bool()> may_go_on)
    : may_go_on_(std::move(may_go_on)), before_(std::exchange(watching, &may_go_on_)) {}
KernelWatch::~KernelWatch() { watching = before_; }

void rethrow_from_kernel(const char* task) {
  try {
    throw;
  } catch (const Standard_Failure& failure) {
    throw SolidFailure(std::string(task) + ": " + failure.GetMessageString());
  }
}

void stop_if_told() {
  if (is_told_to_stop()) throw SolidStopped();
}

Message_ProgressIndicator* kernel_progress() {
  return watching == nullptr ? nullptr : new Progress;
}

}  // namespace backfit

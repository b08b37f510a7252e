// SPDX-License-Identifier: MIT
#include "conversion/finding.hpp"

namespace backfit {

std::string_view name_of(Weight weight) {
  switch (weight) {
    case Weight::blocker:
      return "blocker";
    case Weight::warning:
      return "warning";
    case Weight::note:
      break;
  }
  return "note";
}

std::string_view name_of(Verdict verdict) {
  switch (verdict) {
    case Verdict::fits:
      return "fits";
    case Verdict::fits_with_work:
      return "fits with work";
    case Verdict::does_not_fit:
      return "does not fit";
    case Verdict::cannot_tell_yet:
      break;
  }
  return "cannot tell yet";
}

std::string rendered(const Finding& finding) {
  std::vector<std::string> trailers;
  if (!finding.limit.empty()) trailers.push_back("limit: " + finding.limit);
  for (const std::string& remedy : finding.remedies) trailers.push_back("help: " + remedy);
  return rendered(name_of(finding.weight), finding.place, finding.id + ": " + finding.text,
                  trailers);
}

}  // namespace backfit

// SPDX-License-Identifier: MIT
#include "documents/build_sheet.hpp"

#include "documents/flow.hpp"

namespace backfit {

std::string build_sheet(const Report&, const Solid&, const std::filesystem::path& font_folder) {
  paper::Document document(font_folder, {"Build sheet", "", ""});
  document.add_page();
  return document.pdf();
}

}  // namespace backfit

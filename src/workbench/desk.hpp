// SPDX-License-Identifier: MIT
// What the workbench's page may ask, and the answers: studies of texts being edited, and the two
// files that they come from.
#pragma once
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "catalogue/catalogue.hpp"
#include "conversion/exposure_material.hpp"
#include "files/diagnostic.hpp"
#include "workbench/open_file.hpp"

namespace backfit {

struct DeskAnswer {
  int status = 200;  // of HTTP
  std::string json;
};

// Answers by several threads at once, if of `takes_long` one at a time.
class Desk {
 public:
  // The conversion file at `conversion` and the camera file that it names, which stay the two that
  // are written. Empty, with an error added, when the conversion file can't be read as text or the
  // shipped data in `data` can't be used; mistakes in it are for the page.
  static std::unique_ptr<Desk> opened(const std::filesystem::path& conversion,
                                      const std::filesystem::path& data, Diagnostics& diagnostics);

  // The answer to `body` (JSON; empty for none) sent to `path`, "/api/study" and so on; see
  // docs/workbench.md. Throws WorldFailure where a file can't be written.
  DeskAnswer answer(std::string_view path, const std::string& body) const;
  // Is it one that may take seconds?
  static bool takes_long(std::string_view path);

  // The stamps of both files on disk, as JSON on one line.
  std::string news() const;

 private:
  Desk(OpenFile conversion, OpenFile camera, Catalogue catalogue, ExposureShelf shelf);

  struct Asked;
  std::string files() const;
  DeskAnswer saved(const Asked& asked) const;
  std::string study(Asked& asked) const;
  std::string path(const Asked& asked) const;
  std::string parts(const Asked& asked) const;
  std::string timer(const Asked& asked) const;
  std::string match(const Asked& asked) const;

  OpenFile conversion_, camera_;
  Catalogue catalogue_;
  ExposureShelf shelf_;
};

}  // namespace backfit

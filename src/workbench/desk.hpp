// SPDX-License-Identifier: MIT
// What the workbench's page may ask, and the answers: studies of texts being edited, and the two
// files that they come from.
#pragma once
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "conversion/exposure_material.hpp"
#include "files/diagnostic.hpp"
#include "workbench/open_file.hpp"
#include "workbench/opening.hpp"

namespace backfit {

struct DeskAnswer {
  int status = 200;  // of HTTP
  std::string json;
};

// Answers by several threads at once.
class Desk {
 public:
  // The conversion file and the camera file that it names, or `camera`, which stay the two that are
  // written. Empty, with an error added, when the conversion file can't be read as text or the
  // shipped data can't be used; mistakes in it are for the page.
  static std::unique_ptr<Desk> opened(Opening opening, Diagnostics& diagnostics,
                                      const std::optional<std::filesystem::path>& camera = {});

  // The answer to `body` (JSON; empty for none) sent to `path`, "/api/study" and so on; see
  // docs/workbench.md. What takes long tells its stages to `progress`. Throws WorldFailure where a
  // file can't be written.
  DeskAnswer answer(
      std::string_view path, const std::string& body,
      const Progress& progress = [](std::string_view, double) {}) const;
  // Is it one that may take seconds?
  static bool takes_long(std::string_view path);
  // Where the picture of what `letters` measure is drawn, as SVG.
  std::string sketch(std::string_view letters) const;

  // The results that were made, as JSON; `way` goes before each name in an address.
  std::string made(std::string_view way) const;
  // One of them; empty for a name that is none, or that was changed since.
  std::optional<std::string> made_file(const std::string& name) const;

  const Opening& opening() const { return opening_; }
  const std::filesystem::path& camera() const { return camera_.path(); }

  // The stamps of both files on disk, as JSON on one line.
  std::string news() const;

 private:
  Desk(Opening opening, OpenFile camera, Catalogue catalogue, ExposureShelf shelf);

  struct Asked;
  std::string files() const;
  DeskAnswer saved(const Asked& asked) const;
  std::string study(Asked& asked) const;
  std::string path(const Asked& asked) const;
  std::string parts(const Asked& asked) const;
  std::string timer(const Asked& asked) const;
  std::string match(const Asked& asked) const;
  std::string metered(const Asked& asked) const;
  std::string trace(const Asked& asked) const;
  std::string leak(const Asked& asked, const Progress& progress) const;
  std::string make(const Asked& asked, const Progress& progress) const;

  Opening opening_;
  OpenFile conversion_, camera_;
  Catalogue catalogue_;
  ExposureShelf shelf_;
};

}  // namespace backfit

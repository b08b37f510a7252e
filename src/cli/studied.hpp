// SPDX-License-Identifier: MIT
// What all commands do alike: read, study, print what was found.
#pragma once
#include <filesystem>
#include <functional>
#include <optional>

#include "cli/commands.hpp"
#include "conversion/exposure_material.hpp"
#include "conversion/path_study.hpp"
#include "conversion/report.hpp"
#include "files/diagnostic.hpp"

namespace backfit {

inline constexpr int fine = 0;
inline constexpr int blocked = 1;
inline constexpr int unusable = 2;

// Messages to `err`; as JSON also to `out` when the input can't be used.
void print(const Diagnostics& diagnostics, bool json, const Surroundings& around);

// A conversion joined with the catalogue; empty when the input can't be used.
std::optional<Assembly> assembled(const std::filesystem::path& conversion, bool json,
                                  const Surroundings& around);

// The report on a conversion, `with_light` how dark its film lies as well, its findings printed to
// `err`; empty when the input can't be used or the study was interrupted. `but_for_light` gets the
// report before its light is followed, which takes long.
std::optional<Report> studied(
    const std::filesystem::path& conversion, Scope scope, bool with_light, bool json,
    const Surroundings& around,
    const std::function<void(const Report&)>& but_for_light = [](const Report&) {});

// Light, emulsions, bulbs and cautions as shipped; empty when they can't be read.
std::optional<ExposureShelf> exposure_shelf(bool json, const Surroundings& around);

// What [exposure] names, looked up; nothing without that table.
struct Exposed {
  std::optional<ExposureShelf> shelf;
  std::optional<ExposureMaterial> material;
};
// Messages printed; empty when the table can't be used.
std::optional<Exposed> exposed(const Assembly& assembly, bool json, const Surroundings& around);

int status_of(const Report& report);

// A conversion and its film path, the findings printed to `err`; empty when the input can't be
// used.
struct StudiedPath {
  Assembly assembly;
  PathStudy study;
};
std::optional<StudiedPath> studied_path(const std::filesystem::path& conversion, bool json,
                                        const Surroundings& around);
// Prints it to `out`; the exit status.
int printed(const StudiedPath& path, bool json, const Surroundings& around);

}  // namespace backfit

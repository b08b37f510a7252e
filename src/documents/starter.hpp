// SPDX-License-Identifier: MIT
// Folders to begin with: a file to fill in, its schema for editors, a survey sheet to print.
#pragma once
#include <filesystem>
#include <string>

#include "files/folder.hpp"

namespace backfit {

// Schemas of the hand-written files, from the tables that read them.
std::string camera_schema();
std::string conversion_schema();
std::string prices_schema();

// new.camera.toml, camera.schema.json and survey-sheet.pdf.
FolderContents camera_starter(const std::filesystem::path& font_folder);

// new.conversion.toml and conversion.schema.json.
FolderContents conversion_starter();

// new.prices.toml and prices.schema.json.
FolderContents prices_starter();

}  // namespace backfit

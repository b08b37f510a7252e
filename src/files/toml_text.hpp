// SPDX-License-Identifier: MIT
// TOML syntax with recovery: a guilty line is reported and passed over, so that one run finds all.
#pragma once
#include <toml++/toml.h>

#include <optional>
#include <set>
#include <string>

#include "files/diagnostic.hpp"

namespace backfit {

struct TomlText {
  std::optional<toml::table> root;  // empty when nothing could be saved
  std::set<std::string> lost_keys;  // keys that stood on lines passed over
};

// Parses `source`; adds one error for each line that isn't TOML, up to 20.
TomlText parse_toml(const std::shared_ptr<const SourceText>& source, Diagnostics& diagnostics);

}  // namespace backfit

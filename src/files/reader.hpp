// SPDX-License-Identifier: MIT
// A TOML file read into a record, with every mistake reported at its place.
#pragma once
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "files/diagnostic.hpp"
#include "files/fields.hpp"

namespace backfit {

using Description = std::function<void(Fields&)>;

// Reads `source` (TOML 1.0) by `description`. Adds one error for each mistake: syntax (one a
// line), unknown, missing and repeated keys, wrong types, faults of quantities; true when none
// was added. The messages are in the file's order. A length without ± takes the default of its
// tool; one note lists those of a file without mistakes.
bool read_by(const std::shared_ptr<const SourceText>& source, const Description& description,
             Diagnostics& diagnostics);

// A value of a file where it stands, with what its key means.
struct ReadValue {
  std::string key;  // with its tables: "insert.set_back"
  std::string meaning;
  const QuantityKind* kind = nullptr;  // null: no quantity
  Sign sign = Sign::positive;
  Place place;
};

// The values of `source` that read well, in the order of `description`, mistakes beside them or
// not.
std::vector<ReadValue> values_in(const std::shared_ptr<const SourceText>& source,
                                 const Description& description);

// The record of type R in `source`; empty exactly when an error was added.
template <class R>
std::optional<R> read_record(const std::shared_ptr<const SourceText>& source,
                             Diagnostics& diagnostics) {
  R record;
  if (!read_by(
          source, [&](Fields& fields) { describe(fields, record); }, diagnostics))
    return {};
  return record;
}

}  // namespace backfit

// SPDX-License-Identifier: MIT
// Which scene a conversion makes for a study of leaking light.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "conversion/leak_back.hpp"
#include "conversion/leak_insert.hpp"

namespace backfit {

// Each for the method that it is of.
struct LeakChoices {
  LeakBack back;
  LeakInsert insert;
};

// What is studied: of an insert with its own study. Both outlive what is made of them.
struct LeakSubject {
  const Assembly& assembly;
  const InsertStudy* insert = nullptr;
};

// Why a conversion can't be studied so; empty when it can: a back on the seat whose plate has all
// its numbers, or a printed insert whose pieces have, and seams whose sections can be.
std::optional<std::string> leak_refusal(const LeakSubject& subject,
                                        const LeakChoices& choices = {});

// Require no leak_refusal().
SeamScene seam_scene(const LeakSubject& subject, const LeakChoices& choices, std::size_t columns,
                     std::size_t rows);
std::vector<SeamRemedy> seam_remedies(const LeakSubject& subject, const LeakChoices& choices,
                                      std::size_t columns, std::size_t rows);

}  // namespace backfit

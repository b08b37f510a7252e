// SPDX-License-Identifier: MIT
// Which scene a conversion makes for a study of leaking light.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "conversion/leak_back.hpp"
#include "conversion/leak_insert.hpp"
#include "conversion/leak_own.hpp"
#include "conversion/leak_pack.hpp"

namespace backfit {

// Each for the method that it is of: `back` for a back on the seat and an instant back, `own` where
// nothing but small parts is printed.
struct LeakChoices {
  LeakBack back;
  LeakInsert insert;
  LeakPack pack;
  LeakOwn own;
};

// What is studied: of an insert with its own study. Both outlive what is made of them.
struct LeakSubject {
  const Assembly& assembly;
  const InsertStudy* insert = nullptr;
};

struct LeakRefusal {
  std::string why, help;
};

// Why a conversion can't be studied so; empty when it can: what carries the film is to be printed
// and has all its numbers, or a small part of another conversion stands between daylight and film;
// and the seams have sections that can be worked out.
std::optional<LeakRefusal> leak_refusal(const LeakSubject& subject,
                                        const LeakChoices& choices = {});

// Require no leak_refusal().
SeamScene seam_scene(const LeakSubject& subject, const LeakChoices& choices, std::size_t columns,
                     std::size_t rows);
std::vector<SeamRemedy> seam_remedies(const LeakSubject& subject, const LeakChoices& choices,
                                      std::size_t columns, std::size_t rows);

}  // namespace backfit

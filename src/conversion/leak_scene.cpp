// SPDX-License-Identifier: MIT
#include "conversion/leak_scene.hpp"

#include <type_traits>
#include <utility>

#include "conversion/methods.hpp"

namespace backfit {
namespace {

// An insert whose numbers nobody looked for is not to be printed.
bool is_own(const LeakSubject& s) {
  return s.assembly.method() == Method::own_holder ||
         (s.assembly.method() == Method::insert && s.insert == nullptr);
}

LeakRefusal without_parts(const Assembly& a) {
  const std::string nothing = "nothing that is designed here lies between daylight and film: ";
  const std::string mesh = "of a part that you drew give the mesh to backfit leak --mesh";
  if (a.method() == Method::own_holder) {
    return {nothing + "the film lies in the camera's own holder", mesh};
  }
  if (a.plan.window_cover) {
    return {nothing + "behind the window cover lies the film's backing paper", mesh};
  }
  return {nothing + "the insert is not to be printed",
          mesh +
              ", or ask for a printed insert: "
              "[chamber] in the camera file, [printer] and film_goes under [insert] here"};
}

// What stands against a scene before it is made.
std::optional<LeakRefusal> unknown(const LeakSubject& s) {
  const Assembly& a = s.assembly;
  const std::string see = "see backfit check";
  switch (a.method()) {
    case Method::back_on_seat:
      if (!a.plate) return LeakRefusal{"the plate's numbers are not all known", see};
      break;
    case Method::instant_back:
      if (!a.adapter) {
        return LeakRefusal{"the instant back has no adapter whose seams could be followed",
                           "measure its mounting and add [back.mounting]"};
      }
      break;
    case Method::insert:
      if (s.insert != nullptr && (!s.insert->part || !s.insert->path.layout)) {
        return LeakRefusal{"the insert's numbers are not all known", see};
      }
      break;
    case Method::pack_holder:
      if (!a.pack_holder) return LeakRefusal{"the holder's numbers are not all known", see};
      break;
    case Method::own_holder:
      break;
  }
  if (is_own(s) && !has_small_parts(a)) return without_parts(a);
  return {};
}

// Calls `of` with the choices that are the method's.
template <class Of>
auto with_choice(const LeakSubject& s, const LeakChoices& choices, const Of& of) {
  switch (s.assembly.method()) {
    case Method::back_on_seat:
    case Method::instant_back:
      return of(choices.back);
    case Method::pack_holder:
      return of(choices.pack);
    case Method::insert:
    case Method::own_holder:
      break;
  }
  return is_own(s) ? of(choices.own) : of(choices.insert);
}

}  // namespace

std::optional<LeakRefusal> leak_refusal(const LeakSubject& s, const LeakChoices& choices) {
  if (auto why = unknown(s)) return why;
  const SeamScene scene = seam_scene(s, choices, 1, 1);
  auto fault = fault_of(scene);
  if (!fault) return {};
  if (!scene.seams.empty()) return LeakRefusal{std::move(*fault), {}};
  return LeakRefusal{"felt shuts every seam, and what the print passes is not known",
                     "write two [[printer.wall_readings]], or give two readings of the felt, with "
                     "--felt-stops or on the page"};
}

SeamScene seam_scene(const LeakSubject& s, const LeakChoices& choices, std::size_t columns,
                     std::size_t rows) {
  return with_choice(s, choices, [&](const auto& how) {
    if constexpr (std::is_same_v<decltype(how), const LeakInsert&>) {
      return seam_scene(s.assembly, *s.insert, how, columns, rows);
    } else {
      return seam_scene(s.assembly, how, columns, rows);
    }
  });
}

std::vector<SeamRemedy> seam_remedies(const LeakSubject& s, const LeakChoices& choices,
                                      std::size_t columns, std::size_t rows) {
  return with_choice(s, choices, [&](const auto& how) {
    if constexpr (std::is_same_v<decltype(how), const LeakInsert&>) {
      return seam_remedies(s.assembly, *s.insert, how, columns, rows);
    } else {
      return seam_remedies(s.assembly, how, columns, rows);
    }
  });
}

}  // namespace backfit

// SPDX-License-Identifier: MIT
#include "conversion/leak_scene.hpp"

namespace backfit {

std::optional<std::string> leak_refusal(const LeakSubject& s, const LeakChoices& choices) {
  switch (s.assembly.method()) {
    case Method::back_on_seat:
      if (!s.assembly.plate) return "the plate's numbers are not all known: see backfit check";
      break;
    case Method::insert:
      if (s.insert == nullptr || !s.insert->part || !s.insert->path.layout) {
        return "the insert is none to print whose numbers are all known: see backfit check";
      }
      break;
    case Method::instant_back:
    case Method::own_holder:
    case Method::pack_holder:
      return "only the seams of a back on the seat or of a printed insert can be followed yet; for "
             "another part that you drew, give its mesh with --mesh";
  }
  return fault_of(seam_scene(s, choices, 1, 1));
}

SeamScene seam_scene(const LeakSubject& s, const LeakChoices& choices, std::size_t columns,
                     std::size_t rows) {
  return s.assembly.method() == Method::insert
             ? seam_scene(s.assembly, *s.insert, choices.insert, columns, rows)
             : seam_scene(s.assembly, choices.back, columns, rows);
}

std::vector<SeamRemedy> seam_remedies(const LeakSubject& s, const LeakChoices& choices,
                                      std::size_t columns, std::size_t rows) {
  return s.assembly.method() == Method::insert
             ? seam_remedies(s.assembly, *s.insert, choices.insert, columns, rows)
             : seam_remedies(s.assembly, choices.back, columns, rows);
}

}  // namespace backfit

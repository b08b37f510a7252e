// SPDX-License-Identifier: MIT
// Leaking light as a picture: what needs the page.
#include <ostream>

#include "cli/leak_task.hpp"
#include "documents/leak_answer.hpp"
#include "files/folder.hpp"

namespace backfit {

int draw_leak(const LeakRequest& request, const std::filesystem::path& svg, bool json,
              const Surroundings& around) {
  const auto task = leak_task(request, json, around);
  if (!task) return unusable;
  const auto study = watched(*task, around);
  if (!study) return unusable;
  replace_file(svg, leak_svg(task->title, *study, around.data / "fonts"));
  around.out << (json ? leak_json(*study) : leak_summary(task->title, *study));
  return fine;
}

}  // namespace backfit

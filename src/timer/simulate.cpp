// SPDX-License-Identifier: MIT
// The one place that knows the circuit-simulation library. It keeps its state in globals and prints
// through callbacks; it says that a circuit is bad only in what it prints, and goes on with the one
// before. So each run starts from an empty library, and what it prints is read.
#include <ngspice/sharedspice.h>

#include <sstream>
#include <string>
#include <string_view>
#include <vector>

#include "timer/netlist.hpp"

namespace backfit {
namespace {

// What the library has said since it was last asked, and whether it can still be asked.
struct Talk {
  std::string first_complaint;
  bool fatal = false;
};

int listen(char* text, int /*library*/, void* talk_pointer) {
  auto& talk = *static_cast<Talk*>(talk_pointer);
  std::string_view line(text);
  if (!line.starts_with("stderr ")) return 0;
  line.remove_prefix(std::string_view("stderr ").size());
  // Notes are about start-up files that a library alone has none of.
  if (line.starts_with("Note:") || line.empty()) return 0;
  if (talk.first_complaint.empty()) talk.first_complaint = line;
  return 0;
}
int ignore_status(char*, int, void*) { return 0; }
int ignore_data(pvecvaluesall, int, int, void*) { return 0; }
int ignore_plan(pvecinfoall, int, void*) { return 0; }
int ignore_thread(NG_BOOL, int, void*) { return 0; }
int give_up(int, NG_BOOL, NG_BOOL, int, void* talk_pointer) {
  static_cast<Talk*>(talk_pointer)->fatal = true;
  return 0;
}

Talk& library() {
  static Talk talk;
  static const bool started = [] {
    talk.fatal = ngSpice_Init(listen, ignore_status, give_up, ignore_data, ignore_plan,
                              ignore_thread, &talk) != 0;
    return true;
  }();
  static_cast<void>(started);
  return talk;
}

bool command(std::string words) { return ngSpice_Command(words.data()) == 0; }

std::vector<std::string> lines_of(const std::string& netlist) {
  std::vector<std::string> lines;
  std::istringstream in(netlist);
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

bool load(std::vector<std::string> lines) {
  std::vector<char*> pointers;
  pointers.reserve(lines.size() + 1);
  for (std::string& line : lines) pointers.push_back(line.data());
  pointers.push_back(nullptr);
  return ngSpice_Circ(pointers.data()) == 0;
}

}  // namespace

Simulated simulated(const std::string& netlist) {
  Talk& talk = library();
  const auto failed = [&](const std::string& otherwise) {
    return Simulated{{},
                     "the circuit simulator says: " +
                         (talk.first_complaint.empty() ? otherwise : talk.first_complaint)};
  };
  if (talk.fatal) return failed("it can't be started");
  talk.first_complaint.clear();
  const std::vector<std::string> lines = lines_of(netlist);
  const bool loaded = load(lines) && talk.first_complaint.empty() && !talk.fatal;
  bool ran = loaded && command("run") && !talk.fatal;
  // The library leaves measurements to be asked for.
  for (const std::string& line : lines) {
    if (line.starts_with(".meas")) ran = ran && command(line.substr(1)) && !talk.fatal;
  }
  Simulated result = failed("there is no answer");
  if (ran && talk.first_complaint.empty()) {
    char name[] = "closing";
    const vector_info* found = ngGet_Vec_Info(name);
    if (found != nullptr && found->v_length > 0 && found->v_realdata != nullptr) {
      result = {found->v_realdata[0] * second, {}};
    }
  }
  if (!talk.fatal) {
    command("destroy all");
    if (loaded) command("remcirc");
  }
  return result;
}

}  // namespace backfit

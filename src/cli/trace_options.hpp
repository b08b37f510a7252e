// SPDX-License-Identifier: MIT
// The words after `trace`, read into what is asked.
#pragma once
#include <string>
#include <vector>

#include "cli/commands.hpp"

namespace CLI {
class App;
}

namespace backfit {

// The words themselves.
struct TraceWords {
  std::vector<std::string> marked;
  std::string sensor_rise, step;
  int channel = 0;  // from 1; 0: not said
};

// Adds the options to the command; `words` and `request` must outlive the parsing.
void add_trace_options(CLI::App& trace, TraceWords& words, TraceRequest& request);

// Reads the words into `request`. Throws CLI::ValidationError for a text that is no quantity.
void read_trace_words(const TraceWords& words, TraceRequest& request);

}  // namespace backfit

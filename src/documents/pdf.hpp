// SPDX-License-Identifier: MIT
// What the drawing library can't say in a PDF: print at true size, the language, tagged text.
#pragma once
#include <string>

namespace backfit::paper {

// `pdf` with an incremental update (ISO 32000-1, 7.5.6, FROM MEMORY) appended that adds
// /ViewerPreferences << /PrintScaling /None >>, /Lang (en) and /MarkInfo << /Marked true >> to
// its catalogue. A viewer may still scale, so a template also needs its check rulers.
// Requires a PDF with one plain cross-reference table and none of these keys, as cairo 1.16
// writes it; throws std::runtime_error otherwise, for another version may write another form.
std::string with_true_size_printing(std::string pdf);

}  // namespace backfit::paper

// SPDX-License-Identifier: MIT
#include "documents/pdf.hpp"

#include <charconv>
#include <cstdio>
#include <stdexcept>
#include <string_view>

namespace backfit::paper {

namespace {

[[noreturn]] void unknown_form() {
  throw std::runtime_error("the installed cairo writes PDF in a form this program doesn't know");
}

std::size_t place_of(std::string_view text, std::string_view key, std::size_t from = 0) {
  const std::size_t at = text.find(key, from);
  if (at == std::string_view::npos) unknown_form();
  return at;
}

// The whole number after `key` at or behind `from`.
std::size_t number_after(std::string_view text, std::string_view key, std::size_t from) {
  std::size_t at = place_of(text, key, from) + key.size();
  while (at < text.size() && (text[at] == ' ' || text[at] == '\n')) ++at;
  std::size_t value = 0;
  if (std::from_chars(text.data() + at, text.data() + text.size(), value).ec != std::errc{}) {
    unknown_form();
  }
  return value;
}

}  // namespace

std::string with_true_size_printing(std::string pdf) {
  const std::size_t trailer = pdf.rfind("trailer");
  if (trailer == std::string::npos) unknown_form();
  const std::size_t size = number_after(pdf, "/Size", trailer);
  const std::size_t root = number_after(pdf, "/Root", trailer);
  const std::size_t info = number_after(pdf, "/Info", trailer);
  const std::size_t table = number_after(pdf, "startxref", trailer);

  const std::string head = "\n" + std::to_string(root) + " 0 obj\n";
  const std::size_t object = pdf.rfind(head);
  if (object == std::string::npos) unknown_form();
  const std::size_t end = place_of(pdf, "\nendobj", object);
  std::string catalogue = pdf.substr(object + 1, end - object - 1);
  const std::size_t close = catalogue.rfind(">>");
  if (close == std::string::npos) unknown_form();
  for (const char* key : {"/ViewerPreferences", "/Lang", "/MarkInfo"}) {
    if (catalogue.find(key) != std::string::npos) unknown_form();
  }
  catalogue.insert(close,
                   "   /ViewerPreferences << /PrintScaling /None >>\n"
                   "   /Lang (en)\n"
                   "   /MarkInfo << /Marked true >>\n");

  if (pdf.back() != '\n') pdf += '\n';
  const std::size_t new_object = pdf.size();
  pdf += catalogue + "\nendobj\n";
  const std::size_t new_table = pdf.size();
  char entry[21];
  std::snprintf(entry, sizeof entry, "%010zu 00000 n \n", new_object);
  pdf += "xref\n" + std::to_string(root) + " 1\n" + entry + "trailer\n<< /Size " +
         std::to_string(size) + "\n   /Root " + std::to_string(root) + " 0 R\n   /Info " +
         std::to_string(info) + " 0 R\n   /Prev " + std::to_string(table) + "\n>>\nstartxref\n" +
         std::to_string(new_table) + "\n%%EOF\n";
  return pdf;
}

}  // namespace backfit::paper

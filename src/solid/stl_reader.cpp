// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cstring>

#include "solid/mesh_builder.hpp"
#include "solid/mesh_file.hpp"

namespace backfit {
namespace {

constexpr std::size_t header_bytes = 84, triangle_bytes = 50;

std::uint32_t u32_at(std::string_view bytes, std::size_t at) {
  std::uint32_t value = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    value |= std::uint32_t{static_cast<unsigned char>(bytes[at + i])} << (8 * i);
  }
  return value;
}

MeshBuilder::Corner corner_at(std::string_view bytes, std::size_t at) {
  return {std::bit_cast<float>(u32_at(bytes, at)), std::bit_cast<float>(u32_at(bytes, at + 4)),
          std::bit_cast<float>(u32_at(bytes, at + 8))};
}

ReadMeshes read_binary(std::string_view bytes) {
  if (bytes.size() < header_bytes) {
    return MeshFault{fmt::format("the file ends after {} bytes, within the header of 84 bytes that "
                                 "an STL file begins with",
                                 bytes.size()),
                     {}};
  }
  const std::size_t said = u32_at(bytes, 80);
  const std::size_t held = (bytes.size() - header_bytes) / triangle_bytes;
  if (said > held) {
    return MeshFault{
        fmt::format("its header says {} triangles, but the file ends after {}", said, held),
        "copy or export the file anew"};
  }
  if (bytes.size() != header_bytes + said * triangle_bytes) {
    return MeshFault{fmt::format("its header says {} triangles, but {} bytes follow them", said,
                                 bytes.size() - header_bytes - said * triangle_bytes),
                     "copy or export the file anew"};
  }
  MeshBuilder builder;
  for (std::size_t i = 0; i < said; ++i) {
    const std::size_t at = header_bytes + i * triangle_bytes + 12;  // behind the normal
    std::array<MeshBuilder::Corner, 3> c{};
    for (std::size_t k = 0; k < 3; ++k) {
      c.at(k) = corner_at(bytes, at + 12 * k);
      if (!MeshBuilder::is_finite(c.at(k))) {
        return MeshFault{fmt::format("corner {} of triangle {} lies nowhere: ({:g}, {:g}, {:g})",
                                     k + 1, i + 1, c.at(k)[0], c.at(k)[1], c.at(k)[2]),
                         {}};
      }
    }
    builder.add(c[0], c[1], c[2]);
  }
  return std::vector<NamedMesh>{{"part", std::move(builder).mesh()}};
}

// The words of the text form, one after another, and the line that each stands on.
class Words {
 public:
  explicit Words(std::string_view text) : text_(text) {}

  std::string_view next() {
    while (at_ < text_.size() && is_space(text_[at_])) {
      if (text_[at_++] == '\n') ++line_;
    }
    const std::size_t from = at_;
    while (at_ < text_.size() && !is_space(text_[at_])) ++at_;
    return text_.substr(from, at_ - from);
  }
  std::string_view rest_of_line() {
    const std::size_t from = at_;
    while (at_ < text_.size() && text_[at_] != '\n') ++at_;
    std::string_view rest = text_.substr(from, at_ - from);
    while (!rest.empty() && is_space(rest.front())) rest.remove_prefix(1);
    while (!rest.empty() && is_space(rest.back())) rest.remove_suffix(1);
    return rest;
  }
  std::size_t line() const { return line_; }

 private:
  static bool is_space(char c) { return c == ' ' || (c >= '\t' && c <= '\r'); }

  std::string_view text_;
  std::size_t at_ = 0, line_ = 1;
};

class TextReader {
 public:
  explicit TextReader(std::string_view bytes) : words_(bytes) {}

  ReadMeshes read() {
    std::vector<NamedMesh> parts;
    for (std::string_view word = words_.next(); !word.empty(); word = words_.next()) {
      if (!is(word, "solid")) return wrong("solid", word);
      std::string name(words_.rest_of_line());
      MeshBuilder builder;
      for (word = words_.next(); is(word, "facet"); word = words_.next()) {
        if (auto fault = facet(builder)) return *fault;
      }
      if (!is(word, "endsolid")) return wrong("facet or endsolid", word);
      words_.rest_of_line();
      parts.push_back({name.empty() ? "part" : std::move(name), std::move(builder).mesh()});
    }
    return parts;
  }

 private:
  static bool is(std::string_view word, std::string_view wanted) {
    return std::equal(word.begin(), word.end(), wanted.begin(), wanted.end(), [](char a, char b) {
      return (a >= 'A' && a <= 'Z' ? static_cast<char>(a - 'A' + 'a') : a) == b;
    });
  }
  MeshFault wrong(std::string_view needed, std::string_view found) const {
    return {fmt::format(
                "line {}: {} is needed, found {}", words_.line(), needed,
                found.empty() ? "the end of the file" : fmt::format("'{}'", found.substr(0, 40))),
            {}};
  }
  std::optional<MeshFault> demand(std::string_view wanted) {
    const std::string_view word = words_.next();
    if (is(word, wanted)) return {};
    return wrong(wanted, word);
  }
  std::optional<MeshFault> number(float& value) {
    std::string_view word = words_.next();
    const std::string_view whole = word;
    if (word.starts_with('+')) word.remove_prefix(1);
    const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), value);
    if (error != std::errc{} || end != word.data() + word.size() || !std::isfinite(value)) {
      return wrong("a number", whole);
    }
    return {};
  }
  std::optional<MeshFault> facet(MeshBuilder& builder) {
    if (auto fault = demand("normal")) return fault;
    for (int i = 0; i < 3; ++i) words_.next();  // of no use, and written as nan by some
    if (auto fault = demand("outer")) return fault;
    if (auto fault = demand("loop")) return fault;
    std::array<MeshBuilder::Corner, 3> corners{};
    for (MeshBuilder::Corner& corner : corners) {
      if (auto fault = demand("vertex")) return fault;
      for (float& x : corner) {
        if (auto fault = number(x)) return fault;
      }
    }
    if (auto fault = demand("endloop")) return fault;
    if (auto fault = demand("endfacet")) return fault;
    builder.add(corners[0], corners[1], corners[2]);
    return {};
  }

  Words words_;
};

// Some programs begin the binary form, too, with "solid".
bool is_text(std::string_view bytes) {
  const bool right_length =
      bytes.size() >= header_bytes &&
      bytes.size() == header_bytes + std::size_t{u32_at(bytes, 80)} * triangle_bytes;
  const std::size_t first = bytes.find_first_not_of(" \t\r\n");
  if (right_length || first == std::string_view::npos) return false;
  const std::string_view start = bytes.substr(first, 1024);
  return start.starts_with("solid") && start.find('\0') == std::string_view::npos;
}

}  // namespace

ReadMeshes stl_meshes(std::string_view bytes) {
  return is_text(bytes) ? TextReader(bytes).read() : read_binary(bytes);
}

ReadMeshes meshes_of(std::string_view bytes) {
  ReadMeshes read = bytes.starts_with("PK") ? three_mf_meshes(bytes) : stl_meshes(bytes);
  auto* parts = std::get_if<std::vector<NamedMesh>>(&read);
  if (parts == nullptr) return read;
  std::size_t count = 0;
  for (const NamedMesh& part : *parts) count += part.mesh.triangles.size();
  if (count > most_triangles) {
    return MeshFault{
        fmt::format("it holds {} triangles, at most {} are read", count, most_triangles), {}};
  }
  // Names tell seams apart.
  for (std::size_t i = 0; i < parts->size(); ++i) {
    const std::string name = (*parts)[i].name;
    std::size_t same = 1;
    for (std::size_t k = i + 1; k < parts->size(); ++k) {
      if ((*parts)[k].name == name) (*parts)[k].name += fmt::format(" {}", ++same);
    }
  }
  return read;
}

}  // namespace backfit

// SPDX-License-Identifier: MIT
#include "solid/xml.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cstdint>

namespace backfit {
namespace {

bool is_space(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }
bool ends_name(char c) { return is_space(c) || c == '/' || c == '>' || c == '='; }

void append_utf8(std::string& out, std::uint32_t c) {
  const auto byte = [&](std::uint32_t value) { out += static_cast<char>(value); };
  if (c < 0x80) {
    byte(c);
  } else if (c < 0x800) {
    byte(0xc0U | c >> 6U);
    byte(0x80U | (c & 0x3fU));
  } else if (c < 0x10000) {
    byte(0xe0U | c >> 12U);
    byte(0x80U | (c >> 6U & 0x3fU));
    byte(0x80U | (c & 0x3fU));
  } else {
    byte(0xf0U | (c >> 18U & 7U));
    byte(0x80U | (c >> 12U & 0x3fU));
    byte(0x80U | (c >> 6U & 0x3fU));
    byte(0x80U | (c & 0x3fU));
  }
}

}  // namespace

std::optional<std::string_view> XmlReader::Tag::attribute(std::string_view wanted) const {
  for (const auto& [key, value] : attributes) {
    if (key == wanted) return value;
  }
  return {};
}

std::size_t XmlReader::line() const {
  return 1 + static_cast<std::size_t>(std::ranges::count(text_.substr(0, start_), '\n'));
}

const XmlReader::Tag* XmlReader::wrong(std::string what) {
  fault_ = fmt::format("line {}: {}", line(), what);
  at_ = text_.size();
  return nullptr;
}

const XmlReader::Tag* XmlReader::next() {
  const auto skip = [this](std::string_view opening, std::string_view closing) {
    if (!text_.substr(start_).starts_with(opening)) return false;
    const std::size_t end = text_.find(closing, start_ + opening.size());
    at_ = end == std::string_view::npos ? end : end + closing.size();
    return true;
  };
  for (;;) {
    start_ = text_.find('<', at_);
    if (start_ == std::string_view::npos) return nullptr;
    if (!(skip("<!--", "-->") || skip("<?", "?>") || skip("<![CDATA[", "]]>") || skip("<!", ">"))) {
      break;
    }
    if (at_ == std::string_view::npos) return wrong("the text ends within a comment");
  }
  at_ = start_ + 1;
  const auto peek = [this] { return at_ < text_.size() ? text_[at_] : '\0'; };
  const auto name = [&] {
    const std::size_t from = at_;
    while (at_ < text_.size() && !ends_name(text_[at_])) ++at_;
    return text_.substr(from, at_ - from);
  };
  const auto spaces = [&] {
    while (is_space(peek())) ++at_;
  };
  tag_ = {};
  tag_.closes = peek() == '/';
  tag_.opens = !tag_.closes;
  if (tag_.closes) ++at_;
  tag_.name = name();
  if (tag_.name.empty()) return wrong("a tag without a name");
  for (spaces(); peek() != '>'; spaces()) {
    if (at_ >= text_.size()) return wrong("the text ends within a tag");
    if (peek() == '/') {
      ++at_;
      tag_.closes = true;
      continue;
    }
    const std::string_view key = name();
    spaces();
    if (key.empty() || peek() != '=') return wrong("an attribute without a value");
    ++at_;
    spaces();
    const char quote = peek();
    if (quote != '"' && quote != '\'') return wrong("an attribute's value without quotes");
    const std::size_t from = ++at_;
    at_ = text_.find(quote, at_);
    if (at_ == std::string_view::npos) return wrong("the text ends within a tag");
    tag_.attributes.emplace_back(key, text_.substr(from, at_ - from));
    ++at_;
  }
  ++at_;
  return &tag_;
}

std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : text) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      default:
        out += static_cast<unsigned char>(c) < 0x20 ? ' ' : c;
    }
  }
  return out;
}

std::string unescaped(std::string_view written) {
  static constexpr std::pair<std::string_view, char> known[] = {
      {"amp", '&'}, {"lt", '<'}, {"gt", '>'}, {"quot", '"'}, {"apos", '\''}};
  std::string out;
  for (std::size_t i = 0; i < written.size(); ++i) {
    const std::size_t end = written[i] == '&' ? written.find(';', i) : std::string_view::npos;
    if (end == std::string_view::npos) {
      out += written[i];
      continue;
    }
    std::string_view entity = written.substr(i + 1, end - i - 1);
    if (entity.starts_with('#')) {
      const bool hex = entity.starts_with("#x");
      entity.remove_prefix(hex ? 2 : 1);
      std::uint32_t code = 0xfffd;
      std::from_chars(entity.data(), entity.data() + entity.size(), code, hex ? 16 : 10);
      append_utf8(out, code < 0x20 || code > 0x10ffff ? 0xfffd : code);
    } else {
      for (const auto& [word, character] : known) {
        if (word == entity) out += character;
      }
    }
    i = end;
  }
  return out;
}

}  // namespace backfit

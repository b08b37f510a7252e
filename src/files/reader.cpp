// SPDX-License-Identifier: MIT
#include "files/reader.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <set>

#include "files/cell_reader.hpp"
#include "files/toml_text.hpp"

namespace backfit {
namespace {

std::string key_path(const std::string& parent, std::string_view key) {
  return parent.empty() ? std::string(key) : parent + "." + std::string(key);
}

class Reader : public Fields {
 public:
  // Notes what it reads in `values`, if they are asked for.
  Reader(const std::shared_ptr<const SourceText>& source, Diagnostics& diagnostics, TomlText& toml,
         std::vector<ReadValue>* values = nullptr)
      : source_(source),
        diagnostics_(diagnostics),
        reading_(source, diagnostics),
        lost_(toml.lost_keys),
        values_(values) {
    levels_.push_back({&*toml.root, "", {}, {}});
  }

  // The keys of the outermost table; call note_assumed_tolerances() after it when all is well.
  void finish() { report_unknown(levels_.back()); }
  void note_assumed_tolerances() { reading_.note_assumed_tolerances(); }

 protected:
  std::optional<Cell> cell(std::string_view key, const CellForm& form, const About& about,
                           bool required) override {
    const toml::node* node = find(key, about, required, written_example(form, about, false));
    return node == nullptr ? std::nullopt : cell_of(*node, key, form, about);
  }

  std::vector<Cell> cells(std::string_view key, const CellForm& form, const About& about,
                          bool required) override {
    std::vector<Cell> list;
    const toml::node* node = find(key, about, required, written_example(form, about, true));
    if (node == nullptr) return list;
    const toml::array* array = node->as_array();
    if (array == nullptr) {
      reading_.wrong_type(*node, key, "a list in brackets");
      return list;
    }
    if (required && array->empty()) {
      needs_an_entry(*node, key, about);
    }
    About of_item = about;
    of_item.example = about.example.substr(0, about.example.find(", "));
    for (const toml::node& item : *array) {
      if (auto c = cell_of(item, key, form, of_item)) list.push_back(std::move(*c));
    }
    return list;
  }

  bool enter(std::string_view key, const About& about, bool required) override {
    const toml::node* node = find(key, about, required, {});
    if (node == nullptr) return false;
    const toml::table* table = node->as_table();
    if (table == nullptr) {
      reading_.wrong_type(*node, key, "a table");
      return false;
    }
    levels_.push_back({table, key_path(levels_.back().path, key), {}, {}});
    return true;
  }

  std::size_t enter_list(std::string_view key, const About& about, bool required) override {
    lists_.push_back({});
    const toml::node* node = find(key, about, required, {}, true);
    if (node == nullptr) return 0;
    const toml::array* array = node->as_array();
    if (array == nullptr) {
      reading_.wrong_type(*node, key, "a list of tables");
      return 0;
    }
    if (required && array->empty()) needs_an_entry(*node, key, about);
    for (const toml::node& item : *array) {
      if (const toml::table* table = item.as_table()) {
        lists_.back().tables.push_back(table);
      } else {
        reading_.wrong_type(item, key, "a table in braces, { ... }");
      }
    }
    lists_.back().path = key_path(levels_.back().path, key);
    return lists_.back().tables.size();
  }
  void enter_item(std::size_t index) override {
    levels_.push_back({lists_.back().tables[index], lists_.back().path, {}, {}});
  }
  std::vector<std::string> enter_names(std::string_view key, const About& about) override {
    lists_.push_back({});
    std::vector<std::string> names;
    const toml::node* node = find(key, about, false, {});
    const toml::table* table = node == nullptr ? nullptr : node->as_table();
    if (table == nullptr) {
      if (node != nullptr) reading_.wrong_type(*node, key, "a table");
      return names;
    }
    lists_.back().path = key_path(levels_.back().path, key);
    for (const auto& [name, item] : *table) {
      if (const toml::table* inner = item.as_table()) {
        names.emplace_back(name.str());
        lists_.back().tables.push_back(inner);
        lists_.back().names.emplace_back(name.str());
      } else {
        reading_.wrong_type(item, name.str(), "a table");
      }
    }
    return names;
  }
  void enter_name(const std::string& name) override {
    const auto it = std::ranges::find(lists_.back().names, name);
    const auto index = static_cast<std::size_t>(it - lists_.back().names.begin());
    levels_.push_back({lists_.back().tables[index], key_path(lists_.back().path, name), {}, {}});
  }
  void leave() override {
    report_unknown(levels_.back());
    levels_.pop_back();
  }
  void leave_list() override { lists_.pop_back(); }
  Place here() const override { return reading_.place_of(*levels_.back().table); }

 private:
  struct Level {
    const toml::table* table;
    std::string path;
    std::set<std::string, std::less<>> known;
    std::vector<std::string_view> names;
  };
  struct List {
    std::vector<const toml::table*> tables;
    std::vector<std::string> names;
    std::string path;
  };

  std::optional<Cell> cell_of(const toml::node& node, std::string_view key, const CellForm& form,
                              const About& about) {
    std::string path = key_path(levels_.back().path, key);
    auto cell = reading_.cell_of(node, key, path, form, about);
    if (cell && values_ != nullptr) {
      values_->push_back(
          {std::move(path), std::string(about.meaning), form.kind, about.sign, cell->place});
    }
    return cell;
  }

  void needs_an_entry(const toml::node& node, std::string_view key, const About& about) {
    diagnostics_.error(reading_.place_of(node),
                       fmt::format("'{}' must have at least one entry: {}", key,
                                   lower_case(std::string(about.meaning))));
  }

  // The node under `key` of the present table; notes a required one that is absent. `example` is
  // empty for a table.
  const toml::node* find(std::string_view key, const About& about, bool required,
                         const std::string& example, bool list = false) {
    Level& level = levels_.back();
    level.known.insert(std::string(key));
    level.names.push_back(*level.known.find(key));
    const toml::node* node = level.table->get(key);
    if (node == nullptr && required && lost_.count(std::string(key)) == 0) {
      missing_.push_back(
          {&level - levels_.data(), std::string(key), std::string(about.meaning), example, list});
    }
    return node;
  }

  // Just behind the last line that says something.
  Place end_of_file() const {
    std::size_t line = source_->line_count();
    while (line > 1 && source_->line(line).find_first_not_of(" \t") == std::string_view::npos)
      --line;
    return place_within(source_, line, source_->text().size(), 1);
  }

  static std::string lower_case(std::string heading) {
    if (!heading.empty()) heading[0] = static_cast<char>(std::tolower(heading[0]));
    return heading;
  }

  struct Missing {
    std::ptrdiff_t depth;
    std::string key, meaning, example;
    bool list;
  };

  // Unknown keys first: a misspelt key explains a missing one and silences it.
  void report_unknown(const Level& level) {
    const std::ptrdiff_t depth = &level - levels_.data();
    for (const auto& [key, node] : *level.table) {
      if (level.known.count(key.str()) != 0) continue;
      Place place = reading_.place_of(key.source());
      place.length = code_points(key.str());
      const std::string where =
          level.path.empty() ? "at the top of the file" : "in [" + level.path + "]";
      std::vector<std::string_view> absent;
      for (const std::string_view name : level.names) {
        if (level.table->get(name) == nullptr) absent.push_back(name);
      }
      std::string_view near = nearest_name(key.str(), absent);
      if (near.empty()) near = nearest_name(key.str(), level.names);
      std::string help;
      if (!near.empty()) {
        help = fmt::format("write {}", near);
        std::erase_if(missing_,
                      [&](const Missing& m) { return m.depth == depth && m.key == near; });
      } else {
        std::string all;
        for (const std::string_view name : level.names)
          all += (all.empty() ? "" : ", ") + std::string(name);
        help = "known keys here: " + all;
      }
      diagnostics_.error(place, fmt::format("there is no key '{}' {}", key.str(), where), help);
    }
    for (const Missing& m : missing_) {
      if (m.depth != depth) continue;
      // A missing table belongs at the end of the file, a missing value under its heading, a
      // value of no table before the first heading.
      const Place place = !level.path.empty() ? reading_.place_of(*level.table)
                          : m.example.empty() ? end_of_file()
                                              : place_within(source_, 1, 1, 1);
      const std::string where = level.path.empty() ? "the file" : "[" + level.path + "]";
      const std::string path = key_path(level.path, m.key);
      diagnostics_.error(
          place,
          fmt::format("{} lacks the {} '{}': {}", where, m.example.empty() ? "table" : "key", m.key,
                      m.example.empty() ? lower_case(m.meaning) : m.meaning),
          !m.example.empty() ? fmt::format("add {} = {}", m.key, m.example)
          : m.list           ? fmt::format("add [[{}]]", path)
                             : fmt::format("add [{}]", path));
    }
    std::erase_if(missing_, [&](const Missing& m) { return m.depth == depth; });
  }

  std::shared_ptr<const SourceText> source_;
  Diagnostics& diagnostics_;
  CellReader reading_;
  const std::set<std::string>& lost_;
  std::vector<ReadValue>* values_;
  std::vector<Level> levels_;
  std::vector<List> lists_;
  std::vector<Missing> missing_;
};

}  // namespace

bool read_by(const std::shared_ptr<const SourceText>& source, const Description& description,
             Diagnostics& diagnostics) {
  const std::size_t before = diagnostics.list().size();
  TomlText toml = parse_toml(source, diagnostics);
  if (toml.root) {
    Reader reader(source, diagnostics, toml);
    description(reader);
    reader.finish();
    if (diagnostics.list().size() == before) reader.note_assumed_tolerances();
  }
  diagnostics.put_in_file_order(before);
  return std::none_of(diagnostics.list().begin() + static_cast<std::ptrdiff_t>(before),
                      diagnostics.list().end(),
                      [](const Diagnostic& d) { return d.severity == Severity::error; });
}

std::vector<ReadValue> values_in(const std::shared_ptr<const SourceText>& source,
                                 const Description& description) {
  Diagnostics unsaid;
  std::vector<ReadValue> values;
  TomlText toml = parse_toml(source, unsaid);
  if (toml.root) {
    Reader reader(source, unsaid, toml, &values);
    description(reader);
  }
  return values;
}

}  // namespace backfit

// SPDX-License-Identifier: MIT
#include "files/blank_form.hpp"

#include <fmt/format.h>

namespace backfit {
namespace {

class FormWalker : public Fields {
 public:
  std::vector<FormLine> lines;

 protected:
  std::optional<Cell> cell(std::string_view key, const CellForm& form, const About& about,
                           bool required) override {
    add(key, form, about, required, false);
    return {};
  }
  std::vector<Cell> cells(std::string_view key, const CellForm& form, const About& about,
                          bool required) override {
    add(key, form, about, required, true);
    return {};
  }
  bool enter(std::string_view key, const About& about, bool required) override {
    heading(key, about, required, false);
    return true;
  }
  std::size_t enter_list(std::string_view key, const About& about, bool required) override {
    heading(key, about, required, true);
    return 1;
  }
  void enter_item(std::size_t) override {}
  std::vector<std::string> enter_names(std::string_view key, const About& about) override {
    heading(key, about, false, false);
    return {""};
  }
  void enter_name(const std::string&) override {}
  void leave() override { levels_.pop_back(); }
  void leave_list() override {}
  Place here() const override { return {}; }

 private:
  struct Level {
    std::string path;
    bool required;
  };

  void heading(std::string_view key, const About& about, bool required, bool list) {
    const Level parent = levels_.empty() ? Level{"", true} : levels_.back();
    const std::string path =
        parent.path.empty() ? std::string(key) : parent.path + "." + std::string(key);
    levels_.push_back({path, parent.required && required});
    lines.push_back(
        {true, list, levels_.back().required, path, "", std::string(about.meaning), "", ""});
  }

  void add(std::string_view key, const CellForm& form, const About& about, bool required,
           bool list) {
    const Level level = levels_.empty() ? Level{"", true} : levels_.back();
    std::string example = written_example(form, about, list);
    std::string blank = R"("")";
    switch (form.form) {
      case CellForm::Form::quantity:
      case CellForm::Form::text:
        break;
      case CellForm::Form::choice:
        example = list_of(form.choices, "or");
        if (form.choices.size() == 1) blank = example;  // nothing to choose
        break;
      case CellForm::Form::number:
      case CellForm::Form::integer:
        blank = example;
        break;
      case CellForm::Form::flag:
        blank = "false";
        break;
    }
    if (list && !blank.starts_with('[')) blank = "[" + blank + "]";
    lines.push_back({false, list, level.required && required, level.path, std::string(key),
                     std::string(about.meaning), example, blank});
  }

  std::vector<Level> levels_;
};

}  // namespace

std::vector<FormLine> form_lines(const Description& description) {
  FormWalker walker;
  description(walker);
  return std::move(walker.lines);
}

std::string blank_form(std::string_view schema_file, std::string_view heading,
                       const std::vector<FormLine>& lines) {
  std::string out = fmt::format("#:schema ./{}\n# {}\n\n", schema_file, heading);
  for (const FormLine& line : lines) {
    const std::string_view off = line.required ? "" : "# ";
    if (line.heading) {
      out += fmt::format("\n# {}{}\n{}{}{}{}\n", line.meaning,
                         line.required ? "" : " (leave out if there is none)", off,
                         line.list ? "[[" : "[", line.path, line.list ? "]]" : "]");
    } else {
      out += fmt::format("# {}{}\n{}{} = {}\n", line.meaning,
                         line.example.empty() ? "" : "; like " + line.example, off, line.key,
                         line.blank);
    }
  }
  return out;
}

}  // namespace backfit

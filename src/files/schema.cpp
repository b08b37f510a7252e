// SPDX-License-Identifier: MIT
#include "files/schema.hpp"

#include <nlohmann/json.hpp>

namespace backfit {
namespace {

using Json = nlohmann::ordered_json;

// Builds the schema of one table at a time; the innermost is on top of the stack.
class SchemaWalker : public Fields {
 public:
  explicit SchemaWalker(Json& root) { stack_.push_back(&root); }

  static Json object(std::string_view description) {
    Json o{{"type", "object"}};
    if (!description.empty()) o["description"] = description;
    o["properties"] = Json::object();
    o["additionalProperties"] = false;
    return o;
  }

 protected:
  std::optional<Cell> cell(std::string_view key, const CellForm& form, const About& about,
                           bool required) override {
    add(key, schema_of(form, about), required);
    return {};
  }
  std::vector<Cell> cells(std::string_view key, const CellForm& form, const About& about,
                          bool required) override {
    Json list{{"type", "array"}, {"description", about.meaning}};
    list["items"] = schema_of(form, {});
    if (required) list["minItems"] = 1;
    add(key, std::move(list), required);
    return {};
  }
  bool enter(std::string_view key, const About& about, bool required) override {
    stack_.push_back(&add(key, object(about.meaning), required));
    return true;
  }
  std::size_t enter_list(std::string_view key, const About& about, bool required) override {
    Json list{{"type", "array"}, {"description", about.meaning}};
    list["items"] = object({});
    if (required) list["minItems"] = 1;
    inner_ = &add(key, std::move(list), required)["items"];
    return 1;
  }
  void enter_item(std::size_t) override { stack_.push_back(inner_); }
  std::vector<std::string> enter_names(std::string_view key, const About& about) override {
    Json names{{"type", "object"}, {"description", about.meaning}};
    names["additionalProperties"] = object({});
    inner_ = &add(key, std::move(names), false)["additionalProperties"];
    return {""};
  }
  void enter_name(const std::string&) override { stack_.push_back(inner_); }
  void leave() override { stack_.pop_back(); }
  void leave_list() override {}
  Place here() const override { return {}; }

 private:
  Json& add(std::string_view key, Json schema, bool required) {
    Json& table = *stack_.back();
    if (required) table["required"].push_back(key);
    return table["properties"][std::string(key)] = std::move(schema);
  }

  static Json schema_of(const CellForm& form, const About& about) {
    Json s = Json::object();
    switch (form.form) {
      case CellForm::Form::quantity:
        s["type"] = "string";
        s["pattern"] = notation_pattern(*form.kind);
        break;
      case CellForm::Form::choice:
        s["enum"] = form.choices;
        break;
      case CellForm::Form::text:
        s["type"] = "string";
        s["minLength"] = 1;
        break;
      case CellForm::Form::number:
      case CellForm::Form::integer:
        s["type"] = form.form == CellForm::Form::number ? "number" : "integer";
        if (about.sign != Sign::any) s["minimum"] = 0;
        if (about.sign == Sign::positive) s["exclusiveMinimum"] = true;
        break;
      case CellForm::Form::flag:
        s["type"] = "boolean";
        break;
    }
    if (!about.meaning.empty()) s["description"] = about.meaning;
    return s;
  }

  std::vector<Json*> stack_;
  Json* inner_ = nullptr;
};

}  // namespace

std::string json_schema(std::string_view title, const Description& description) {
  Json root{{"$schema", "http://json-schema.org/draft-04/schema#"}, {"title", title}};
  root.update(SchemaWalker::object({}));
  SchemaWalker walker(root);
  description(walker);
  return root.dump(2) + "\n";
}

}  // namespace backfit

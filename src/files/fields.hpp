// SPDX-License-Identifier: MIT
// One table of a file's keys, from which it is read, checked, documented and made anew.
// A record type R is described once, by `void describe(Fields&, R&)`; the reader, the schema
// writer and the blank-form writer are three walkers of that one description.
#pragma once
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "files/source.hpp"
#include "quantity/notation.hpp"

namespace backfit {

// A value and the place in a file that states it.
template <class T>
struct Stated {
  T value{};
  Place place;
  const T& operator*() const { return value; }
  const T* operator->() const { return &value; }
};

// What a value was taken with: the tolerance assumed when none is written. Common practice.
enum class Tool { none, caliper, ruler, engraved, multimeter, recording, part_marking };

// What a key means, for people; how it was taken; which signs it may have.
struct About {
  std::string_view meaning;
  // As written, without quotes; the items of a list with ", " between. Empty: the kind's own.
  std::string_view example = {};
  Tool tool = Tool::none;
  Sign sign = Sign::positive;
};

// One value as it stands in a file, before it becomes a T.
struct Cell {
  Reading reading;    // quantities
  std::string text;   // text and choices
  double number = 0;  // plain numbers
  bool flag = false;
  Place place;
};

struct CellForm {
  enum class Form { quantity, text, number, integer, flag, choice } form = Form::text;
  const QuantityKind* kind = nullptr;
  bool takes_tolerance = false;
  std::vector<std::string_view> choices = {};
};

// `about`'s example as it stands in a file, quotes and brackets included; of a choice its first.
std::string written_example(const CellForm& form, const About& about, bool list);

// The choices in quotes, the last after `joint`: "folding", "box" or "rigid".
std::string list_of(std::span<const std::string_view> choices, std::string_view joint);

// A plain amount of money in the currency that the file names.
struct Money {
  double amount = 0;
};

// How a T stands in a file. Enumerations: specialise `choices_of` and they are covered.
template <class E>
std::span<const std::pair<std::string_view, E>> choices_of();

template <class T>
struct Codec {  // enumerations
  static CellForm form() {
    CellForm f{CellForm::Form::choice};
    for (const auto& [name, value] : choices_of<T>()) f.choices.push_back(name);
    return f;
  }
  static T from(const Cell& cell) {
    for (const auto& [name, value] : choices_of<T>()) {
      if (name == cell.text) return value;
    }
    return T{};
  }
};
template <Dimension D>
struct Codec<Measured<Quantity<D>>> {
  static CellForm form() { return {CellForm::Form::quantity, &kind_of<Quantity<D>>(), true}; }
  static Measured<Quantity<D>> from(const Cell& c) {
    return {Quantity<D>::of_base(c.reading.value),
            Quantity<D>::of_base(c.reading.tolerance.value_or(0))};
  }
};
template <>
struct Codec<Measured<double>> {
  static CellForm form() { return {CellForm::Form::quantity, &kind_of<double>(), true}; }
  static Measured<double> from(const Cell& c) {
    return {c.reading.value, c.reading.tolerance.value_or(0)};
  }
};
template <Dimension D>
struct Codec<Quantity<D>> {
  static CellForm form() { return {CellForm::Form::quantity, &kind_of<Quantity<D>>()}; }
  static Quantity<D> from(const Cell& c) { return Quantity<D>::of_base(c.reading.value); }
};
template <>
struct Codec<FNumber> {
  static CellForm form() { return {CellForm::Form::quantity, &kind_of<FNumber>()}; }
  static FNumber from(const Cell& c) { return {c.reading.value}; }
};
template <>
struct Codec<IsoSpeed> {
  static CellForm form() { return {CellForm::Form::quantity, &kind_of<IsoSpeed>()}; }
  static IsoSpeed from(const Cell& c) { return {c.reading.value}; }
};
template <>
struct Codec<std::string> {
  static CellForm form() { return {CellForm::Form::text}; }
  static std::string from(const Cell& c) { return c.text; }
};
template <>
struct Codec<int> {
  static CellForm form() { return {CellForm::Form::integer}; }
  static int from(const Cell& c) { return static_cast<int>(c.number); }
};
// A plain number: a scale's own, like a refractive index.
template <>
struct Codec<double> {
  static CellForm form() { return {CellForm::Form::number}; }
  static double from(const Cell& c) { return c.number; }
};
template <>
struct Codec<bool> {
  static CellForm form() { return {CellForm::Form::flag}; }
  static bool from(const Cell& c) { return c.flag; }
};
template <>
struct Codec<Money> {
  static CellForm form() { return {CellForm::Form::number}; }
  static Money from(const Cell& c) { return {c.number}; }
};

// Walks the description of a record. A plain member is a required key, an optional one may be left
// out.
class Fields {
 public:
  Fields() = default;
  Fields(const Fields&) = delete;
  Fields& operator=(const Fields&) = delete;
  virtual ~Fields() = default;

  template <class T>
  void value(std::string_view key, Stated<T>& out, const About& about) {
    if (auto c = cell(key, Codec<T>::form(), about, true)) out = {Codec<T>::from(*c), c->place};
  }
  template <class T>
  void value(std::string_view key, std::optional<Stated<T>>& out, const About& about) {
    if (auto c = cell(key, Codec<T>::form(), about, false)) {
      out = Stated<T>{Codec<T>::from(*c), c->place};
    }
  }
  // An array of values; `required` asks for at least one.
  template <class T>
  void values(std::string_view key, std::vector<Stated<T>>& out, const About& about,
              bool required) {
    for (const Cell& c : cells(key, Codec<T>::form(), about, required)) {
      out.push_back({Codec<T>::from(c), c.place});
    }
  }
  template <class R>
  void record(std::string_view key, R& out, const About& about) {
    if (enter(key, about, true)) walk(out);
  }
  template <class R>
  void record(std::string_view key, std::optional<R>& out, const About& about) {
    if (enter(key, about, false)) walk(out.emplace());
  }
  // An array of tables.
  template <class R>
  void records(std::string_view key, std::vector<R>& out, const About& about, bool required) {
    const std::size_t count = enter_list(key, about, required);
    for (std::size_t i = 0; i < count; ++i) {
      enter_item(i);
      walk(out.emplace_back());
    }
    leave_list();
  }
  // Tables under names that the file chooses; `out` gets (name, record).
  template <class R>
  void named_records(std::string_view key, std::vector<std::pair<std::string, R>>& out,
                     const About& about) {
    for (const std::string& name : enter_names(key, about)) {
      enter_name(name);
      walk(out.emplace_back(name, R{}).second);
    }
    leave_list();
  }

 protected:
  virtual std::optional<Cell> cell(std::string_view key, const CellForm& form, const About& about,
                                   bool required) = 0;
  virtual std::vector<Cell> cells(std::string_view key, const CellForm& form, const About& about,
                                  bool required) = 0;
  virtual bool enter(std::string_view key, const About& about, bool required) = 0;
  virtual std::size_t enter_list(std::string_view key, const About& about, bool required) = 0;
  virtual void enter_item(std::size_t index) = 0;
  virtual std::vector<std::string> enter_names(std::string_view key, const About& about) = 0;
  virtual void enter_name(const std::string& name) = 0;
  virtual void leave() = 0;
  virtual void leave_list() = 0;
  virtual Place here() const = 0;

 private:
  template <class R>
  void walk(R& out) {
    if constexpr (requires { out.place; }) out.place = here();
    describe(*this, out);
    leave();
  }
};

}  // namespace backfit

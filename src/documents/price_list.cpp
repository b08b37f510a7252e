// SPDX-License-Identifier: MIT
#include "documents/price_list.hpp"

#include "quantity/notation.hpp"

namespace backfit::paper {

PriceList::PriceList(const std::optional<Prices>& prices)
    : table_{{{"What", 100 * mm},
              {"count", 25 * mm, Align::right},
              {prices ? "price, " + *prices->currency : "price", 55 * mm, Align::right}},
             {}},
      currency_(prices.has_value()) {}

void PriceList::add(const std::string& what, int count, std::optional<double> price) {
  table_.rows.push_back(
      {what, std::to_string(count), price ? fixed(*price, 2) : std::string("price not given")});
  if (price) {
    sum_ += *price;
  } else {
    ++unpriced_;
  }
}

void PriceList::add(const std::vector<BoughtItem>& items) {
  for (const BoughtItem& item : items) {
    std::optional<double> price;
    if (item.price) price = item.price->value.amount;
    add(*item.what, *item.count, price);
  }
}

std::string PriceList::csv() const {
  std::string text;
  const auto add = [&](const std::vector<std::string>& cells) {
    std::string line;
    for (const std::string& cell : cells) {
      std::string quoted = cell;
      for (std::size_t at = 0; (at = quoted.find('"', at)) != std::string::npos; at += 2) {
        quoted.insert(at, 1, '"');
      }
      line += (line.empty() ? "\"" : ",\"") + quoted + "\"";
    }
    text += line + "\r\n";
  };
  add({table_.columns[0].head, table_.columns[1].head, table_.columns[2].head});
  for (const std::vector<std::string>& row : table_.rows) add(row);
  return text;
}

Table PriceList::table(const std::string& sum_words) const {
  Table whole = table_;
  if (unpriced_ == 0 && currency_) whole.rows.push_back({sum_words, "", fixed(sum_, 2)});
  return whole;
}

}  // namespace backfit::paper

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

Table PriceList::table(const std::string& sum_words) const {
  Table whole = table_;
  if (unpriced_ == 0 && currency_) whole.rows.push_back({sum_words, "", fixed(sum_, 2)});
  return whole;
}

}  // namespace backfit::paper

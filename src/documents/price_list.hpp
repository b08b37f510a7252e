// SPDX-License-Identifier: MIT
// What is bought or used, with counts and prices, as a table.
#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "documents/table.hpp"
#include "survey/plan.hpp"

namespace backfit::paper {

class PriceList {
 public:
  explicit PriceList(const std::optional<Prices>& prices);  // whose currency heads the column

  void add(const std::string& what, int count, std::optional<double> price);  // for all of them
  void add(const std::vector<BoughtItem>& items);

  bool empty() const { return table_.rows.empty(); }
  std::size_t unpriced() const { return unpriced_; }

  // Comma-separated, RFC 4180: what, count, price; the head names the currency.
  std::string csv() const;

  // Ends with a row `sum_words` where every item has a price and the currency is known.
  Table table(const std::string& sum_words) const;

 private:
  Table table_;
  bool currency_;
  double sum_ = 0;
  std::size_t unpriced_ = 0;
};

}  // namespace backfit::paper

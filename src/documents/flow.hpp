// SPDX-License-Identifier: MIT
// Blocks one below another over as many pages as they need, none torn where it would mislead.
#pragma once
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "documents/document.hpp"
#include "documents/note.hpp"
#include "documents/table.hpp"

namespace backfit::paper {

struct Finding {
  Sign sign = Sign::note;
  std::string title;   // the verdict in a line
  std::string text;    // what was computed and what limits it; may be empty
  std::string remedy;  // may be empty
};

struct Step {
  int number = 1;
  std::string title, text;
  std::vector<std::string> cautions;  // boxed, before the text: read before it is done
};

// Fills pages from the top. A block that doesn't fit the rest of the page goes to the next one
// whole; a heading goes with the block after it; text and table rows higher than a page are
// continued line by line, and a table repeats its head. What waits for a block to follow is
// placed by finish() or, without it, when the flow ends.
class Flow {
 public:
  // Starts on a new page of `document`, which must outlive the flow.
  explicit Flow(Document& document);
  ~Flow();
  Flow(const Flow&) = delete;
  Flow& operator=(const Flow&) = delete;

  void title(const std::string& text);
  void heading(const std::string& text);
  void paragraph(const std::string& text, const TextStyle& style = body_text);
  // A line of a list behind a mark such as "•", or "☐" to tick off.
  void item(const std::string& mark, const std::string& text);
  void finding(const Finding& finding);
  void step(const Step& step);
  void boxed(const BoxedNote& note);
  void table(const Table& table);

  // Anything `height` high: `draw` gets the upper left corner of a box content_width wide.
  // Requires height <= content_bottom - content_top.
  using Draw = std::function<void(Sheet&, PagePoint)>;
  void block(Length height, Draw draw);

  // Keeps every block that `blocks` adds on one page, if a page can hold them all.
  void together(const std::function<void()>& blocks);

  void new_page();
  void finish();
  const Fonts& fonts() const { return document_.fonts(); }

 private:
  struct Block {
    Length before;  // space above, but for the first on a page
    Length height;
    Draw draw;
    std::shared_ptr<const Block> repeated = nullptr;  // goes above when this one starts a page
  };

  void add(Block block);
  void wait(Block block);
  // Text `left` of the margin inwards; `mark` is drawn beside its first line.
  void add_text(Length before, Length left, const std::string& text, const TextStyle& style,
                Draw mark = nullptr);
  void place(const Block& block);
  Length room() const { return content_bottom - y_; }

  Document& document_;
  Sheet* sheet_ = nullptr;
  Length y_;
  std::vector<Block> waiting_;
  int together_ = 0;
};

}  // namespace backfit::paper

// SPDX-License-Identifier: MIT
#include "documents/flow.hpp"

#include <cassert>

namespace backfit::paper {

namespace {

constexpr Length indent = 9 * mm;
constexpr Length paragraph_gap = 2.2 * mm, block_gap = 4 * mm, heading_gap = 7 * mm;
constexpr Length page_room = content_bottom - content_top;

}  // namespace

Flow::Flow(Document& document) : document_(document) { new_page(); }

Flow::~Flow() { finish(); }

void Flow::new_page() {
  finish();
  sheet_ = &document_.add_page();
  y_ = content_top;
}

// Places what waits: on the next page if this one can't hold it all and the next one can.
void Flow::finish() {
  Length needed;
  for (const Block& block : waiting_) needed += block.before + block.height;
  const bool moves = y_ > content_top && needed > room() && needed <= page_room;
  std::vector<Block> blocks;
  blocks.swap(waiting_);
  if (moves) new_page();
  for (const Block& block : blocks) place(block);
}

void Flow::place(const Block& block) {
  assert(block.height <= page_room);
  if (y_ > content_top && block.before + block.height > room()) new_page();
  if (y_ == content_top) {
    if (block.repeated != nullptr) place(*block.repeated);
  } else {
    y_ += block.before;
  }
  block.draw(*sheet_, {margin, y_});
  y_ += block.height;
}

void Flow::wait(Block block) { waiting_.push_back(std::move(block)); }

void Flow::add(Block block) {
  wait(std::move(block));
  if (together_ == 0) finish();
}

void Flow::together(const std::function<void()>& blocks) {
  ++together_;
  blocks();
  if (--together_ == 0) finish();
}

void Flow::block(Length height, Draw draw) { add({block_gap, height, std::move(draw)}); }

void Flow::add_text(Length before, Length left, const std::string& text, const TextStyle& style,
                    Draw mark) {
  const Length width = content_width - left;
  const auto block = [&](const std::string& words) {
    add({before, document_.fonts().size(words, style, width).height,
         [=](Sheet& sheet, PagePoint corner) {
           if (mark) mark(sheet, corner);
           sheet.text({corner.x + left, corner.y}, words, style, width);
         }});
  };
  if (document_.fonts().size(text, style, width).height <= page_room) return block(text);
  for (const std::string& line : document_.fonts().lines(text, style, width)) {
    block(line);
    before = line_gap(style);
    mark = nullptr;
  }
}

void Flow::title(const std::string& text) {
  ++together_;
  add_text(heading_gap, 0 * mm, text, title_text);
  --together_;
}

void Flow::heading(const std::string& text) {
  ++together_;
  add_text(heading_gap, 0 * mm, text, heading_text);
  --together_;
}

void Flow::paragraph(const std::string& text, const TextStyle& style) {
  add_text(paragraph_gap, 0 * mm, text, style);
}

void Flow::item(const std::string& mark, const std::string& text) {
  add_text(1.2 * mm, 6 * mm, text, body_text, [mark](Sheet& sheet, PagePoint corner) {
    sheet.text({corner.x + 1 * mm, corner.y}, mark, body_text, 5 * mm);
  });
}

void Flow::finding(const Finding& finding) {
  together([&] {
    add_text(block_gap, indent, finding.title, strong_text,
             [sign = finding.sign](Sheet& sheet, PagePoint corner) {
               paper::draw(sheet, {corner.x + sign_size / 2, corner.y + sign_size / 2}, sign);
             });
    if (!finding.text.empty()) add_text(0.8 * mm, indent, finding.text, body_text);
    if (!finding.remedy.empty()) add_text(0.8 * mm, indent, "→ " + finding.remedy, body_text);
  });
}

void Flow::step(const Step& step) {
  together([&] {
    add_text(block_gap, indent, step.title, strong_text,
             [number = step.number](Sheet& sheet, PagePoint corner) {
               sheet.text(corner, std::to_string(number), strong_text, indent);
             });
    for (const std::string& caution : step.cautions) {
      const BoxedNote note{Sign::warning, "Caution", caution};
      const Length width = content_width - indent;
      add({1.5 * mm, height_of(document_.fonts(), note, width),
           [=](Sheet& sheet, PagePoint corner) {
             paper::draw(sheet, {corner.x + indent, corner.y}, note, width);
           }});
    }
    if (!step.text.empty())
      add_text(step.cautions.empty() ? 0.8 * mm : 2 * mm, indent, step.text, body_text);
  });
}

void Flow::boxed(const BoxedNote& note) {
  add({block_gap, height_of(document_.fonts(), note, content_width),
       [=](Sheet& sheet, PagePoint corner) { paper::draw(sheet, corner, note, content_width); }});
}

void Flow::table(const Table& given) {
  const Fonts& fonts = document_.fonts();
  const Length head = head_height(fonts, given);
  const auto table =
      std::make_shared<const Table>(with_rows_within(fonts, given, page_room - head));
  const auto top =
      std::make_shared<const Block>(Block{block_gap, head, [table](Sheet& sheet, PagePoint corner) {
                                            draw_head(sheet, corner, *table);
                                          }});
  wait(*top);  // goes with the first row
  for (std::size_t row = 0; row < table->rows.size(); ++row) {
    add({0 * mm, row_height(fonts, *table, row),
         [table, row](Sheet& sheet, PagePoint corner) { draw_row(sheet, corner, *table, row); },
         row == 0 ? nullptr : top});
  }
  if (table->rows.empty() && together_ == 0) finish();
}

}  // namespace backfit::paper

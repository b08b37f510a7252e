// SPDX-License-Identifier: MIT
#include "documents/text.hpp"

#include <fontconfig/fontconfig.h>
#include <pango/pangocairo.h>
#include <pango/pangofc-fontmap.h>

#include <cassert>
#include <stdexcept>

namespace backfit::paper {

namespace {

struct Release {
  void operator()(FcConfig* config) const { FcConfigDestroy(config); }
  void operator()(PangoFontMap* map) const {
    // Pango 1.50 keeps its hold on the configuration for ever otherwise.
    pango_fc_font_map_set_config(PANGO_FC_FONT_MAP(map), nullptr);
    g_object_unref(map);
  }
  void operator()(PangoContext* context) const { g_object_unref(context); }
  void operator()(PangoLayout* layout) const { g_object_unref(layout); }
  void operator()(PangoFontDescription* font) const { pango_font_description_free(font); }
  void operator()(cairo_font_options_t* options) const { cairo_font_options_destroy(options); }
  void operator()(PangoAttrList* list) const { pango_attr_list_unref(list); }
  void operator()(char* text) const { g_free(text); }
};
template <class T>
using Owned = std::unique_ptr<T, Release>;

void add_font(FcConfig* config, const std::filesystem::path& file) {
  const std::string name = file.string();
  const int before = [&] {
    const FcFontSet* fonts = FcConfigGetFonts(config, FcSetApplication);
    return fonts == nullptr ? 0 : fonts->nfont;
  }();
  std::error_code ignored;
  if (!std::filesystem::is_regular_file(file, ignored)) {
    throw std::runtime_error("font file '" + name + "' is missing");
  }
  FcConfigAppFontAddFile(config, reinterpret_cast<const FcChar8*>(name.c_str()));
  const FcFontSet* fonts = FcConfigGetFonts(config, FcSetApplication);
  if (fonts == nullptr || fonts->nfont == before) {
    throw std::runtime_error("font file '" + name + "' can't be read as a font");
  }
}

// Pango starts fontconfig's process-wide configuration; with an empty one in its place the user's
// and the system's files are not even opened.
void start_with_no_fonts() {
  static const bool done = [] {
    const Owned<FcConfig> none(FcConfigCreate());
    return FcConfigSetCurrent(none.get()) == FcTrue;
  }();
  assert(done);
}

Owned<FcConfig> private_config(const std::filesystem::path& folder) {
  start_with_no_fonts();
  Owned<FcConfig> config(FcConfigCreate());
  add_font(config.get(), folder / "DejaVuSans.ttf");
  add_font(config.get(), folder / "DejaVuSans-Bold.ttf");
  return config;
}

int pango_units(Length l) { return static_cast<int>(std::lround(l.in(mm)*PANGO_SCALE)); }
Length from_pango(int units) { return static_cast<double>(units) / PANGO_SCALE * mm; }

// A line doesn't end between "±" and its number, nor between a number and "mm", "m" or "%".
Owned<PangoAttrList> joints(std::string_view text) {
  Owned<PangoAttrList> list(pango_attr_list_new());
  constexpr std::string_view plus_minus = "±";
  const auto digit = [&text](std::size_t i) {
    return i < text.size() && text[i] >= '0' && text[i] <= '9';
  };
  for (std::size_t i = text.find(' '); i != std::string_view::npos; i = text.find(' ', i + 1)) {
    const std::string_view before = text.substr(0, i);
    const char after = i + 1 < text.size() ? text[i + 1] : ' ';
    const bool tolerance = before.ends_with(plus_minus) && digit(i + 1);
    const bool unit = i > 0 && digit(i - 1) && (after == 'm' || after == '%');
    if (!tolerance && !unit) continue;
    PangoAttribute* joint = pango_attr_allow_breaks_new(FALSE);
    joint->start_index = static_cast<guint>(i);
    joint->end_index = static_cast<guint>(i + 2);
    pango_attr_list_insert(list.get(), joint);
  }
  return list;
}

}  // namespace

struct Fonts::Set {
  Owned<FcConfig> config;
  Owned<PangoFontMap> map;
  Owned<PangoContext> context;

  Owned<PangoLayout> layout(std::string_view text, const TextStyle& style,
                            std::optional<Length> width) const;
};

Fonts::Fonts(const std::filesystem::path& folder) {
  auto set = std::make_shared<Set>();
  set->config = private_config(folder);
  set->map.reset(pango_cairo_font_map_new_for_font_type(CAIRO_FONT_TYPE_FT));
  pango_fc_font_map_set_config(PANGO_FC_FONT_MAP(set->map.get()), set->config.get());
  set->context.reset(pango_font_map_create_context(set->map.get()));
  PangoContext* context = set->context.get();
  pango_context_set_language(context, pango_language_from_string("en"));
  // A user unit is 1 mm: glyphs rounded to whole units would stand millimetres apart.
  pango_context_set_round_glyph_positions(context, FALSE);
  const Owned<cairo_font_options_t> options(cairo_font_options_create());
  cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias(options.get(), CAIRO_ANTIALIAS_GRAY);
  pango_cairo_context_set_font_options(context, options.get());
  set_ = std::move(set);
}

Owned<PangoLayout> Fonts::Set::layout(std::string_view text, const TextStyle& style,
                                      std::optional<Length> width) const {
  assert(!width || *width > 0 * mm);
  Owned<PangoLayout> result(pango_layout_new(context.get()));
  const Owned<PangoFontDescription> font(pango_font_description_new());
  pango_font_description_set_family_static(font.get(), "DejaVu Sans");
  pango_font_description_set_weight(font.get(),
                                    style.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_font_description_set_absolute_size(font.get(), style.size.in(mm)*PANGO_SCALE);
  pango_layout_set_font_description(result.get(), font.get());
  const Owned<char> valid(g_utf8_make_valid(text.data(), static_cast<gssize>(text.size())));
  pango_layout_set_text(result.get(), valid.get(), -1);
  pango_layout_set_attributes(result.get(), joints(valid.get()).get());
  pango_layout_set_spacing(result.get(), pango_units(line_gap(style)));
  if (width) {
    pango_layout_set_width(result.get(), pango_units(*width));
    pango_layout_set_wrap(result.get(), PANGO_WRAP_WORD_CHAR);
    pango_layout_set_alignment(result.get(), style.align == Align::left     ? PANGO_ALIGN_LEFT
                                             : style.align == Align::centre ? PANGO_ALIGN_CENTER
                                                                            : PANGO_ALIGN_RIGHT);
  }
  return result;
}

TextSize Fonts::size(std::string_view text, const TextStyle& style,
                     std::optional<Length> width) const {
  const auto layout = set_->layout(text, style, width);
  PangoRectangle logical;
  pango_layout_get_extents(layout.get(), nullptr, &logical);
  return {from_pango(logical.width), from_pango(logical.height),
          from_pango(pango_layout_get_baseline(layout.get()))};
}

std::vector<std::string> Fonts::lines(std::string_view text, const TextStyle& style,
                                      Length width) const {
  const auto layout = set_->layout(text, style, width);
  const std::string_view valid = pango_layout_get_text(layout.get());
  std::vector<std::string> result;
  for (int i = 0; i < pango_layout_get_line_count(layout.get()); ++i) {
    const PangoLayoutLine* line = pango_layout_get_line_readonly(layout.get(), i);
    result.emplace_back(valid.substr(static_cast<std::size_t>(line->start_index),
                                     static_cast<std::size_t>(line->length)));
  }
  return result;
}

void Fonts::draw(cairo_t* cairo, std::string_view text, const TextStyle& style,
                 std::optional<Length> width) const {
  cairo_move_to(cairo, 0, 0);
  pango_cairo_show_layout(cairo, set_->layout(text, style, width).get());
}

}  // namespace backfit::paper

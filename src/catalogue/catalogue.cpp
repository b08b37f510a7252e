// SPDX-License-Identifier: MIT
#include "catalogue/catalogue.hpp"

#include <fmt/format.h>

#include "catalogue/citing.hpp"
#include "files/reader.hpp"

namespace backfit {

template <>
std::span<const std::pair<std::string_view, Standing>> choices_of<Standing>() {
  static constexpr std::pair<std::string_view, Standing> list[] = {
      {"READ", Standing::read},
      {"FROM MEMORY", Standing::from_memory},
      {"DERIVED", Standing::derived}};
  return list;
}
template <>
std::span<const std::pair<std::string_view, FilmKind>> choices_of<FilmKind>() {
  static constexpr std::pair<std::string_view, FilmKind> list[] = {
      {"roll", FilmKind::roll},
      {"sheet", FilmKind::sheet},
      {"paper", FilmKind::paper},
      {"integral", FilmKind::integral}};
  return list;
}
template <>
std::span<const std::pair<std::string_view, ViewedFace>> choices_of<ViewedFace>() {
  static constexpr std::pair<std::string_view, ViewedFace> list[] = {
      {"same face", ViewedFace::same}, {"opposite face", ViewedFace::opposite}};
  return list;
}

void describe(Fields& f, Film& m) {
  f.value("id", m.id, {"short name for files"});
  f.value("name", m.name, {"name for people"});
  f.value("kind", m.kind, {"kind of material"});
  f.record("width", m.width, {"shorter side as cut; roll film: across"});
  f.record("height", m.height, {"longer side as cut"});
  f.record("image_width", m.image_width, {"usable picture, shorter side; roll film: across"});
  f.record("image_height", m.image_height, {"usable picture, longer side; roll film: along"});
  f.record("thickness", m.thickness, {"thickness"});
  f.record("frames", m.frames, {"pictures on a roll"});
  f.value("holder", m.holder, {"the holder that takes it"});
  f.value("spool", m.spool, {"the spool that it is wound on"});
  f.value("viewed", m.viewed, {"face on which the picture is looked at, against the exposed one"});
  f.value("transfers", m.transfers,
          {"face-to-face transfers", "0", Tool::none, Sign::not_negative});
  f.value("note", m.note, {"what it is not good for"});
}

void describe(Fields& f, Holder& h) {
  f.value("id", h.id, {"short name for files"});
  f.value("name", h.name, {"name for people"});
  f.record("depth", h.depth, {"face to septum"});
  f.record("slot", h.slot, {"height of the film slot"});
  f.record("rib_height", h.rib_height, {"locking rib, height"});
  f.record("rib_width", h.rib_width, {"locking rib, width"});
  f.record("rib_from_centre", h.rib_from_centre, {"picture centre to rib centre"});
  f.record("rib_from_end", h.rib_from_end, {"loading end to the rib"});
  f.record("outer_width", h.outer_width, {"outside width"});
  f.record("outer_length", h.outer_length, {"outside length"});
  f.record("outer_thickness", h.outer_thickness, {"outside thickness"});
  f.value("note", h.note, {"what it is not good for"});
}

void describe(Fields& f, Spool& s) {
  f.value("id", s.id, {"short name for files"});
  f.value("name", s.name, {"name for people"});
  f.record("length", s.length, {"length over the flanges"});
  f.record("flange_diameter", s.flange_diameter, {"diameter of the flanges"});
  f.value("note", s.note, {"what it is not good for"});
}

void describe(Fields& f, LensKind& k) {
  f.value("id", k.id, {"short name for files"});
  f.value("name", k.name, {"name for people"});
  f.record("coverage", k.coverage, {"full angle covered"});
  f.value("note", k.note, {"what it is not good for"});
}

void describe(Fields& f, Material& m) {
  f.value("id", m.id, {"short name for files"});
  f.value("name", m.name, {"name for people"});
  f.record("density", m.density, {"density"});
  f.record("shrinkage", m.shrinkage, {"linear shrinkage"});
  f.value("note", m.note, {"what it is not good for"});
}

void describe(Fields& f, Glass& g) {
  f.value("id", g.id, {"the maker's name for it"});
  f.value("catalogue", g.catalogue, {"year of the maker's catalogue"});
  f.values("b", g.b, {"Sellmeier's b1 to b3"}, true);
  f.values("c_um2", g.c_um2, {"Sellmeier's c1 to c3, square micrometres"}, true);
  f.value("source", g.source, {"id of its source"});
  f.value("status", g.status, {"how it came here"});
}

void describe(Fields& f, Source& s) {
  f.value("title", s.title, {"title"});
  f.value("edition", s.edition, {"edition"});
  f.value("page", s.page, {"page"});
}

const Film* Catalogue::film(std::string_view id) const { return with_id(films, id); }
const Holder* Catalogue::holder(std::string_view id) const { return with_id(holders, id); }
const Spool* Catalogue::spool(std::string_view id) const { return with_id(spools, id); }
const LensKind* Catalogue::lens_kind(std::string_view id) const { return with_id(lens_kinds, id); }
const Material* Catalogue::material(std::string_view id) const { return with_id(materials, id); }

std::optional<Catalogue> read_catalogue(const std::filesystem::path& data,
                                        Diagnostics& diagnostics) {
  Catalogue c;
  bool good = read_data_file(
      data / "sources.toml", [&](Fields& f) { f.named_records("source", c.sources, {"Sources"}); },
      diagnostics);
  good &= read_data_file(
      data / "films.toml", [&](Fields& f) { f.records("film", c.films, {"Films"}, true); },
      diagnostics);
  good &= read_data_file(
      data / "holders.toml", [&](Fields& f) { f.records("holder", c.holders, {"Holders"}, true); },
      diagnostics);
  good &= read_data_file(
      data / "spools.toml", [&](Fields& f) { f.records("spool", c.spools, {"Spools"}, true); },
      diagnostics);
  good &= read_data_file(
      data / "lens_kinds.toml",
      [&](Fields& f) { f.records("lens_kind", c.lens_kinds, {"Lens kinds"}, true); }, diagnostics);
  good &= read_data_file(
      data / "materials.toml",
      [&](Fields& f) { f.records("material", c.materials, {"Materials"}, true); }, diagnostics);
  good &= read_data_file(
      data / "glasses.toml", [&](Fields& f) { f.records("glass", c.glasses, {"Glasses"}, true); },
      diagnostics);
  for (const Glass& g : c.glasses) {
    if (g.b.size() == 3 && g.c_um2.size() == 3) continue;
    if (good) diagnostics.error(g.id.place, "a glass has three b and three c_um2");
    good = false;
  }
  if (!good) return {};
  return c;
}

}  // namespace backfit

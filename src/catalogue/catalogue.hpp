// SPDX-License-Identifier: MIT
// Films, papers, holders, spools, lens kinds, glasses and materials as shipped, every number with
// its source.
#pragma once
#include <filesystem>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "files/diagnostic.hpp"
#include "files/fields.hpp"

namespace backfit {

// How a number came into the catalogue: read in its source, from memory, or worked out of others.
enum class Standing { read, from_memory, derived };

// A number with its source.
template <class T>
struct Cited {
  Place place;
  Stated<T> value;
  Stated<std::string> source;  // an id of Catalogue::sources
  Stated<Standing> status;
  bool doubtful() const { return status.value == Standing::from_memory; }
};

enum class FilmKind { roll, sheet, paper, integral };
enum class ViewedFace { same, opposite };

// A material to load, in one picture size. Roll film: width across, image_width across the film,
// image_height along it. Everything else: as cut, the shorter side as width.
struct Film {
  Place place;
  Stated<std::string> id, name;
  Stated<FilmKind> kind;
  Cited<Measured<Length>> width;
  std::optional<Cited<Measured<Length>>> height;
  std::optional<Cited<Measured<Length>>> image_width, image_height;
  std::optional<Cited<Measured<Length>>> thickness;
  std::optional<Cited<int>> frames;
  std::optional<Stated<std::string>> holder, spool;
  Stated<ViewedFace> viewed;  // on the face by which the light came in, or on the other
  Stated<int> transfers;      // face-to-face transfers to another sheet
  std::optional<Stated<std::string>> note;
};

// A double-sided sheet-film holder.
struct Holder {
  Place place;
  Stated<std::string> id, name;
  Cited<Measured<Length>> depth;                // face to septum
  std::optional<Cited<Measured<Length>>> slot;  // height of the slot that the film slides into
  std::optional<Cited<Measured<Length>>> rib_height, rib_width, rib_from_centre, rib_from_end;
  std::optional<Cited<Measured<Length>>> outer_width, outer_length, outer_thickness;
  std::optional<Stated<std::string>> note;
};

// What roll film is wound on.
struct Spool {
  Place place;
  Stated<std::string> id, name;
  Cited<Measured<Length>> length;  // over both flanges
  Cited<Measured<Length>> core_diameter;
  Cited<Measured<Length>> flange_diameter;  // as large as a full roll
  // The roll: paper alone, paper and film, paper alone; the film's thickness with its coatings.
  Cited<Measured<Length>> paper_thickness, film_thickness, leader, film_length, trailer;
  Cited<Measured<double>> packing;  // room of a wound layer over its thickness
  std::optional<Stated<std::string>> note;
};

struct LensKind {
  Place place;
  Stated<std::string> id, name;
  Cited<Measured<Angle>> coverage;  // full angle
  std::optional<Stated<std::string>> note;
};

// A printed material.
struct Material {
  Place place;
  Stated<std::string> id, name;
  std::optional<Cited<Measured<MassDensity>>> density;
  std::optional<Cited<Measured<double>>> shrinkage;
  std::optional<Stated<std::string>> note;
};

// A glass by Sellmeier's formula, from its maker's catalogue of a year: old and new glasses of
// one name bend colours differently.
struct Glass {
  Place place;
  Stated<std::string> id, catalogue;
  std::vector<Stated<double>> b;
  std::vector<Stated<double>> c_um2;
  Stated<std::string> source;
  Stated<Standing> status;
};

struct Source {
  Place place;
  Stated<std::string> title;
  std::optional<Stated<std::string>> edition, page;
};

struct Catalogue {
  std::vector<Film> films;
  std::vector<Holder> holders;
  std::vector<Spool> spools;
  std::vector<LensKind> lens_kinds;
  std::vector<Material> materials;
  std::vector<Glass> glasses;
  std::vector<std::pair<std::string, Source>> sources;

  // The entry with this id, or null.
  const Film* film(std::string_view id) const;
  const Holder* holder(std::string_view id) const;
  const Spool* spool(std::string_view id) const;
  const LensKind* lens_kind(std::string_view id) const;
  const Material* material(std::string_view id) const;
};

// The catalogue in the folder `data`. Adds errors and returns empty when a file is missing or
// has a mistake. That every source, holder and spool named exists is checked by
// tools/check_sources.py.
std::optional<Catalogue> read_catalogue(const std::filesystem::path& data,
                                        Diagnostics& diagnostics);

}  // namespace backfit

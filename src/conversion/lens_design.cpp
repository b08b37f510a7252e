// SPDX-License-Identifier: MIT
#include "conversion/lens_design.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "files/reader.hpp"
#include "optics/paraxial.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

using Surface = LensFileSurface;

// Indices of glass for cameras; beyond them a figure is mistyped.
constexpr double least_index = 1;
constexpr double greatest_index = 2.5;

Medium glass_named(const Surface& s, const Catalogue& catalogue, Diagnostics& diagnostics) {
  const std::string& name = s.glass->value;
  std::vector<const Glass*> found;
  for (const Glass& g : catalogue.glasses) {
    if (*g.id == name && (!s.catalogue || *g.catalogue == s.catalogue->value)) found.push_back(&g);
  }
  if (found.size() == 1) {
    const Glass& g = *found.front();
    std::array<double, 3> b{};
    std::array<Area, 3> c{};
    for (std::size_t i = 0; i < b.size(); ++i) {
      b[i] = *g.b[i];
      c[i] = *g.c_um2[i] * (um * um);
    }
    return Medium::of_sellmeier(b, c);
  }
  if (found.size() > 1) {
    diagnostics.error(s.glass->place, fmt::format("several catalogues have a glass '{}'", name),
                      fmt::format("add catalogue = \"{}\"", *found.front()->catalogue));
    return Medium::air();
  }
  diagnostics.error(
      s.glass->place,
      fmt::format("no glass '{}'{} is known", name,
                  s.catalogue ? fmt::format(" of {}", s.catalogue->value) : std::string()),
      "write its index and abbe instead");
  return Medium::air();
}

Medium medium_behind(const Surface& s, const Catalogue& catalogue, Diagnostics& diagnostics) {
  if (s.glass) {
    if (s.index) {
      diagnostics.error(s.index->place,
                        "this surface has a glass and an index; one of them is "
                        "needed");
    }
    return glass_named(s, catalogue, diagnostics);
  }
  if (!s.index) {
    if (s.abbe) diagnostics.error(s.abbe->place, "an Abbe number needs its index beside it");
    return Medium::air();
  }
  const double n = s.index->value;
  if (n < least_index || n > greatest_index) {
    diagnostics.error(s.index->place,
                      fmt::format("the index is {:g}; that of a glass is between 1 and 2.5", n));
    return Medium::air();
  }
  if (n == 1) return Medium::air();
  return s.abbe ? Medium::of_abbe(n, s.abbe->value) : Medium::of_index(n);
}

void check_stop(const LensFile& file, Prescription& lens, Diagnostics& diagnostics) {
  for (std::size_t i = 0; i < file.surfaces.size(); ++i) {
    const auto& stop = file.surfaces[i].stop;
    if (!stop || !stop->value) continue;
    if (lens.stop) {
      diagnostics.error(stop->place, "a second stop; a lens has one");
    } else {
      lens.stop = i;
    }
  }
  if (!lens.stop && !file.is_afocal()) {
    diagnostics.error(file.surfaces.front().place,
                      "no surface is the stop; the diaphragm lies in one of them",
                      "add stop = true to that surface, or a plane [[surface]] with it");
  }
}

// Surfaces in order, each within its sphere, none crossing the one before.
void check_shape(const LensFile& file, const Prescription& lens, Diagnostics& diagnostics) {
  const Prescription::Surface* before = nullptr;
  for (std::size_t i = 0; i < lens.surfaces.size(); ++i) {
    const Prescription::Surface& s = lens.surfaces[i];
    const Surface& written = file.surfaces[i];
    const bool limited = s.clear_radius < unlimited;
    if (limited && std::abs(s.curvature * s.clear_radius) > 1) {
      diagnostics.error(written.clear_radius->place,
                        fmt::format("the clear radius {} is larger than the sphere's radius",
                                    text(s.clear_radius)));
      return;
    }
    if (before != nullptr) {
      const Length height = std::min(before->clear_radius, s.clear_radius);
      const Length at = height < unlimited ? height : Length{};
      if (std::abs(before->curvature * at) <= 1 && std::abs(s.curvature * at) <= 1) {
        const Length gap =
            before->thickness + sagitta(s.curvature, at) - sagitta(before->curvature, at);
        if (gap < Length{}) {
          diagnostics.error(
              written.place,
              fmt::format("this surface crosses the one before it: {} above the axis they overlap "
                          "by {}",
                          text(at), text(-gap)));
        }
      }
    }
    before = &s;
  }
}

// `computed` against what the source states, within its ± or 1 %.
template <class Q>
void check_stated(const std::optional<Stated<Measured<Q>>>& stated, std::optional<Q> computed,
                  std::string_view what, Diagnostics& diagnostics) {
  if (!stated) return;
  const auto show = [](const Q& q) {
    if constexpr (std::is_same_v<Q, double>) {
      return fmt::format("{:.4f}x", q);
    } else {
      return text(q, 3);
    }
  };
  const Q& value = stated->value.value;
  const Q given = stated->value.half_width;
  const Q allowed = given > Q{} ? given : value * 0.01;
  const auto size = [](const Q& q) { return q < Q{} ? -q : q; };
  if (computed && size(*computed - value) <= size(allowed)) return;
  diagnostics.error(
      stated->place,
      computed ? fmt::format("the surfaces make a {} of {}, not {}: one of their figures is wrong",
                             what, show(*computed), show(value))
               : fmt::format("the surfaces make no {}: the lens is afocal", what));
}

void check_first_order(const LensFile& file, const Prescription& lens, Diagnostics& diagnostics) {
  const LensModel model = model_of(lens, line_d);
  const auto f = first_order(model);
  if (file.is_afocal()) {
    check_stated<double>(file.stated.angular_magnification, angular_magnification(model),
                         "magnification", diagnostics);
    return;
  }
  if (!f && !file.stated.focal) {
    diagnostics.error(file.surfaces.front().place, "the lens is afocal: it makes no image",
                      "add afocal = true if it is an attachment");
  }
  const auto of = [&f](Length FirstOrder::*member) {
    return f ? std::optional(*f.*member) : std::nullopt;
  };
  check_stated(file.stated.focal, of(&FirstOrder::focal), "focal length", diagnostics);
  check_stated(file.stated.back_focal, of(&FirstOrder::back_focal), "back focal distance",
               diagnostics);
}

Prescription prescription_of(const LensFile& file, const Catalogue& catalogue,
                             Diagnostics& diagnostics) {
  Prescription lens;
  for (const Surface& s : file.surfaces) {
    Prescription::Surface surface;
    if (s.radius && s.radius->value == Length{}) {
      diagnostics.error(s.radius->place, "a radius of 0 is no sphere; leave radius out of a plane");
    } else if (s.radius) {
      surface.curvature = 1 / s.radius->value;
    }
    const bool last = &s == &file.surfaces.back();
    if (s.thickness) {
      surface.thickness = s.thickness->value;
    } else if (!last) {
      diagnostics.error(s.place, "this surface has no thickness; only the last needs none",
                        "thickness = \"0 mm\" where the next one touches it");
    }
    if (s.clear_radius) surface.clear_radius = s.clear_radius->value;
    surface.after = medium_behind(s, catalogue, diagnostics);
    if (last && (s.glass || (s.index && s.index->value != 1))) {
      diagnostics.error((s.glass ? s.glass->place : s.index->place),
                        "behind the last surface there is air");
    }
    lens.surfaces.push_back(surface);
  }
  return lens;
}

}  // namespace

std::optional<LensDesign> read_lens(const std::filesystem::path& path, const Catalogue& catalogue,
                                    Diagnostics& diagnostics, const Place& asked_at) {
  const auto source = read_source(path, diagnostics, asked_at);
  if (!source) return {};
  auto file = read_record<LensFile>(source, diagnostics);
  if (!file) return {};
  Diagnostics own;
  Prescription lens = prescription_of(*file, catalogue, own);
  check_stop(*file, lens, own);
  if (!own.has_errors()) check_shape(*file, lens, own);
  if (!own.has_errors()) check_first_order(*file, lens, own);
  const std::size_t before = diagnostics.list().size();
  for (const Diagnostic& d : own.list()) diagnostics.add(d);
  diagnostics.put_in_file_order(before);
  if (own.has_errors()) return {};

  LensDesign design{std::move(*file), std::move(lens), {}};
  if (design.file.is_afocal()) return design;
  if (design.file.entrance_pupil) {
    design.entrance_radius = design.file.entrance_pupil->value / 2;
  } else if (const Length r = design.prescription.surfaces[*design.prescription.stop].clear_radius;
             r < unlimited) {
    design.entrance_radius = r / pupils(model_of(design.prescription, line_d)).stop_over_entrance;
  }
  return design;
}

}  // namespace backfit

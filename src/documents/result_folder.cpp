// SPDX-License-Identifier: MIT
#include "documents/result_folder.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <future>
#include <utility>

#include "documents/build_sheet.hpp"
#include "documents/insert_set.hpp"
#include "documents/json.hpp"
#include "documents/materials.hpp"
#include "documents/outline_files.hpp"
#include "documents/set_words.hpp"
#include "parts/printing.hpp"
#include "solid/mesh.hpp"
#include "solid/section.hpp"
#include "solid/step.hpp"
#include "solid/stl.hpp"
#include "solid/three_mf.hpp"
#include "timer/netlist.hpp"

namespace backfit {
namespace {

// Facets this near the true surface are finer than any printer's nozzle draws.
constexpr Length print_chord = 0.01 * mm;
// The same input gives the same bytes, so the time of making is not in the files.
constexpr std::string_view time_stamp = "2026-01-01T00:00:00";

// A wrong part costs a day: what the kernel made must be one sound body of the volume that the
// part's own numbers give.
void demand_sound(const Solid& body, const BackPlate& plate) {
  const Soundness s = soundness_of(body);
  const double off = std::abs(s.volume / volume_of(plate) - 1);
  if (!s.sound() || off > 1e-6) {
    throw SolidFailure(fmt::format(
        "the back plate came out unsound: {} bodies, {} bad edges, volume off by {:.1e}", s.bodies,
        s.bad_edges, off));
  }
}

void demand_sound(const Solid& body, const std::string& name) {
  const Soundness s = soundness_of(body);
  if (!s.sound()) {
    throw SolidFailure(fmt::format("the {} came out unsound: {} bodies, {} cavities, {} bad edges",
                                   name, s.bodies, s.cavities, s.bad_edges));
  }
}

// Printing files of `on_bed`, and STEP of `exact`, which may lack engraved words.
void add_part_files(FolderContents& contents, const std::string& name, const std::string& title,
                    const Solid& exact, const Solid& on_bed) {
  std::string file = "parts/" + name;
  std::ranges::replace(file, ' ', '-');
  const Mesh mesh = mesh_of(on_bed, print_chord);
  contents[file + ".step"] = step_file(exact, name, time_stamp);
  contents[file + ".3mf"] = three_mf_file(mesh, name, title);
  contents[file + ".stl"] = stl_file(mesh, name);
}

FlatOutlines outlines_of(const Solid& flat) {
  const Bounds b = bounds_of(flat);
  FlatOutlines outlines;
  for (const auto& cut : cut_of(flat, (b.low.z + b.high.z) / 2, print_chord)) {
    std::vector<paper::PartPoint> outline;
    outline.reserve(cut.size());
    for (const PaperPoint& p : cut) outline.push_back({p.x, p.y});
    outlines.push_back(std::move(outline));
  }
  return outlines;
}

// What a piece's files are made from, its own copies.
struct FiledPiece {
  std::string name, file;  // "parts/insert-lid"
  bool printed = true, flat = false;
  Solid exact, on_bed, drawn;
};

std::vector<FiledPiece> filed(const std::vector<PieceSet>& sets) {
  std::vector<FiledPiece> pieces;
  for (const PieceSet& set : sets) {
    for (const Piece& p : set.pieces) {
      pieces.push_back({p.name, paper::file_of(set, p), p.printed(), p.flat,
                        own_copy(p.in_place.front()), own_copy(p.on_bed), own_copy(p.drawn)});
    }
  }
  return pieces;
}

FolderContents files_of(const std::vector<FiledPiece>& pieces, const std::string& title) {
  FolderContents contents;
  for (const FiledPiece& p : pieces) {
    demand_sound(p.on_bed, p.name);
    if (p.printed) {
      add_part_files(contents, p.file.substr(p.file.find('/') + 1), title, p.exact, p.on_bed);
    }
    if (p.flat) {
      const FlatOutlines outlines = outlines_of(p.drawn);
      contents[p.file + ".dxf"] = dxf_file(outlines, p.name);
      contents[p.file + ".svg"] = svg_outline_file(outlines, p.name);
    }
  }
  return contents;
}

}  // namespace

FolderContents result_of(const Report& report, const MadeParts& parts,
                         const std::filesystem::path& data) {
  FolderContents contents;
  const std::string title =
      fmt::format("{} to {}", *report.assembly.camera.name, *report.assembly.film.name);
  if (parts.plate) {
    demand_sound(*parts.plate, *report.assembly.plate);
    add_part_files(contents, "back plate", title, *parts.plate, laid_on_rear_face(*parts.plate));
  }
  // Two hands: files of the pieces, and the papers.
  std::future<FolderContents> files = std::async(
      std::launch::async, [=, pieces = filed(parts.sets)] { return files_of(pieces, title); });
  for (const PieceSet& set : parts.sets) {
    if (set.name == "insert") demand_free_way(report, set);
  }
  contents["build-sheet.pdf"] = build_sheet(report, parts.plate, data / "fonts", parts.sets);
  const paper::PriceList materials = paper::materials_of(report, parts.sets);
  contents.merge(files.get());
  if (!materials.empty()) contents["materials.csv"] = materials.csv();
  contents["report.json"] = report_json(report);
  if (report.timer && !report.timer->design.positions.empty()) {
    const TimingCircuit circuit = circuit_of(*report.timer, 0);
    contents["timer.cir"] = netlist_of(circuit, 2 * circuit.design.positions[0].wanted);
  }
  return contents;
}

}  // namespace backfit

// SPDX-License-Identifier: MIT
#include "documents/part_scene.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cstdint>
#include <cstring>
#include <vector>

#include "documents/json_numbers.hpp"
#include "documents/made_sets.hpp"
#include "solid/mesh.hpp"

namespace backfit {
namespace {

using namespace json;

constexpr Length view_chord = 0.1 * mm;  // no screen shows less

std::string base64(const std::vector<std::uint32_t>& words) {
  static_assert(std::endian::native == std::endian::little);
  static constexpr char digits[] =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string bytes(words.size() * 4, '\0');
  std::memcpy(bytes.data(), words.data(), bytes.size());
  std::string text;
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    std::uint32_t group = 0;
    for (std::size_t k = 0; k < 3; ++k) {
      group = group << 8U | (i + k < bytes.size() ? static_cast<unsigned char>(bytes[i + k]) : 0U);
    }
    for (std::size_t k = 0; k < 4; ++k) {
      text += i + k <= bytes.size() ? digits[group >> (18U - 6U * k) & 63U] : '=';
    }
  }
  return text;
}

// A piece of `bodies`, each point of theirs put into the camera by `placed`.
template <class Placed>
Json piece_of(const std::string& name, const std::vector<Solid>& bodies, const Placed& placed) {
  std::vector<std::uint32_t> points;
  std::vector<std::uint32_t> triangles;
  std::array<float, 3> low{1e9F, 1e9F, 1e9F};
  std::array<float, 3> high{-1e9F, -1e9F, -1e9F};
  for (const Solid& body : bodies) {
    const auto first = static_cast<std::uint32_t>(points.size() / 3);
    const Mesh mesh = mesh_of(body, view_chord);
    for (const auto& p : mesh.points_mm) {
      const std::array<float, 3> q = placed(p);
      for (std::size_t k = 0; k < 3; ++k) {
        low[k] = std::min(low[k], q[k]);
        high[k] = std::max(high[k], q[k]);
        points.push_back(std::bit_cast<std::uint32_t>(q[k]));
      }
    }
    for (const auto& t : mesh.triangles) {
      for (const std::uint32_t corner : t) triangles.push_back(first + corner);
    }
  }
  Json size = Json::array();
  for (std::size_t k = 0; k < 3; ++k) {
    size.push_back(rounded(static_cast<double>(high[k] - low[k]), 2));
  }
  return {{"name", name},
          {"count", bodies.size()},
          {"size_mm", size},
          {"points", base64(points)},
          {"triangles", base64(triangles)}};
}

Json frame_of(const std::string& name, Length width, Length height, Length z) {
  return {
      {"name", name}, {"width_mm", mm_of(width)}, {"height_mm", mm_of(height)}, {"z_mm", mm_of(z)}};
}

}  // namespace

std::string parts_json(const Report& r) {
  const Assembly& a = r.assembly;
  Json j{{"schema", "backfit.parts/1"}};
  j["planes"] = Json::array();
  j["planes"].push_back(frame_of("original film plane", a.camera.gate.width->value,
                                 a.camera.gate.height->value, Length{}));
  const Length film_z = r.register_.set_back.value;
  j["planes"].push_back(
      frame_of("new film plane", r.frame.window.width, r.frame.window.height, film_z));
  for (const NamedScreen& n : a.screens()) {
    if (const auto& o = n.rectangle) {
      j["planes"].push_back(frame_of(n.name, o->width, o->height, o->z));
    }
  }
  const ExitPupil pupil = a.pupil(*a.plan.focus.aperture, r.register_.standard_moves);
  j["pupil"] = {{"z_mm", mm_of(pupil.z)}, {"radius_mm", mm_of(pupil.radius)}};
  j["pieces"] = Json::array();
  if (a.plate) {
    const float seat = static_cast<float>(a.camera.seat->behind_film.value.value / mm);
    j["pieces"].push_back(
        piece_of("back plate", {solid_of(*a.plate)}, [seat](const std::array<float, 3>& p) {
          return std::array<float, 3>{p[0], p[1], p[2] + seat};
        }));
  }
  for (const PieceSet& set : sets_of(r)) {
    for (const Piece& piece : set.pieces) {
      j["pieces"].push_back(piece_of(set.name + ", " + piece.name, piece.in_place,
                                     [](const std::array<float, 3>& p) { return p; }));
    }
  }
  j["in_the_way"] = Json::array();
  if (r.insert) {
    const auto corner = [](const Point3& p) { return Json{mm_of(p.x), mm_of(p.y), mm_of(p.z)}; };
    for (const ChamberMeeting& m : r.insert->meetings) {
      j["in_the_way"].push_back({{"name", m.name},
                                 {"comes_out", m.taken_out},
                                 {"low_mm", corner(m.low)},
                                 {"high_mm", corner(m.high)}});
    }
  }
  return j.dump() + "\n";
}

}  // namespace backfit

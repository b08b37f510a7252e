// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <map>

#include "solid/mesh_builder.hpp"
#include "solid/mesh_file.hpp"
#include "solid/xml.hpp"
#include "solid/zip.hpp"

namespace backfit {
namespace {

// Thrown and caught within this file.
struct Wrong {
  std::string text, help;
};

// Rows of the matrix that a point, as a row with a 1 behind it, is multiplied by.
using Transform = std::array<double, 12>;
constexpr Transform unmoved{1, 0, 0, 0, 1, 0, 0, 0, 1, 0, 0, 0};

using Point = std::array<double, 3>;

Point moved(const Point& p, const Transform& t) {
  Point out{};
  for (std::size_t i = 0; i < 3; ++i) {
    out.at(i) = p[0] * t.at(i) + p[1] * t.at(3 + i) + p[2] * t.at(6 + i) + t.at(9 + i);
  }
  return out;
}

// First by `inner`, then by `outer`.
Transform both(const Transform& inner, const Transform& outer) {
  Transform out{};
  for (std::size_t row = 0; row < 4; ++row) {
    for (std::size_t i = 0; i < 3; ++i) {
      double sum = row == 3 ? outer.at(9 + i) : 0;
      for (std::size_t k = 0; k < 3; ++k) sum += inner.at(3 * row + k) * outer.at(3 * k + i);
      out.at(3 * row + i) = sum;
    }
  }
  return out;
}

bool mirrors(const Transform& t) {
  return t[0] * (t[4] * t[8] - t[5] * t[7]) - t[1] * (t[3] * t[8] - t[5] * t[6]) +
             t[2] * (t[3] * t[7] - t[4] * t[6]) <
         0;
}

struct Use {
  std::size_t object = 0;
  Transform transform = unmoved;
};

struct Object {
  std::string name;
  std::vector<Point> points;
  std::vector<std::array<std::size_t, 3>> triangles;
  std::vector<Use> components;
};

class ModelReader {
 public:
  explicit ModelReader(std::string_view xml) : reader_(xml) {}

  std::vector<NamedMesh> read() {
    for (const XmlReader::Tag* tag = reader_.next(); tag != nullptr; tag = reader_.next()) {
      if (tag->opens) take(*tag);
    }
    if (!reader_.fault().empty()) throw Wrong{"the model's " + reader_.fault(), {}};
    if (items_.empty()) throw Wrong{"the package builds nothing: it has no build item", {}};
    std::vector<NamedMesh> parts;
    for (const Use& item : items_) {
      MeshBuilder builder;
      add(builder, item, unmoved, 0);
      parts.push_back({objects_[item.object].name, std::move(builder).mesh()});
    }
    return parts;
  }

 private:
  [[noreturn]] void wrong(const std::string& text) const {
    throw Wrong{fmt::format("the model's line {}: {}", reader_.line(), text), {}};
  }

  std::string_view needed(const XmlReader::Tag& tag, std::string_view key) const {
    const auto value = tag.attribute(key);
    if (!value) wrong(fmt::format("<{}> has no {}", tag.name, key));
    return *value;
  }
  template <class Number>
  Number number(std::string_view text) const {
    Number value{};
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size()) {
      wrong(fmt::format("'{}' is no number", text.substr(0, 40)));
    }
    return value;
  }
  Point point(const XmlReader::Tag& tag) const {
    const Point p{number<double>(needed(tag, "x")), number<double>(needed(tag, "y")),
                  number<double>(needed(tag, "z"))};
    for (const double x : p) {
      if (!std::isfinite(x)) {
        wrong(fmt::format("a corner lies nowhere: ({:g}, {:g}, {:g})", p[0], p[1], p[2]));
      }
    }
    return p;
  }
  Transform transform(const XmlReader::Tag& tag) const {
    const auto text = tag.attribute("transform");
    if (!text) return unmoved;
    Transform t{};
    std::size_t count = 0;
    for (std::size_t i = 0; i < text->size();) {
      const std::size_t end = std::min(text->find_first_of(" \t\r\n", i), text->size());
      if (end > i) {
        if (count == t.size()) wrong("a transform of more than 12 numbers");
        t.at(count++) = number<double>(text->substr(i, end - i));
      }
      i = end + 1;
    }
    if (count != t.size()) wrong(fmt::format("a transform of {} numbers, not 12", count));
    return t;
  }

  void take(const XmlReader::Tag& tag) {
    if (tag.name == "model") {
      take_model(tag);
    } else if (tag.name == "object") {
      id_ = number<std::size_t>(needed(tag, "id"));
      const auto name = tag.attribute("name");
      objects_[id_] = {};
      objects_[id_].name = name && !name->empty() ? unescaped(*name) : fmt::format("part {}", id_);
      in_object_ = true;
    } else if (tag.name == "item") {
      items_.push_back(use(tag));
    } else if (!in_object_) {
      return;
    } else if (tag.name == "vertex") {
      objects_[id_].points.push_back(point(tag));
    } else if (tag.name == "component") {
      objects_[id_].components.push_back(use(tag));
    } else if (tag.name == "triangle") {
      std::array<std::size_t, 3> t{};
      static constexpr std::array keys{"v1", "v2", "v3"};
      for (std::size_t i = 0; i < 3; ++i) {
        t.at(i) = number<std::size_t>(needed(tag, keys.at(i)));
        if (t.at(i) >= objects_[id_].points.size()) {
          wrong(
              fmt::format("a triangle has corner {} of {}", t.at(i), objects_[id_].points.size()));
        }
      }
      if (++triangles_ > most_triangles) wrong("more triangles than are read");
      objects_[id_].triangles.push_back(t);
    }
  }

  void take_model(const XmlReader::Tag& tag) {
    static const std::map<std::string_view, double> units{{"micron", 1e-3},   {"millimeter", 1},
                                                          {"centimeter", 10}, {"inch", 25.4},
                                                          {"foot", 304.8},    {"meter", 1000}};
    const auto unit = units.find(tag.attribute("unit").value_or("millimeter"));
    if (unit == units.end()) {
      wrong(fmt::format("'{}' is no unit of this format", tag.attribute("unit")->substr(0, 40)));
    }
    unit_mm_ = unit->second;
    if (const auto extensions = tag.attribute("requiredextensions");
        extensions && !extensions->empty()) {
      throw Wrong{fmt::format("the package demands the extension '{}', which is not read here",
                              extensions->substr(0, 40)),
                  "export it without extensions, or as STL"};
    }
  }

  Use use(const XmlReader::Tag& tag) const {
    const auto id = number<std::size_t>(needed(tag, "objectid"));
    // Objects come before those that use them, so that none can hold itself.
    if (!objects_.contains(id) || (in_object_ && tag.name == "component" && id == id_)) {
      wrong(fmt::format("there is no object {} before it", id));
    }
    return {id, transform(tag)};
  }

  void add(MeshBuilder& builder, const Use& use, const Transform& outer, int depth) {
    if (++uses_ > most_triangles) throw Wrong{"more components than are read", {}};
    if (depth > 16) throw Wrong{"objects within objects, more than 16 deep", {}};
    const Transform all = both(use.transform, outer);
    const Object& object = objects_.at(use.object);
    const bool turned = mirrors(all);
    const auto corner = [&](std::size_t i) {
      const Point p = moved(object.points[i], all);
      return MeshBuilder::Corner{static_cast<float>(unit_mm_ * p[0]),
                                 static_cast<float>(unit_mm_ * p[1]),
                                 static_cast<float>(unit_mm_ * p[2])};
    };
    for (const auto& t : object.triangles) {
      builder.add(corner(t[0]), corner(turned ? t[2] : t[1]), corner(turned ? t[1] : t[2]));
    }
    for (const Use& component : object.components) add(builder, component, all, depth + 1);
    if (builder.triangles() > most_triangles) throw Wrong{"more triangles than are read", {}};
  }

  XmlReader reader_;
  double unit_mm_ = 1;
  std::map<std::size_t, Object> objects_;
  std::size_t id_ = 0, triangles_ = 0, uses_ = 0;
  bool in_object_ = false;
  std::vector<Use> items_;
};

// The model's name in the package, by the package's list of relationships.
std::string model_name(const std::vector<ZipEntry>& entries) {
  for (const ZipEntry& entry : entries) {
    if (entry.name != "_rels/.rels") continue;
    XmlReader reader(entry.bytes);
    for (const auto* tag = reader.next(); tag != nullptr; tag = reader.next()) {
      const auto type = tag->attribute("Type"), target = tag->attribute("Target");
      if (type && target && type->ends_with("/3dmodel")) {
        return unescaped(target->starts_with('/') ? target->substr(1) : *target);
      }
    }
  }
  throw Wrong{"the package names no 3D model: it is no 3MF file", {}};
}

}  // namespace

ReadMeshes three_mf_meshes(std::string_view bytes) {
  try {
    auto unpacked = zip_entries(bytes);
    if (const auto* fault = std::get_if<std::string>(&unpacked)) return MeshFault{*fault, {}};
    const auto& entries = std::get<std::vector<ZipEntry>>(unpacked);
    const std::string name = model_name(entries);
    const auto model = std::ranges::find(entries, name, &ZipEntry::name);
    if (model == entries.end()) {
      return MeshFault{fmt::format("the package has no '{}', which it names as its model", name),
                       {}};
    }
    return ModelReader(model->bytes).read();
  } catch (const Wrong& fault) {
    return MeshFault{fault.text, fault.help};
  }
}

}  // namespace backfit

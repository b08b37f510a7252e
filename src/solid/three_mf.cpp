// SPDX-License-Identifier: MIT
#include "solid/three_mf.hpp"

#include <algorithm>
#include <cassert>
#include <charconv>

#include "solid/xml.hpp"
#include "solid/zip.hpp"

namespace backfit {
namespace {

const char* const content_types =
    R"(<?xml version="1.0" encoding="UTF-8"?>
<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">
  <Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>
  <Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/>
</Types>
)";

const char* const relationships =
    R"(<?xml version="1.0" encoding="UTF-8"?>
<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">
  <Relationship Id="model" Target="/3D/3dmodel.model" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/>
</Relationships>
)";

// The shortest decimal number that reads back as `value`.
void append_number(std::string& xml, float value) {
  char digits[32];
  const auto end = std::to_chars(std::begin(digits), std::end(digits), value).ptr;
  xml.append(std::begin(digits), end);
}

std::string build_item(const Mesh& mesh) {
  std::string xml = R"(    <item objectid="1" transform="1 0 0 0 1 0 0 0 1)";
  for (std::size_t axis = 0; axis < 3; ++axis) {
    float lowest = mesh.points_mm.front()[axis];
    for (const auto& point : mesh.points_mm) {
      lowest = std::min(lowest, point[axis]);
    }
    xml += ' ';
    append_number(xml, 0 - lowest);
  }
  return xml + "\"/>\n";
}

}  // namespace

std::string three_mf_file(const Mesh& mesh, std::string_view part_name, std::string_view title) {
  assert(!mesh.points_mm.empty() && !mesh.triangles.empty());
  std::string xml =
      R"(<?xml version="1.0" encoding="UTF-8"?>
<model unit="millimeter" xml:lang="en" xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02">
)";
  xml += "  <metadata name=\"Title\">" + escaped(title) + "</metadata>\n";
  xml += "  <resources>\n    <object id=\"1\" type=\"model\" name=\"" + escaped(part_name) +
         "\">\n      <mesh>\n        <vertices>\n";
  for (const auto& [x, y, z] : mesh.points_mm) {
    xml += "          <vertex x=\"";
    append_number(xml, x);
    xml += "\" y=\"";
    append_number(xml, y);
    xml += "\" z=\"";
    append_number(xml, z);
    xml += "\"/>\n";
  }
  xml += "        </vertices>\n        <triangles>\n";
  for (const auto& [a, b, c] : mesh.triangles) {
    xml += "          <triangle v1=\"" + std::to_string(a) + "\" v2=\"" + std::to_string(b) +
           "\" v3=\"" + std::to_string(c) + "\"/>\n";
  }
  xml += "        </triangles>\n      </mesh>\n    </object>\n  </resources>\n  <build>\n";
  xml += build_item(mesh);
  xml += "  </build>\n</model>\n";
  return zip_archive({{"[Content_Types].xml", content_types},
                      {"_rels/.rels", relationships},
                      {"3D/3dmodel.model", xml}});
}

}  // namespace backfit

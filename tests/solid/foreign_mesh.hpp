// SPDX-License-Identifier: MIT
// Mesh files as lib3mf 1.8.1 reads them, a library apart from ours: strictly by the 3MF core
// specification, and binary STL.
#pragma once
#include <gtest/gtest.h>

#include <Model/COM/NMR_DLLInterfaces.h>
#include <array>
#include <cstring>
#include <string>

namespace backfit {

// Owns what the 3MF library hands out.
template <class T>
class Held {
 public:
  Held() = default;
  Held(const Held&) = delete;
  Held& operator=(const Held&) = delete;
  ~Held() {
    if (held_ != nullptr) NMR::lib3mf_release(held_);
  }
  T** out() { return &held_; }
  T* operator*() const { return held_; }

 private:
  T* held_ = nullptr;
};

template <class Read>
std::string text_from(const Read& read) {
  char text[200] = {};
  ULONG needed = 0;
  EXPECT_EQ(read(text, ULONG{sizeof text}, &needed), LIB3MF_OK);
  return text;
}

// What stands in the file, its first object and that one's place on the bed.
struct ForeignMesh {
  DWORD unit = 0, warnings = 1, objects = 0;
  std::string title, name;
  bool manifold = false;  // closed and oriented
  DWORD points = 0, triangles = 0;
  double volume_mm3 = 0;
  std::array<float, 3> shift{};  // of the build item
};

// `kind` is "3mf" or "stl". Fails the test where the library can't read the file.
inline ForeignMesh foreign_mesh(std::string file, const char* kind) {
  ForeignMesh read;
  const bool package = std::string_view(kind) == "3mf";
  Held<NMR::PLib3MFModel> model;
  EXPECT_EQ(NMR::lib3mf_createmodel(model.out()), LIB3MF_OK);
  Held<NMR::PLib3MFModelReader> reader;
  EXPECT_EQ(NMR::lib3mf_model_queryreader(*model, kind, reader.out()), LIB3MF_OK);
  if (package) {
    EXPECT_EQ(NMR::lib3mf_reader_setstrictmodeactive(*reader, true), LIB3MF_OK);
  }
  EXPECT_EQ(
      NMR::lib3mf_reader_readfrombuffer(*reader, reinterpret_cast<BYTE*>(file.data()), file.size()),
      LIB3MF_OK);
  NMR::lib3mf_reader_getwarningcount(*reader, &read.warnings);
  NMR::lib3mf_model_getunit(*model, &read.unit);
  if (package) {
    read.title = text_from(
        [&](auto... args) { return NMR::lib3mf_model_getmetadatavalueutf8(*model, 0, args...); });
  }
  Held<NMR::PLib3MFModelResourceIterator> objects;
  EXPECT_EQ(NMR::lib3mf_model_getmeshobjects(*model, objects.out()), LIB3MF_OK);
  BOOL more = 0;
  while (NMR::lib3mf_resourceiterator_movenext(*objects, &more) == LIB3MF_OK && more) {
    if (++read.objects > 1) continue;
    Held<NMR::PLib3MFModelResource> object;
    EXPECT_EQ(NMR::lib3mf_resourceiterator_getcurrent(*objects, object.out()), LIB3MF_OK);
    if (package) {
      read.name =
          text_from([&](auto... args) { return NMR::lib3mf_object_getnameutf8(*object, args...); });
    }
    BOOL manifold = 0;
    NMR::lib3mf_meshobject_ismanifoldandoriented(*object, &manifold);
    read.manifold = manifold != 0;
    NMR::lib3mf_meshobject_getvertexcount(*object, &read.points);
    NMR::lib3mf_meshobject_gettrianglecount(*object, &read.triangles);
    for (DWORD i = 0; i < read.triangles; ++i) {
      NMR::MODELMESHTRIANGLE triangle;
      NMR::lib3mf_meshobject_gettriangle(*object, i, &triangle);
      double p[3][3];
      for (std::size_t j = 0; j < 3; ++j) {
        NMR::MODELMESHVERTEX vertex;
        NMR::lib3mf_meshobject_getvertex(*object, triangle.m_nIndices[j], &vertex);
        for (std::size_t k = 0; k < 3; ++k) p[j][k] = static_cast<double>(vertex.m_fPosition[k]);
      }
      read.volume_mm3 += (p[0][0] * (p[1][1] * p[2][2] - p[1][2] * p[2][1]) -
                          p[0][1] * (p[1][0] * p[2][2] - p[1][2] * p[2][0]) +
                          p[0][2] * (p[1][0] * p[2][1] - p[1][1] * p[2][0])) /
                         6;
    }
  }
  Held<NMR::PLib3MFModelBuildItemIterator> items;
  EXPECT_EQ(NMR::lib3mf_model_getbuilditems(*model, items.out()), LIB3MF_OK);
  NMR::lib3mf_builditemiterator_movenext(*items, &more);
  if (more) {
    Held<NMR::PLib3MFModelBuildItem> item;
    EXPECT_EQ(NMR::lib3mf_builditemiterator_getcurrent(*items, item.out()), LIB3MF_OK);
    NMR::MODELTRANSFORM shift;
    NMR::lib3mf_builditem_getobjecttransform(*item, &shift);
    for (std::size_t k = 0; k < 3; ++k) read.shift[k] = shift.m_fFields[k][3];
  }
  return read;
}

}  // namespace backfit

// SPDX-License-Identifier: MIT
#include "conversion/insert_study.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "example.hpp"

namespace backfit {
namespace {

Assembly assembly(const char* name) { return example_assembly("kestrel", name); }

// An insert for a path as `path` finds it, its places rounded: the search itself takes a second.
struct Placed {
  SectionPoint supply, take_up;
  Guide roller_low, lip_low, lip_high, roller_high;
};
Guide roller(double x_mm, double z_mm, double radius_mm) {
  return {{x_mm * mm, z_mm * mm}, radius_mm * mm, Face::paper, Motion::turning, false};
}
Guide lip(double x_mm) {
  return {{x_mm * mm, -1 * mm}, 1 * mm, Face::emulsion, Motion::fixed, true};
}

InsertStudy insert_for(const Assembly& a, const Placed& placed) {
  InsertStudy s;
  s.path.design = path_design(a);
  Layout layout;
  layout.supply = placed.supply;
  layout.take_up = placed.take_up;
  layout.guides = {placed.roller_low, placed.lip_low, placed.lip_high, placed.roller_high};
  layout.gate = 2;
  s.path.layout = layout;
  s.path.cut_away = cut_away(s.path.design.problem, layout);
  s.path.first = effort_of(s.path.design.problem, layout, 0);
  s.path.last = effort_of(s.path.design.problem, layout, 1);
  s.path.window = WindowPlace{{19.8 * mm, 0.1 * mm}, 19.8 * mm, {}, true, false, {}, {}};
  design_insert(a, s);
  find_insert(a, s);
  return s;
}

InsertStudy redesigned(const Assembly& a) {
  return insert_for(a, {{-44.8 * mm, 19.5 * mm},
                        {46.4 * mm, 20.3 * mm},
                        roller(-34.8, 5.2, 5.0),
                        lip(-30.7),
                        lip(30.9),
                        roller(35.3, 5.9, 5.7)});
}

const InsertStudy& six_by_six() {
  static const InsertStudy s = redesigned(assembly("kestrel-6x6.conversion.toml"));
  return s;
}

const Finding* finding(const InsertStudy& s, std::string_view id) {
  const auto it = std::ranges::find(s.findings, id, &Finding::id);
  return it == s.findings.end() ? nullptr : &*it;
}

TEST(InsertStudy, OfSixBySixCanBeMade) {
  const InsertStudy& s = six_by_six();
  ASSERT_TRUE(s.part);
  for (const PartFault& f : faults(*s.part)) ADD_FAILURE() << f.id << ": " << f.text;
  EXPECT_TRUE(s.can_be_made());
  // Spools, rollers and rails stand where the path has them.
  EXPECT_EQ(s.part->spools.take_up, s.path.layout->take_up);
  EXPECT_EQ(s.part->rollers.size(), 2U);
  ASSERT_TRUE(s.part->window);
  EXPECT_NEAR(s.part->window->x / mm, s.path.window->on_film.x / mm, 1e-9);
}

// Truth: by hand from the survey. The floor stands in the old gate of 95 by 73, each least by 0.1,
// with 0.3 mm free a side; cheeks and ends begin 0.3 behind the gate's edge, 0.6 at least 0.5
// before the film; between the cheeks a spool of 65.9 with 0.3 at each end.
TEST(InsertStudy, TakesItsSizesFromSurveyAndPrinter) {
  const RollInsert& i = *six_by_six().part;
  EXPECT_NEAR(i.gate.spigot_half_length / mm, (95 - 0.1) / 2 - 0.3, 1e-9);
  EXPECT_NEAR(i.gate.spigot_half_width / mm, (73 - 0.1) / 2 - 0.3, 1e-9);
  EXPECT_NEAR(i.body.front / mm, -0.2, 1e-9);
  EXPECT_NEAR(i.body.half_width / mm, 65.9 / 2 + 0.3, 1e-9);
  // Chamber 36 deep, 0.2 less at worst, less wall and clearance; 124 high, likewise.
  EXPECT_NEAR(i.body.back / mm, 36 - 0.2 - 1.6 - 0.3, 1e-9);
  EXPECT_NEAR(i.half_length() / mm, (124 - 0.2) / 2 - 0.3, 1e-9);
}

// Law: a gap measured on the printer's gauge goes into what slides, and nothing else has one.
TEST(InsertStudy, GapsAreThePrintersOwn) {
  Assembly a = assembly("kestrel-6x6.conversion.toml");
  a.plan.printer->clearance.value.value = 0.35 * mm;
  const InsertStudy s = redesigned(a);
  ASSERT_TRUE(s.part);
  EXPECT_EQ(s.part->gap, 0.35 * mm);
  EXPECT_GT(s.part->rim(), six_by_six().part->rim());
}

// Law: what may be cut and stands in the cheeks' way comes out; what must stay gets a notch that is
// open to the side that it is nearer to.
TEST(InsertStudy, TellsWhatMustGoFromTheCamera) {
  const InsertStudy& s = six_by_six();
  ASSERT_EQ(s.meetings.size(), 2U);
  EXPECT_EQ(s.meetings[0].name, "old roller");
  EXPECT_TRUE(s.meetings[0].taken_out);
  EXPECT_FALSE(s.meetings[1].taken_out);
  ASSERT_EQ(s.part->notches.size(), 1U);
  EXPECT_GT(s.part->notches[0].high.z, s.part->lid_top());
  EXPECT_NE(finding(s, "take-out"), nullptr);
  // The knob's hole: in the right wall, at the take-up spool's height and depth.
  ASSERT_TRUE(s.hole);
  EXPECT_NEAR(s.hole->middle.x / mm, (90 - 0.2) / 2, 1e-9);
  EXPECT_EQ(s.hole->middle.y, s.path.layout->take_up.x);
  EXPECT_EQ(s.hole->middle.z, s.path.layout->take_up.z);
}

// Law: film goes wherever the path says without touching anything but what it runs over: strands as
// solids, at the roll's beginning and end; and nothing printed meets a spool or a rod.
void expect_nothing_meets(const InsertStudy& s) {
  ASSERT_TRUE(s.part);
  RollInsert i = *s.part;
  i.words = {};  // meet nothing, and take the kernel longest
  const LayoutProblem& p = s.path.design.problem;
  std::vector<std::pair<std::string, Solid>> printed, others;
  for (const Piece& piece : pieces_of(i)) {
    for (const Solid& solid : piece.in_place) printed.emplace_back(piece.name, solid);
  }
  others.emplace_back("supply spool", full_spool(i, i.spools.supply));
  others.emplace_back("take-up spool", full_spool(i, i.spools.take_up));
  for (const RollInsert::Roller& r : i.rollers) others.emplace_back("rod", rod_of(i, r));
  for (const double wound : {0.0, 1.0}) {
    for (const Strand& strand : film_of(p, *s.path.layout, wound).strands) {
      const SectionPoint e = (1 / (strand.length() / mm)) * (strand.to - strand.from);
      const SectionPoint n = (0.5 * (p.strip.thickness / mm)) * SectionPoint{-e.z, e.x};
      const auto corner = [](SectionPoint q) { return OutlineCorner{q.x, q.z}; };
      const Length half = i.spools.film_width / 2;
      others.emplace_back(
          "film", quarter_turned_about_x(prism({corner(strand.from - n), corner(strand.to - n),
                                                corner(strand.to + n), corner(strand.from + n)},
                                               -half, half)));
    }
  }
  for (std::size_t a = 0; a < printed.size(); ++a) {
    const Bounds one = bounds_of(printed[a].second);
    const auto expect_apart = [&](const std::string& name, const Solid& solid) {
      const Bounds two = bounds_of(solid);
      if (one.high.x < two.low.x || two.high.x < one.low.x || one.high.y < two.low.y ||
          two.high.y < one.low.y || one.high.z < two.low.z || two.high.z < one.low.z) {
        return;
      }
      EXPECT_LT(common_volume(printed[a].second, solid) / mm3, 1e-6)
          << printed[a].first << " and " << name;
    };
    for (const auto& [name, solid] : others) expect_apart(name, solid);
    for (std::size_t b = a + 1; b < printed.size(); ++b) {
      expect_apart(printed[b].first, printed[b].second);
    }
  }
}

TEST(InsertStudy, FilmAndSpoolsMeetNothing) { expect_nothing_meets(six_by_six()); }

// Spools behind the pressure plate, film folded round large rollers.
TEST(InsertStudy, FoldedFilmAndSpoolsMeetNothing) {
  InsertStudy s = insert_for(assembly("kestrel-6x9.conversion.toml"), {{-30.6 * mm, 20.0 * mm},
                                                                       {12.8 * mm, 19.9 * mm},
                                                                       roller(-50.6, 7.5, 7.3),
                                                                       lip(-45.4),
                                                                       lip(45.4),
                                                                       roller(50.6, 7.5, 7.3)});
  EXPECT_TRUE(s.can_be_made());
  expect_nothing_meets(s);
  EXPECT_NE(finding(s, "window-left-out"), nullptr);
}

TEST(InsertStudy, AsksForWhatOnlyACaliperKnows) {
  Assembly a = assembly("kestrel-6x6.conversion.toml");
  a.plan.insert->spool->slot_width.reset();
  a.plan.insert->spool->length.reset();
  const InsertStudy s = redesigned(a);
  EXPECT_FALSE(s.part);
  ASSERT_EQ(s.missing.size(), 1U);
  EXPECT_EQ(s.missing[0].key, "insert.spool.slot_width");
  EXPECT_NE(finding(s, "measure-first"), nullptr);
  EXPECT_NE(finding(s, "from-memory"), nullptr);
}

// Law: each fault of the part is a blocker with a remedy.
TEST(InsertStudy, FaultsAreBlockersWithRemedies) {
  Assembly a = assembly("kestrel-6x6.conversion.toml");
  a.camera.gate.width.value.value = 63 * mm;
  a.camera.chamber->width.value.value = 80 * mm;
  a.plan.printer->bed_width.value = a.plan.printer->bed_depth.value = 100 * mm;
  const InsertStudy s = redesigned(a);
  for (const char* id : {"gate-too-narrow", "insert-too-wide", "pin-not-drawn", "bed-too-small"}) {
    const Finding* f = finding(s, id);
    ASSERT_NE(f, nullptr) << id;
    EXPECT_EQ(f->weight, Weight::blocker) << id;
    EXPECT_FALSE(f->remedies.empty()) << id;
  }
  EXPECT_FALSE(s.can_be_made());
}

TEST(InsertStudy, KnobSitsBesideTheFilm) {
  Assembly a = assembly("kestrel-6x6.conversion.toml");
  a.plan.insert->knob->wall.value = CameraWall::left;
  const InsertStudy left = redesigned(a);
  ASSERT_TRUE(left.part && left.hole);
  EXPECT_LT(left.hole->middle.x, 0 * mm);
  EXPECT_EQ(left.part->knob.side, -six_by_six().part->knob.side);
}

}  // namespace
}  // namespace backfit

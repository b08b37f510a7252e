// SPDX-License-Identifier: MIT
#include "conversion/insert_study.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "example.hpp"
#include "parts/insert_shapes.hpp"
#include "quantity/random.hpp"

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

struct Named {
  std::string name;
  Solid solid;
};

Solid across_film(const SectionOutline& outline, Length half) {
  std::vector<OutlineCorner> corners;
  for (const SectionPoint& p : outline) corners.push_back({p.x, p.z});
  return quarter_turned_about_x(prism(corners, -half, half));
}

void expect_apart(const Named& a, const Named& b) {
  const Bounds one = bounds_of(a.solid), two = bounds_of(b.solid);
  if (one.high.x < two.low.x || two.high.x < one.low.x || one.high.y < two.low.y ||
      two.high.y < one.low.y || one.high.z < two.low.z || two.high.z < one.low.z) {
    return;
  }
  EXPECT_LT(common_volume(a.solid, b.solid) / mm3, 1e-6) << a.name << " and " << b.name;
}

// What stays in the camera, in the insert's axes; of film going up. Outside its four walls ends
// what is looked at: knob and shaft go through one of them.
std::vector<Named> camera_of(const Assembly& a, const InsertStudy& s) {
  const Length set_back = s.path.design.set_back;
  const auto block = [&](Point3 low, Point3 high) {
    return box({low.y, -high.x, low.z - set_back}, {high.y, -low.x, high.z - set_back});
  };
  std::vector<Named> list;
  for (const ChamberPart& part : a.camera.chamber->parts) {
    const auto meeting = std::ranges::find(s.meetings, *part.name, &ChamberMeeting::name);
    if (meeting != s.meetings.end() && meeting->taken_out) continue;
    const Length x = part.width->value / 2, y = part.height->value / 2;
    list.push_back(
        {*part.name, block({part.x->value - x, part.y->value - y, part.behind_film->value},
                           {part.x->value + x, part.y->value + y,
                            part.behind_film->value + part.depth->value})});
  }
  const Length x = a.camera.chamber->width->value / 2, y = a.camera.chamber->height->value / 2;
  const Length wall = 5 * mm, front = -a.camera.chamber->before_film->value;
  const Length back = a.camera.chamber->behind_film->value;
  list.push_back({"camera's wall",
                  difference_of(block({-x - wall, -y - wall, front}, {x + wall, y + wall, back}),
                                {block({-x, -y, front - wall}, {x, y, back + wall})})});
  return list;
}

// Law: over the whole roll nothing meets. What stands still or only turns: printed pieces, rods,
// what stays of the camera; spools, both with a full roll, which holds every roll; and the film's
// sweep, all that it passes through. Rolls and film as they are together at the first frame, at a
// quarter, half and three quarters of the roll, and at the last.
void expect_nothing_meets(const Assembly& a, const InsertStudy& s) {
  ASSERT_TRUE(s.part);
  RollInsert i = *s.part;
  i.words = {};  // meet nothing, and take the kernel longest
  const LayoutProblem& p = s.path.design.problem;
  const Layout& l = *s.path.layout;
  std::vector<Named> printed, rest;
  for (const Piece& piece : pieces_of(i)) {
    for (const Solid& solid : piece.in_place) printed.push_back({piece.name, solid});
  }
  const std::vector<Named> camera = camera_of(a, s);
  rest.push_back({"supply spool", full_spool(i, i.spools.supply)});
  rest.push_back({"take-up spool", full_spool(i, i.spools.take_up)});
  expect_apart(rest[0], rest[1]);
  for (const RollInsert::Roller& r : i.rollers) rest.push_back({"rod", rod_of(i, r)});
  for (const SectionOutline& outline : film_sweep(p, l)) {
    rest.push_back({"film", across_film(outline, i.spools.film_width / 2)});
  }
  for (std::size_t k = 0; k < printed.size(); ++k) {
    for (const Named& other : rest) expect_apart(printed[k], other);
    for (std::size_t m = k + 1; m < printed.size(); ++m) expect_apart(printed[k], printed[m]);
    if (printed[k].name == "knob" || printed[k].name == "drive shaft") continue;
    for (const Named& other : camera) expect_apart(printed[k], other);
  }
  for (const Named& one : rest) {
    for (const Named& other : camera) expect_apart(one, other);
  }
  const RollMake& make = s.path.design.make;
  const double first = (make.leader + 60 * mm) / make.total();
  const double last = (make.leader + make.film - 30 * mm) / make.total();
  for (const double wound : {first, 0.25, 0.5, 0.75, last}) {
    const Radii radii = radii_at(p.spool, wound);
    const auto roll = [&](const char* name, SectionPoint at, Length radius) {
      const Length half = i.spools.film_width / 2;
      return Named{name, laid_across(cylinder(2 * radius, -half, half), at, {}, 1)};
    };
    const Named rolls[] = {roll("supply roll", l.supply, radii.supply),
                           roll("take-up roll", l.take_up, radii.take_up)};
    std::vector<Named> film;
    for (const SectionOutline& outline : film_body(p, l, wound)) {
      film.push_back({"film", across_film(outline, i.spools.film_width / 2)});
    }
    expect_apart(rolls[0], rolls[1]);
    for (const Named& f : film) {
      for (const Named& r : rolls) expect_apart(f, r);
    }
    // Neighbours touch end to end: only what is not next to each other counts.
    const std::size_t strands = l.guides.size() + 1;
    for (std::size_t m = 0; m < strands; ++m) {
      for (std::size_t n = m + 2; n < strands; ++n) expect_apart(film[m], film[n]);
    }
  }
}

TEST(InsertStudy, FilmAndSpoolsMeetNothing) {
  expect_nothing_meets(assembly("kestrel-6x6.conversion.toml"), six_by_six());
}

// Spools behind the pressure plate, film folded round large rollers.
TEST(InsertStudy, FoldedFilmAndSpoolsMeetNothing) {
  const Assembly a = assembly("kestrel-6x9.conversion.toml");
  InsertStudy s = insert_for(a, {{-30.6 * mm, 20.0 * mm},
                                 {12.8 * mm, 19.9 * mm},
                                 roller(-50.6, 7.5, 7.3),
                                 lip(-45.4),
                                 lip(45.4),
                                 roller(50.6, 7.5, 7.3)});
  EXPECT_TRUE(s.can_be_made());
  expect_nothing_meets(a, s);
  EXPECT_NE(finding(s, "window-left-out"), nullptr);
}

// A chamber, film and printer drawn at random; the picture across the film and the sides of the
// chamber beside it stay as they are, since no path changes what they ask.
Assembly drawn_assembly(Random& random) {
  Assembly a = assembly("kestrel-6x6.conversion.toml");
  const auto between = [&](double low, double high) { return low + (high - low) * random.unit(); };
  Chamber& c = *a.camera.chamber;
  c.height.value.value = between(112, 150) * mm;
  c.behind_film.value.value = between(33, 44) * mm;
  c.before_film.value.value = between(1, 6) * mm;
  a.camera.gate.before_film.value.value = between(0.6, c.before_film->value / mm) * mm;
  a.camera.gate.height.value.value = between(70, 98) * mm;
  for (ChamberPart& part : c.parts) {
    part.y.value.value = between(-0.5, 0.5) * c.height->value;
    part.behind_film.value.value = between(0, 30) * mm;
    part.may_be_cut.value = random.unit() < 0.6;
  }
  const std::string formats[] = {"roll-120-6x4.5", "roll-120-6x6", "roll-120-6x7", "roll-120-6x8",
                                 "roll-120-6x9"};
  const auto pick = static_cast<std::size_t>(5 * random.unit());
  a.film =
      *std::ranges::find(catalogue().films, formats[pick], [](const Film& f) { return *f.id; });
  a.plan.printer->nozzle.value = random.unit() < 0.5 ? 0.4 * mm : 0.6 * mm;
  a.plan.printer->clearance.value.value = between(0.15, 0.45) * mm;
  a.plan.insert->pressure_plate->value = between(2.6, 4) * mm;
  a.plan.insert->loading->value =
      random.unit() < 0.5 ? SpoolLoading::through_back : SpoolLoading::insert_taken_out;
  a.plan.insert->spool->slot_length->value.value = between(8, 9.5) * mm;
  return a;
}

// Law: whatever the search calls a layout, the insert round it can be printed: rim, cheeks, rails,
// hubs, the way of the spools. What no layout changes is said in words instead: a gate too narrow
// or too short for the picture, a chamber too narrow beside it. At least thirty chambers of fifty
// hold a layout.
TEST(InsertStudy, CanBePrintedRoundWhateverTheSearchFinds) {
  int with_layout = 0;
  for (std::uint64_t seed = 1; seed <= 50; ++seed) {
    Random random(seed);
    const Assembly a = drawn_assembly(random);
    Diagnostics diagnostics;
    if (!path_can_be_studied(a, diagnostics)) {
      EXPECT_FALSE(diagnostics.list().empty());
      continue;
    }
    const PathDesign design = path_design(a);
    const std::vector<Layout> found = layouts_for(design.problem, 1);
    with_layout += found.empty() ? 0 : 1;
    for (const Layout& layout : found) {
      InsertStudy s;
      s.path.design = design;
      s.path.layout = layout;
      s.path.last = effort_of(design.problem, layout, 1);
      design_insert(a, s);
      ASSERT_TRUE(s.part) << seed;
      for (const PartFault& f : faults(*s.part)) {
        const bool plan = f.id == "gate-too-narrow" || f.id == "gate-too-short" ||
                          f.id == "film-too-wide" || f.id == "insert-too-wide" ||
                          f.id == "pin-not-drawn";
        EXPECT_TRUE(plan) << "chamber " << seed << ": " << f.id << ": " << f.text;
        EXPECT_FALSE(f.remedy.empty());
      }
    }
  }
  EXPECT_GE(with_layout, 30);
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

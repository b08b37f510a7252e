// SPDX-License-Identifier: MIT
// What the studies say of one conversion: numbers with their uncertainty, findings, a verdict.
#pragma once
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "conversion/accessory_study.hpp"
#include "conversion/assembly.hpp"
#include "conversion/finding.hpp"
#include "conversion/focus_study.hpp"
#include "conversion/insert_study.hpp"
#include "conversion/print_study.hpp"
#include "conversion/spool_study.hpp"
#include "conversion/timer_study.hpp"

namespace backfit {

struct LeakStudy;

// What light reaches the sheet.
struct FrameStudy {
  FrameSize window;  // of the holder
  struct Screen {
    std::string name;
    FrameSize whole, half;  // frames on the film, see Edge
  };
  std::vector<Screen> screens;  // one for each opening, nearest the lens first
  FrameSize whole;              // of all screens and the window: no shadow inside
  FrameSize picture;            // likewise at half: where the picture's edges are seen
  Estimate<Length> picture_width, picture_height;
  std::string limited_by;  // the screen that cuts the picture; empty if none does
  // At which the gate no longer shadows the window, the lens following; empty if none does.
  std::optional<Estimate<Length>> clearing_set_back;
  std::optional<Length> farthest_focus_if_clear;  // with the room there is; empty if infinity
  FrameSize gate_to_open;  // gate that would light the whole window at this set-back
  struct Loss {
    std::string where;
    Length x, y;
    std::optional<Stops> lost;  // empty: no light
  };
  std::vector<Loss> losses;  // along the half diagonal and the sides of the picture
};

// What the image circle is known by, best last.
enum class CircleGrade { lens_kind, measured, prescription };

// Image circle against the picture's corners. By a prescription it is the circle in which light
// lost to the lens and its cosines stays within two stops (common practice).
struct CircleStudy {
  CircleGrade grade = CircleGrade::lens_kind;
  Estimate<Length> circle;
  Length needed;  // the picture's diagonal
  double odds_covered = 0;
  FrameSize covered;  // largest picture of the same shape inside the circle
};

// "angle of the lens kind", "measured image circle", "prescription".
std::string_view name_of(CircleGrade grade);

struct HandednessStudy {
  bool reversed = false;  // the finished picture is a mirror image
};

struct Report {
  Assembly assembly;
  RegisterStudy register_;
  FocusStudy focus;
  DepthOfFieldStudy depth_of_field;
  std::optional<FinderStudy> finder;
  std::optional<StopStudy> stop;
  FrameStudy frame;
  CircleStudy circle;
  HandednessStudy hand;
  PrintStudy print;
  std::vector<AccessoryStudy> accessories;
  std::optional<SpoolStudy> spools;
  std::optional<TimerStudy> timer;
  std::optional<InsertStudy> insert;  // see add_insert()
  // Light that finds its way to the film, see add_light(); why it was not studied though it was
  // asked for.
  std::shared_ptr<const LeakStudy> light;
  std::string light_skipped;
  std::vector<Finding> findings;
  Verdict verdict = Verdict::fits;
  bool has_blockers() const;
  // Papers always can; of a back on the seat or an adapter the part's numbers must be known and
  // make a sound part.
  bool can_be_made() const;
};

// What a report is asked for: without the shutter's timer, with it, or with each of its circuits
// simulated as well, which takes longer than all else.
enum class Scope { without_timer, with_timer, with_simulation };

// All studies of `assembly` in `scope`. The same assembly gives the same report.
Report report_on(Assembly assembly, Scope scope = Scope::with_timer);

// Adds the insert that carries roll film, its film path and their findings, where the plan is for
// one and says enough. `catalogue` for the largest frame that fits where this one does not.
void add_insert(Report& report, const Catalogue& catalogue);

// The findings of a report whose studies are done, gravest first, and the verdict they add up to.
std::vector<Finding> findings_of(const Report& report);
// Those on the timer alone, gravest first. Requires report.timer.
std::vector<Finding> timer_findings(const Report& report);
Verdict verdict_of(const std::vector<Finding>& findings, bool missing_measurements);
// Puts the findings of a study beyond the report's own among them, gravest first; the verdict
// follows.
void add_findings(Report& report, std::vector<Finding> findings);

}  // namespace backfit

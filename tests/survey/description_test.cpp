// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <sstream>

#include "files/blank_form.hpp"
#include "survey/camera.hpp"
#include "survey/film_prices.hpp"
#include "survey/plan.hpp"

namespace backfit {
namespace {

using Keys = std::set<std::string>;

// "gate.width" of every line of the form, tables without their keys, too.
template <class R>
Keys keys_of_form() {
  R record;
  Keys keys;
  for (const FormLine& line : form_lines([&](Fields& fields) { describe(fields, record); })) {
    const std::string key = line.key.empty() || line.path.empty() ? line.key : "." + line.key;
    keys.insert(line.path + key);
  }
  return keys;
}

// "gate.width" of every member that a header declares, with each struct's table, or its tables with
// a space between.
Keys members_in(const std::string& header, const std::map<std::string, std::string>& tables) {
  std::ifstream in(std::string(BACKFIT_SOURCE_DIR) + "/src/survey/" + header);
  Keys keys;
  const std::string* table = nullptr;
  std::set<std::string> structs;
  const std::regex member(R"(^\s+[A-Za-z:<>]+\s+([a-z_0-9]+(, [a-z_0-9]+)*);)");
  for (std::string line; std::getline(in, line);) {
    std::smatch found;
    // A type alone in a line has its names in the next.
    if (std::string rest; line.ends_with(">>>") && std::getline(in, rest)) line += rest;
    if (std::regex_search(line, found, std::regex(R"(^struct (\w+) \{)"))) {
      structs.insert(found[1]);
      table = tables.count(found[1]) != 0 ? &tables.at(found[1]) : nullptr;
      EXPECT_NE(table, nullptr) << "name the table of " << found[1];
    } else if (table != nullptr && std::regex_search(line, found, member)) {
      const std::string names = found[1];
      const std::regex one(R"(\w+)");
      for (std::sregex_iterator it(names.begin(), names.end(), one), end; it != end; ++it) {
        if (it->str() == "place") continue;
        if (table->empty()) keys.insert(it->str());
        std::istringstream names_of_tables(*table);
        for (std::string name; names_of_tables >> name;) keys.insert(name + "." + it->str());
      }
    }
  }
  EXPECT_EQ(structs.size(), tables.size());
  return keys;
}

// Law: what a record holds is what its file may say; no member is forgotten in its description.
TEST(CameraDescription, CoversEachMember) {
  EXPECT_EQ(keys_of_form<Camera>(),
            members_in("camera.hpp", {{"Outline", "openings obstacles"},
                                      {"Gate", "gate"},
                                      {"ScrewPlace", "seat.screws lens_board.screws"},
                                      {"SeatGroove", "seat.groove"},
                                      {"Neighbour", "seat.neighbours"},
                                      {"Seat", "seat"},
                                      {"SpoolRoom", "spools"},
                                      {"ChamberPart", "chamber.parts"},
                                      {"Chamber", "chamber"},
                                      {"Sheath", "plate_holder.sheath"},
                                      {"TabSlit", "pack.slit"},
                                      {"PackRoom", "pack"},
                                      {"PlateHolder", "plate_holder"},
                                      {"LensBoard", "lens_board"},
                                      {"Lens", "lens"},
                                      {"Focusing", "focusing"},
                                      {"Rangefinder", "rangefinder"},
                                      {"ShutterTrial", "shutter.timer.trials"},
                                      {"ShutterCell", "shutter.timer.cell_readings"},
                                      {"ShutterTimer", "shutter.timer"},
                                      {"MeasuredSpeed", "shutter.measured"},
                                      {"Shutter", "shutter"},
                                      {"Accessory", "accessories"},
                                      {"Camera", ""}}));
}

TEST(PlanDescription, CoversEachMember) {
  Keys members = members_in("plan.hpp", {{"BackPlan", "back"},
                                         {"HolderPlan", "holder"},
                                         {"GlassFramePlan", "glass_frame"},
                                         {"PackHolderPlan", "pack_holder"},
                                         {"KnobPlan", "insert.knob"},
                                         {"SpoolPlan", "insert.spool"},
                                         {"BackingPaperPlan", "insert.backing_paper"},
                                         {"StrapsPlan", "back.straps"},
                                         {"InsertPlan", "insert"},
                                         {"FocusPlan", "focus"},
                                         {"GroundGlass", "focus.ground_glass"},
                                         {"StopTest", "focus.stop_test"},
                                         {"WallReading", "printer.wall_readings"},
                                         {"Printer", "printer"},
                                         {"StockedResistor", "timer.stock"},
                                         {"TimerBoxPlan", "timer.box"},
                                         {"TimerPlan", "timer"},
                                         {"BoughtItem", "bought timer.parts"},
                                         {"Prices", "prices"},
                                         {"Plan", ""}});
  members.merge(members_in("exposure_plan.hpp", {{"FilterPlan", "exposure.filters"},
                                                 {"FlashPlan", "exposure.flash"},
                                                 {"PictureCost", "exposure.cost"},
                                                 {"WedgeTest", "exposure.wedge"},
                                                 {"PackTest", "exposure.pack"},
                                                 {"ExposurePlan", "exposure"}}));
  members.merge(members_in("extras_plan.hpp", {{"FocusGaugePlan", "focus_gauge"},
                                               {"DepthGaugePlan", "depth_gauge"},
                                               {"GateMaskPlan", "gate_mask"},
                                               {"LensSpacerPlan", "lens_spacer"},
                                               {"AttachmentRingPlan", "attachment_rings"},
                                               {"WindowCoverPlan", "window_cover"},
                                               {"BlankCoverPlan", "blank_cover"}}));
  members.merge(members_in("mounting_plan.hpp", {{"MountingScrew", "back.mounting.screws"},
                                                 {"MountingTrap", "back.mounting.trap"},
                                                 {"MountingPlan", "back.mounting"}}));
  EXPECT_EQ(keys_of_form<Plan>(), members);
}

TEST(PricesDescription, CoversEachMember) {
  // The table of a film's price is described in place, with its costs.
  Keys members = members_in("film_prices.hpp", {{"FilmPrice", "films"}, {"FilmPrices", ""}});
  members.erase("films.cost");
  for (const char* key : {"pack", "pictures", "processing"})
    members.insert(std::string("films.") + key);
  EXPECT_EQ(keys_of_form<FilmPrices>(), members);
}

// Law: an example in a form is read for the key that it stands beside; at most one, the engraved
// focal length, leaves its ± to the tool.
template <class R>
void expect_examples_read() {
  R record;
  const auto lines = form_lines([&](Fields& fields) { describe(fields, record); });
  std::string text;
  for (const FormLine& line : lines) {
    if (line.heading) {
      text += (line.list ? "[[" : "[") + line.path + (line.list ? "]]\n" : "]\n");
    } else {
      const bool quoted = line.example.starts_with('"');  // of a choice the first
      text += line.key + " = " +
              (quoted ? line.example.substr(0, line.example.find('"', 1) + 1) : line.example) +
              "\n";
    }
  }
  Diagnostics diagnostics;
  const auto source = std::make_shared<const SourceText>("form.toml", text);
  EXPECT_TRUE(read_record<R>(source, diagnostics)) << text;
  for (const Diagnostic& d : diagnostics.list()) {
    EXPECT_EQ(d.severity, Severity::note) << rendered(d);
    EXPECT_EQ(d.text.find("and elsewhere"), std::string::npos) << rendered(d);
  }
}

TEST(CameraDescription, GivesExamplesThatRead) { expect_examples_read<Camera>(); }
TEST(PlanDescription, GivesExamplesThatRead) { expect_examples_read<Plan>(); }

}  // namespace
}  // namespace backfit

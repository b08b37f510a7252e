// SPDX-License-Identifier: MIT
// What the desk answers by long studies; see errand.hpp for where they run.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <nlohmann/json.hpp>
#include <sstream>
#include <thread>
#include <variant>

#include "conversion/exposure_study.hpp"
#include "conversion/leak_scene.hpp"
#include "conversion/path_study.hpp"
#include "conversion/read_conversion.hpp"
#include "conversion/trace_saving.hpp"
#include "documents/json.hpp"
#include "documents/leak_answer.hpp"
#include "documents/listing.hpp"
#include "documents/part_scene.hpp"
#include "documents/path_answer.hpp"
#include "documents/timer_answer.hpp"
#include "documents/trace_answer.hpp"
#include "documents/winding_scene.hpp"
#include "quantity/notation.hpp"
#include "workbench/desk.hpp"
#include "workbench/desk_asked.hpp"

namespace backfit {

using Json = nlohmann::ordered_json;

namespace {

constexpr std::string_view byte_order_mark = "\uFEFF";

// What base64 stands for; empty where it is none.
std::optional<std::string> bytes_of_base64(std::string_view text) {
  while (text.ends_with('=')) text.remove_suffix(1);
  std::string bytes;
  bytes.reserve(text.size() / 4 * 3 + 2);
  std::uint32_t group = 0;
  unsigned bits = 0;
  for (const char c : text) {
    const int digit = c >= 'A' && c <= 'Z'   ? c - 'A'
                      : c >= 'a' && c <= 'z' ? c - 'a' + 26
                      : c >= '0' && c <= '9' ? c - '0' + 52
                      : c == '+'             ? 62
                      : c == '/'             ? 63
                                             : -1;
    if (digit < 0) return {};
    group = (group << 6U | static_cast<std::uint32_t>(digit)) & 0xFFFFFFU;
    bits += 6;
    if (bits >= 8) {
      bits -= 8;
      bytes += static_cast<char>(group >> bits & 0xFFU);
    }
  }
  return bytes;
}

// A time as it was typed into the box named `box`; empty, with an error added, when it is none from
// `least` to `most`.
std::optional<Measured<Time>> time_typed(std::string_view box, const std::string& text, Time least,
                                         Time most, Diagnostics& diagnostics) {
  const auto read = read_quantity(text, kind_of<Time>(), Sign::positive);
  if (const auto* fault = std::get_if<NotationFault>(&read)) {
    diagnostics.error({}, fmt::format("{}: {}", box, fault->message),
                      fault->remedy.empty() ? "" : fmt::format("write {}", fault->remedy));
    return {};
  }
  const Reading& reading = std::get<Reading>(read);
  const Time time = reading.value * second;
  if (time < least || time > most) {
    diagnostics.error({}, fmt::format("{}: '{}' is out of range; {:g} to {:g} s are taken", box,
                                      text, least / second, most / second));
    return {};
  }
  return Measured<Time>{time, reading.tolerance.value_or(0) * second};
}

std::vector<std::string> parted_at_commas(const std::string& text) {
  std::vector<std::string> pieces;
  std::istringstream list(text);
  for (std::string piece; std::getline(list, piece, ',');) {
    const std::size_t first = piece.find_first_not_of(' ');
    if (first == std::string::npos) continue;
    pieces.push_back(piece.substr(first, piece.find_last_not_of(' ') - first + 1));
  }
  return pieces;
}

// The felt by the readings typed, pairs of mm and stops; nothing without any, or why not.
std::variant<std::optional<Slab>, std::string> felt_typed(const Json& readings) {
  if (!readings.is_array() || readings.empty()) return std::nullopt;
  std::vector<SlabReading> read;
  for (const Json& r : readings) {
    if (!r.is_array() || r.size() != 2 || !r[0].is_number() || !r[1].is_number()) {
      return "a reading of the felt is a thickness in mm, and stops";
    }
    const double thickness_mm = r[0].get<double>(), stops = r[1].get<double>();
    if (!(thickness_mm > 0 && thickness_mm <= 100 && stops >= 0 && stops <= 60)) {
      return fmt::format("the felt: {:g} mm with {:g} stops is none of up to 100 mm and 60 stops",
                         thickness_mm, stops);
    }
    read.push_back({thickness_mm * mm, {stops}});
  }
  if (read.size() != 2) return "the felt needs readings of two pieces";
  auto slab = slab_by({read[0], read[1]});
  if (auto* why = std::get_if<std::string>(&slab)) return "the felt: " + *why;
  return std::optional(std::get<Slab>(slab));
}

}  // namespace

bool Desk::takes_long(std::string_view path) {
  constexpr std::array<std::string_view, 6> long_ones{"/api/path",  "/api/timer", "/api/parts",
                                                      "/api/trace", "/api/leak",  "/api/make"};
  return std::ranges::find(long_ones, path) != long_ones.end();
}

std::string Desk::path(const Asked& asked) const {
  Diagnostics diagnostics;
  auto assembly = assemble(conversion_.path(), catalogue_, diagnostics, asked.drafts);
  std::optional<ExposureMaterial> material;
  if (assembly && assembly->plan.exposure) {
    material = exposure_material(*assembly, shelf_, diagnostics);
  }
  const bool can = assembly && path_can_be_studied(*assembly, diagnostics) &&
                   (material || !assembly->plan.exposure);
  AnswerParts parts;
  parts.put("messages", diagnostics_json(diagnostics));
  if (!can) {
    for (const char* name : {"report", "path", "winding"}) parts.put(name, "");
    return parts.whole();
  }
  Report report = report_on(std::move(*assembly));
  if (material) add_findings(report, exposure_findings(report, *material, shelf_));
  add_insert(report, catalogue_);
  add_contrast(report.print, report.assembly, report.frame.picture);
  const PathStudy path =
      report.insert ? report.insert->path : path_study(report.assembly, catalogue_);
  parts.put("report", report_json(report));
  parts.put("path", path_json(report.assembly, path));
  parts.put("winding", path.layout ? winding_json(path) : "");
  std::vector<MissingMeasurement> missing = path.missing;
  if (report.insert) {
    missing.insert(missing.end(), report.insert->missing.begin(), report.insert->missing.end());
  }
  parts.put("measure", measure_first(missing).dump());
  parts.put(
      "words",
      Json{{"report", summary(report)}, {"path", path_summary(report.assembly, path)}}.dump());
  return parts.whole();
}

std::string Desk::parts(const Asked& asked) const {
  Diagnostics diagnostics;
  auto assembly = assemble(conversion_.path(), catalogue_, diagnostics, asked.drafts);
  AnswerParts parts;
  parts.put("messages", diagnostics_json(diagnostics));
  std::string scene;
  if (assembly) {
    parts.put("measure", measure_first(assembly->missing).dump());
    Report report = report_on(std::move(*assembly), Scope::without_timer);
    add_insert(report, catalogue_);
    try {
      scene = parts_json(report);
    } catch (const SolidFailure& e) {
      parts.put("failure", Json(e.what()).dump());
    }
  }
  parts.put("parts", scene);
  return parts.whole();
}

std::string Desk::timer(const Asked& asked) const {
  Diagnostics diagnostics;
  auto assembly = assemble(conversion_.path(), catalogue_, diagnostics, asked.drafts);
  AnswerParts parts;
  parts.put("messages", diagnostics_json(diagnostics));
  std::optional<Report> report;
  if (assembly) report = report_on(std::move(*assembly), Scope::with_simulation);
  if (report && report->timer) {
    parts.put("timer", timer_json(*report));
    parts.put("words", Json{{"timer", timer_summary(*report)}}.dump());
  } else {
    parts.put("timer", "");
  }
  return parts.whole();
}

std::string Desk::trace(const Asked& asked) const {
  Diagnostics diagnostics;
  TraceQuestions questions;
  questions.sound = asked.flag("sound", false);
  for (const std::string& mark : parted_at_commas(asked.text("marked"))) {
    if (const auto time =
            time_typed("marked speeds", mark, 1e-5 * second, 3600 * second, diagnostics))
      questions.marked.push_back(time->value);
  }
  if (const std::string rise = asked.text("sensor_rise"); !rise.empty()) {
    if (const auto time =
            time_typed("rise of the sensor", rise, 1e-9 * second, 0.1 * second, diagnostics)) {
      questions.sensor_rise =
          SensorRise{time->value, time->half_width > Time{} ? time->half_width
                                                            : usual_rise_tolerance * time->value};
    }
  }
  if (const double channel = asked.number("channel", 0); channel >= 1 && channel <= 64)
    questions.channel = static_cast<std::size_t>(channel) - 1;
  std::optional<Time> step;
  if (const std::string text = asked.text("step"); !text.empty()) {
    if (const auto time =
            time_typed("time between rows", text, 1e-9 * second, 0.01 * second, diagnostics))
      step = time->value;
  }
  const std::filesystem::path name = asked.text("name").empty() ? "recording" : asked.text("name");
  auto bytes = bytes_of_base64(asked.text("bytes"));
  if (!bytes) diagnostics.error({}, "the recording did not arrive whole");

  std::optional<Recording> recording;
  if (!diagnostics.has_errors())
    recording = recording_in_bytes(name, std::move(*bytes), step, diagnostics);
  std::optional<TraceStudy> study;
  if (recording) study = study_trace(*recording, questions, diagnostics);
  AnswerParts parts;
  parts.put("messages", diagnostics_json(diagnostics));
  if (!study) {
    parts.put("trace", "");
    return parts.whole();
  }
  Diagnostics not_saved;
  TraceAnswer answer{name, *recording, *study, {}};
  if (!camera_.path().empty())
    answer.saved = with_speeds(camera_.path(), *study, not_saved, asked.drafts);
  parts.put("trace", trace_json(answer));
  // With 95 % half-widths, as the command line says them.
  Json speeds = Json::array();
  for (const SpeedSummary& s : study->speeds) {
    const bool marked = s.deviation && s.deviation_u;
    speeds.push_back({{"mean", time_with_half_width(s.mean, s.coverage() * s.mean_u)},
                      {"deviation", marked ? Json(stops_with_half_width(
                                                 *s.deviation, s.coverage() * s.deviation_u->value))
                                           : Json(nullptr)}});
  }
  parts.put("speeds", speeds.dump());
  parts.put("words", Json{{"trace", trace_summary(answer)}}.dump());
  parts.put("picture", Json(trace_picture(answer, opening_.data / "fonts").svg(0)).dump());
  parts.put("unsaved", diagnostics_json(not_saved));
  if (answer.saved) {
    std::string_view text = answer.saved->text;
    if (text.starts_with(byte_order_mark)) text.remove_prefix(byte_order_mark.size());
    parts.put("camera", Json(text).dump());
    parts.put("timer_goes_before", answer.saved->timer_goes_before ? "true" : "false");
  }
  return parts.whole();
}

std::string Desk::leak(const Asked& asked, const Progress& progress) const {
  constexpr std::size_t columns = 4, rows = 5;  // patches of the map
  Diagnostics diagnostics;
  auto assembly = assemble(conversion_.path(), catalogue_, diagnostics, asked.drafts);
  AnswerParts parts;
  LeakQuestions questions;
  if (assembly && assembly->plan.exposure) {
    if (const auto material = exposure_material(*assembly, shelf_, diagnostics)) {
      questions.film = leak_film(*material);
    } else {
      assembly.reset();
    }
  }
  parts.put("messages", diagnostics_json(diagnostics));
  LeakChoices how;
  how.back.felt_round_holder = asked.flag("felt_round_holder", how.back.felt_round_holder);
  how.back.felt_in_groove = asked.flag("felt_in_groove", how.back.felt_in_groove);
  how.insert.felt_under_feet = asked.flag("felt_under_feet", how.insert.felt_under_feet);
  how.insert.felt_round_floor = asked.flag("felt_round_floor", how.insert.felt_round_floor);
  how.insert.felt_in_bores = asked.flag("felt_in_bores", how.insert.felt_in_bores);
  how.pack.felt_beside = asked.flag("felt_beside_pack_holder", how.pack.felt_beside);
  how.insert.window_open = how.own.window_open = asked.flag("window_open", how.insert.window_open);
  std::optional<LeakRefusal> why;
  const auto felt = felt_typed(asked.body.value("felt_readings", Json()));
  if (const auto* fault = std::get_if<std::string>(&felt)) {
    why = LeakRefusal{*fault, {}};
  } else {
    how.back.felt = how.insert.felt = how.pack.felt = how.own.felt =
        std::get<std::optional<Slab>>(felt);
  }
  std::optional<InsertStudy> insert;
  if (assembly && assembly->method() == Method::insert) {
    progress("trying ways for the film", 0);
    insert = study_insert(*assembly, catalogue_);
  }
  const auto subject = [&] { return LeakSubject{*assembly, insert ? &*insert : nullptr}; };
  if (assembly && !why) why = leak_refusal(subject(), how);
  parts.put("why_not",
            why ? Json(why->help.empty() ? why->why : why->why + ": " + why->help).dump() : "");
  if (!assembly || why) {
    parts.put(
        "measure",
        measure_first(assembly ? assembly->missing : std::vector<MissingMeasurement>()).dump());
    parts.put("leak", "");
    return parts.whole();
  }
  if (const double iso = asked.number("iso", 0); iso > 0) {
    questions.film = leak_film({std::clamp(iso, 0.1, 1e5)}, "as asked on the page");
  }
  questions.time = std::clamp(asked.number("seconds", 60), 1.0, 3600.0) * second;
  LeakWatch watch;
  watch.threads = std::clamp(std::thread::hardware_concurrency(), 1U, 64U);
  watch.progress = progress;
  progress("finding the seams", 0);
  const auto study = leak_study(seam_scene(subject(), how, columns, rows), questions,
                                seam_remedies(subject(), how, columns, rows), watch);
  const std::string title =
      fmt::format("{} to {}: light", *assembly->camera.name, *assembly->film.name);
  parts.put("leak", study ? leak_json(*study) : "");
  if (study) parts.put("words", Json{{"leak", leak_summary(title, *study)}}.dump());
  return parts.whole();
}

std::string Desk::make(const Asked& asked, const Progress& progress) const {
  AnswerParts parts;
  const bool saved = conversion_.on_disk().text == asked.conversion &&
                     (camera_.path().empty() || camera_.on_disk().text == asked.camera);
  int status = 2;
  std::ostringstream out, err;
  if (!saved) {
    err << "results are made of the files as saved: save them first\n";
  } else {
    try {
      status = opening_.make(
          {conversion_.path(), result_folder(opening_), asked.flag("despite_blockers", false)}, out,
          err, progress);
    } catch (const std::exception& e) {
      err << e.what() << "\n";
    }
  }
  const std::string said = out.str();
  parts.put("status", std::to_string(status));
  parts.put("answer", Json::accept(said) ? said : "");
  parts.put("told", Json(err.str()).dump());
  return parts.whole();
}

}  // namespace backfit

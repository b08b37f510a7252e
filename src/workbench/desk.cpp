// SPDX-License-Identifier: MIT
#include "workbench/desk.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <utility>

#include "conversion/cover_study.hpp"
#include "conversion/exposure_study.hpp"
#include "conversion/flash_study.hpp"
#include "conversion/leak_film.hpp"
#include "conversion/match.hpp"
#include "conversion/path_study.hpp"
#include "conversion/read_conversion.hpp"
#include "documents/cover_answer.hpp"
#include "documents/exposure_answer.hpp"
#include "documents/json.hpp"
#include "documents/listing.hpp"
#include "documents/match_answer.hpp"
#include "documents/survey_form.hpp"
#include "documents/survey_sketch.hpp"
#include "files/dial.hpp"
#include "files/folder.hpp"
#include "survey/plan.hpp"
#include "workbench/desk_asked.hpp"

namespace backfit {

using Json = nlohmann::ordered_json;

namespace {

constexpr int map_points = 65;        // along each side of the frame's map
constexpr int map_points_quick = 25;  // while a dial turns

template <class Record>
std::vector<Dial> dials_in(const std::shared_ptr<const SourceText>& source) {
  std::vector<Dial> dials;
  Record record;
  for (const ReadValue& value :
       values_in(source, [&](Fields& fields) { describe(fields, record); })) {
    if (auto dial = dial_of(value)) dials.push_back(std::move(*dial));
  }
  return dials;
}

std::vector<Dial> dials_of(std::string_view which, const OpenFile& file, const std::string& text) {
  Diagnostics unsaid;
  const auto source = source_of(file.path(), text, unsaid);
  if (source == nullptr) return {};
  return which == "camera" ? dials_in<Camera>(source) : dials_in<Plan>(source);
}

Json json_of(const std::vector<Dial>& dials) {
  Json list = Json::array();
  for (const Dial& d : dials) {
    list.push_back({{"key", d.key},
                    {"meaning", d.meaning},
                    {"unit", d.unit},
                    {"line", d.number.line},
                    {"column", d.number.column},
                    {"length", d.number.length},
                    {"value", d.value},
                    {"least", d.least},
                    {"most", d.most},
                    {"step", d.step},
                    {"decimals", d.decimals}});
  }
  return list;
}

}  // namespace

std::filesystem::path result_folder(const Opening& opening) {
  if (!opening.folder.empty()) return opening.folder;
  std::string name = opening.conversion.filename().string();
  for (const std::string_view end : {".toml", ".conversion"}) {
    if (name.size() > end.size() && name.ends_with(end)) name.resize(name.size() - end.size());
  }
  return opening.conversion.parent_path() / (name + "-made");
}

std::unique_ptr<Desk> Desk::opened(Opening opening, Diagnostics& diagnostics,
                                   const std::optional<std::filesystem::path>& camera_given) {
  auto catalogue = read_catalogue(opening.data, diagnostics);
  auto exposure = read_exposure_data(opening.data, diagnostics);
  auto process = read_process_data(opening.data, diagnostics);
  if (!catalogue || !exposure || !process) return {};
  const std::filesystem::path& conversion = opening.conversion;
  const auto source = read_source(conversion, diagnostics);
  if (source == nullptr) return {};
  if (conversion.string().ends_with(".camera.toml")) {
    diagnostics.error({}, fmt::format("'{}' is a camera file; the conversion file that names it is "
                                      "needed",
                                      conversion.string()));
    return {};
  }
  Plan plan;
  Diagnostics unsaid;
  read_by(
      source, [&](Fields& fields) { describe(fields, plan); }, unsaid);
  const std::filesystem::path camera = camera_given        ? *camera_given
                                       : plan.camera.place ? conversion.parent_path() / *plan.camera
                                                           : std::filesystem::path();
  return std::unique_ptr<Desk>(new Desk(std::move(opening), OpenFile(camera), std::move(*catalogue),
                                        ExposureShelf{std::move(*exposure), std::move(*process)}));
}

Desk::Desk(Opening opening, OpenFile camera, Catalogue catalogue, ExposureShelf shelf)
    : opening_(std::move(opening)),
      conversion_(opening_.conversion),
      camera_(std::move(camera)),
      catalogue_(std::move(catalogue)),
      shelf_(std::move(shelf)) {}

std::string Desk::news() const {
  return Json{{"conversion", conversion_.on_disk().stamp}, {"camera", camera_.on_disk().stamp}}
      .dump();
}

DeskAnswer Desk::answer(std::string_view path, const std::string& body,
                        const Progress& progress) const {
  if (path == "/api/files") return {200, files()};
  if (constexpr std::string_view sketch_of = "/api/sketch/"; path.starts_with(sketch_of))
    return {200, Json{{"svg", sketch(path.substr(sketch_of.size()))}}.dump() + "\n"};
  Asked asked;
  asked.body = Json::parse(body, nullptr, false);
  const auto has_text = [&](const char* name) {
    return asked.body.is_object() && asked.body.contains(name) && asked.body[name].is_string();
  };
  if (path == "/api/save") {
    if (!has_text("file") || !has_text("text") || !has_text("seen"))
      return {400, refused("bad_request", "file, text and seen are needed")};
    return saved(asked);
  }
  if (!has_text("conversion") || !has_text("camera"))
    return {400, refused("bad_request", "the texts of conversion and camera are needed")};
  asked.conversion = asked.body["conversion"].get<std::string>();
  asked.camera = asked.body["camera"].get<std::string>();
  if (path == "/api/study") return {200, study(asked)};
  asked.drafts.put(conversion_.path(), asked.conversion);
  if (!camera_.path().empty()) asked.drafts.put(camera_.path(), asked.camera);
  if (path == "/api/path") return {200, this->path(asked)};
  if (path == "/api/parts") return {200, parts(asked)};
  if (path == "/api/timer") return {200, timer(asked)};
  if (path == "/api/trace") return {200, trace(asked)};
  if (path == "/api/leak") return {200, leak(asked, progress)};
  if (path == "/api/make") return {200, make(asked, progress)};
  if (path == "/api/match") return {200, match(asked)};
  if (path == "/api/metered") return {200, metered(asked)};
  return {404, refused("not_found", "there is no such question")};
}

std::string Desk::files() const {
  const auto file = [](const OpenFile& f) -> Json {
    if (f.path().empty()) return nullptr;
    const FileState state = f.on_disk();
    return {{"path", f.path().string()},
            {"name", f.path().filename().string()},
            {"text", state.text},
            {"stamp", state.stamp}};
  };
  Json letters = Json::object();
  for (const SketchLetter& l : sketch_letters()) {
    letters[fmt::format("{}.{}", l.path, l.key)] = std::string(l.letter);
  }
  return Json{{"schema", "backfit.workbench/1"},
              {"conversion", file(conversion_)},
              {"camera", file(camera_)},
              {"folder", result_folder(opening_).string()},
              {"letters", letters}}
             .dump() +
         "\n";
}

DeskAnswer Desk::saved(const Asked& asked) const {
  const std::string which = asked.body["file"].get<std::string>();
  const OpenFile* file = which == "conversion"                          ? &conversion_
                         : which == "camera" && !camera_.path().empty() ? &camera_
                                                                        : nullptr;
  if (file == nullptr) return {400, refused("bad_request", "file is conversion or camera")};
  const auto text = asked.body["text"].get<std::string>();
  Diagnostics limits;
  if (source_of(file->path(), text, limits) == nullptr)
    return {400, refused("bad_text", limits.list().back().text)};
  const auto stamp = file->save(text, asked.body["seen"].get<std::string>());
  if (!stamp) {
    const FileState disk = file->on_disk();
    return {409,
            Json{{"error", "changed_on_disk"}, {"text", disk.text}, {"stamp", disk.stamp}}.dump() +
                "\n"};
  }
  return {200, Json{{"stamp", *stamp}}.dump() + "\n"};
}

std::string Desk::study(Asked& asked) const {
  AnswerParts parts;
  // A dial turned: the text follows, and the quick studies of it.
  const Json& turn = asked.body.contains("turn") ? asked.body["turn"] : Json();
  bool quick = false;
  if (turn.is_object() && turn.value("value", Json()).is_number()) {
    const std::string which = turn.value("file", "");
    const bool of_camera = which == "camera";
    std::string& text = of_camera ? asked.camera : asked.conversion;
    for (const Dial& d : dials_of(which, of_camera ? camera_ : conversion_, text)) {
      if (d.number.line != turn.value("line", 0U) || d.number.column != turn.value("column", 0U))
        continue;
      text = turned(d, turn["value"].get<double>());
      quick = true;
      break;
    }
    parts.put("turned", Json{{"file", which}, {"text", text}}.dump());
  }
  asked.drafts.put(conversion_.path(), asked.conversion);
  if (!camera_.path().empty()) asked.drafts.put(camera_.path(), asked.camera);
  parts.put("dials",
            Json{{"conversion", json_of(dials_of("conversion", conversion_, asked.conversion))},
                 {"camera", json_of(dials_of("camera", camera_, asked.camera))}}
                .dump());

  Diagnostics diagnostics;
  auto assembly = assemble(conversion_.path(), catalogue_, diagnostics, asked.drafts);
  std::optional<ExposureMaterial> material;
  if (assembly && assembly->plan.exposure) {
    material = exposure_material(*assembly, shelf_, diagnostics);
    if (!material) assembly.reset();
  }
  parts.put("messages", diagnostics_json(diagnostics));
  if (!assembly) {
    for (const char* name : {"measure", "report", "cover", "exposure", "flash"})
      parts.put(name, "");
    return parts.whole();
  }
  const bool has_path = assembly->method() == Method::insert;
  Diagnostics unsaid;
  const bool can_wind = has_path && path_can_be_studied(*assembly, unsaid);
  const bool has_flash = material && assembly->plan.exposure->flash;
  Report report = report_on(std::move(*assembly), quick ? Scope::without_timer : Scope::with_timer);
  if (material) add_findings(report, exposure_findings(report, *material, shelf_));
  if (!quick) add_contrast(report.print, report.assembly, report.frame.picture);
  CoverQuestions questions;
  questions.grid = quick ? map_points_quick : map_points;
  questions.rows = !quick;
  const CoverStudy cover = cover_study(report, questions);
  parts.put("measure", measure_first(report.assembly.missing).dump());
  parts.put("report", report_json(report));
  parts.put("cover", cover_json(report, cover));
  parts.put("gate", Json{{"width_mm", report.assembly.camera.gate.width->value / mm},
                         {"height_mm", report.assembly.camera.gate.height->value / mm}}
                        .dump());
  const LeakFilm film = material ? leak_film(*material) : LeakFilm{};
  parts.put("leak_film",
            Json{{"iso", film.speed.value}, {"film", film.name}, {"from", film.from}}.dump());
  parts.put("has", Json{{"path", has_path},
                        {"way", can_wind},
                        {"timer", report.timer.has_value()},
                        {"exposure", material.has_value()},
                        {"flash", has_flash}}
                       .dump());
  if (quick) return parts.whole();
  // Each study in words as well: what a picture says, for who can't see it.
  Json words{{"report", summary(report)}, {"cover", cover_summary(report, cover)}};
  if (material) {
    const ExposureStudy light = study_exposure(report, *material, shelf_);
    parts.put("exposure", exposure_json(report, *material, light));
    words["exposure"] = exposure_summary(report, *material, light);
  } else {
    parts.put("exposure", "");
  }
  if (has_flash) {
    const FlashStudy flash = study_flash(report, *material, shelf_);
    parts.put("flash", flash_json(report, *material, flash));
    words["flash"] = flash_summary(report, *material, flash);
  } else {
    parts.put("flash", "");
  }
  parts.put("words", words.dump());
  return parts.whole();
}

std::string Desk::match(const Asked& asked) const {
  Diagnostics diagnostics;
  const auto camera = read_camera(camera_.path(), catalogue_, diagnostics, asked.drafts);
  AnswerParts parts;
  parts.put("messages", diagnostics_json(diagnostics));
  if (camera) {
    const Match match = matched(*camera, catalogue_);
    parts.put("match", match_json(match));
    parts.put("words", Json{{"match", match_summary(match)}}.dump());
  } else {
    parts.put("match", "");
  }
  return parts.whole();
}

// One metered light at every stop.
std::string Desk::metered(const Asked& asked) const {
  Diagnostics unsaid;  // the study says it
  auto assembly = assemble(conversion_.path(), catalogue_, unsaid, asked.drafts);
  std::optional<ExposureMaterial> material;
  if (assembly && assembly->plan.exposure) material = exposure_material(*assembly, shelf_, unsaid);
  AnswerParts parts;
  if (!material) {
    parts.put("metered", "");
    return parts.whole();
  }
  const Report report = report_on(std::move(*assembly));  // the timer says which speeds there are
  ExposureQuestion question{Ev{std::clamp(asked.number("ev_100", 15), -10.0, 24.0)}, {}, {}};
  const Length nearest =
      2 * report.assembly.camera.lens.focal->value;  // larger than life nearer by
  if (const double subject = asked.number("subject_mm", 0); subject > 0)
    question.subject = std::clamp(subject * mm, nearest, 1e9 * mm);
  const ExposureAnswer answer = answer_exposure(report, *material, question);
  parts.put("metered", exposure_json(report, *material, answer));
  parts.put("words", Json{{"metered", exposure_summary(report, *material, answer)}}.dump());
  return parts.whole();
}

Json measure_first(const std::vector<MissingMeasurement>& missing) {
  Json list = Json::array();
  for (const MissingMeasurement& m : missing) list.push_back({{"key", m.key}, {"how", m.how}});
  return list;
}

std::string Desk::sketch(std::string_view letters) const {
  return paper::survey_sketch_svg(letters, opening_.data / "fonts");
}

std::string Desk::made(std::string_view way) const {
  const std::filesystem::path folder = result_folder(opening_);
  Json files = Json::array();
  std::error_code failure;
  for (const std::string& name : written_names(folder)) {
    files.push_back({{"name", name},
                     {"address", std::string(way) + name},
                     {"bytes", std::filesystem::file_size(folder / name, failure)}});
  }
  bool older = false;
  const auto made_at = std::filesystem::last_write_time(folder / "contents.txt", failure);
  for (const OpenFile* file : {&conversion_, &camera_}) {
    older =
        older || (!failure && std::filesystem::last_write_time(file->path(), failure) > made_at);
  }
  return Json{{"folder", folder.string()}, {"files", files}, {"older", older}}.dump() + "\n";
}

std::optional<std::string> Desk::made_file(const std::string& name) const {
  return written_bytes(result_folder(opening_), name);
}

}  // namespace backfit

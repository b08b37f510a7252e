// SPDX-License-Identifier: MIT
#include "conversion/leak_study.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <numbers>
#include <numeric>

#include "conversion/worst_sun.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

Surfaces surfaces_of(const LeakScene& scene) {
  Surfaces s;
  s.bodies = true;
  for (std::uint32_t number = 0; number < scene.parts.size(); ++number) {
    const LeakPart& part = scene.parts[number];
    const auto first_point = static_cast<std::uint32_t>(s.points.size());
    for (const auto& [x, y, z] : part.mesh.points_mm) {
      s.points.push_back({double{x} * mm, double{y} * mm, double{z} * mm});
    }
    s.stuffs.push_back({part.stuff.finish, false, 0, part.stuff.soft});
    for (const auto& [a, b, c] : part.mesh.triangles) {
      s.triangles.push_back({{first_point + a, first_point + b, first_point + c}, number, number});
    }
  }
  return s;
}

double component(const SpacePoint& p, const SpacePoint& along) {
  return (p.x / mm * (along.x / mm) + p.y / mm * (along.y / mm) + p.z / mm * (along.z / mm)) /
         std::hypot(along.x / mm, along.y / mm, along.z / mm);
}

class Study {
 public:
  Study(const LeakScene& scene, const LeakQuestions& asked, const LeakWatch& watch)
      : scene_(scene),
        asked_(asked),
        watch_(watch),
        began_(std::chrono::steady_clock::now()),
        walks_(surfaces_of(scene), scene.film, watch.threads, map_watch("map of the light")) {}

  std::optional<LeakStudy> made(const std::vector<LeakRemedy>& remedies) {
    s_.asked = asked_;
    s_.film = scene_.film;
    for (const LeakPart& part : scene_.parts) {
      s_.parts.push_back(part.name);
      s_.stuffs.push_back(part.stuff);
      s_.triangles += part.mesh.triangles.size();
    }
    s_.zones = walks_.zones();
    if (!watch_.may_go_on()) return {};
    s_.whole = asked_.sky + asked_.sun;
    set_sun();
    walk_all();
    walk_worst();
    // Shares of light that has not converged would be false numbers.
    if (watch_.may_go_on() && s_.worst_light.interval) {
      find_ways();
      try_remedies(remedies);
    }
    if (!watch_.may_go_on()) return {};
    judge(s_);
    return std::move(s_);
  }

 private:
  static constexpr std::size_t pilot_walks = 4096, first_round = 1024;

  MapWatch map_watch(std::string stage) const {
    return {watch_.may_go_on,
            [this, stage = std::move(stage)](double done) { watch_.progress(stage, done); }};
  }

  LeakWalks::Order order(std::size_t first, std::size_t histories, std::uint64_t stream) const {
    LeakWalks::Order o{
        {}, first, histories, watch_.threads, 8 * asked_.seed + stream, watch_.may_go_on};
    o.patches.resize(scene_.film.columns * scene_.film.rows);
    std::iota(o.patches.begin(), o.patches.end(), std::size_t{0});
    return o;
  }
  Daylight daylight() const { return {asked_.sky, asked_.sun, s_.towards}; }

  bool time_is_up() const {
    if (!watch_.may_go_on()) return true;
    const std::chrono::duration<double> spent = std::chrono::steady_clock::now() - began_;
    // A round takes as long as all before it.
    return asked_.time && 2 * spent.count() > *asked_.time / second;
  }

  void set_sun() {
    if (!(asked_.sun > Illuminance{})) return;
    watch_.progress("worst sun", 0);
    const std::size_t patches = scene_.film.columns * scene_.film.rows;
    const WorstSun sun = asked_.towards ? sun_towards(*asked_.towards)
                                        : worst_sun(walks_, scene_.film, asked_.sun,
                                                    order(0, 1 + 4 * pilot_walks / patches, 1));
    s_.towards = sun.towards;
    s_.suns_alike = sun.alike;
  }

  // Rounds, each as long as all before it, until `good`.
  template <class Good>
  std::vector<PatchLight> rounds(const LeakWalks& walks, LeakWalks::Order o, std::string_view stage,
                                 const Good& good) const {
    std::vector<PatchLight> sums(o.patches.size());
    o.histories = std::min(first_round, asked_.walks);
    for (std::size_t done = 0; done < asked_.walks;) {
      watch_.progress(stage, static_cast<double>(done) / static_cast<double>(asked_.walks));
      o.first = done;
      o.histories = std::min(done == 0 ? first_round : done, asked_.walks - done);
      const std::vector<PatchLight> more = walks.walked(daylight(), o);
      if (!watch_.may_go_on()) break;
      for (std::size_t i = 0; i < sums.size(); ++i) {
        sums[i].all.add(more[i].all);
        sums[i].sky.add(more[i].sky);
        sums[i].sun.add(more[i].sun);
      }
      done += o.histories;
      if (good(sums) || time_is_up()) break;
    }
    return sums;
  }

  void walk_all() {
    const auto good = [](const std::vector<PatchLight>& sums) {
      return std::ranges::all_of(
          sums, [](const PatchLight& p) { return p.all.result().interval.has_value(); });
    };
    const auto sums = rounds(walks_, order(0, 0, 2), "fog map", good);
    s_.patches = dark_patches(scene_.film);
    for (std::size_t i = 0; i < sums.size(); ++i) {
      s_.patches[i].all = sums[i].all.result();
      s_.patches[i].sky = sums[i].sky.result();
      s_.patches[i].sun = sums[i].sun.result();
    }
    const auto most =
        std::ranges::max_element(s_.patches, {}, [](const LeakPatch& p) { return p.all.mean; });
    s_.worst = static_cast<std::size_t>(most - s_.patches.begin());
  }

  // Walks of the worst patch alone: those that chose it would flatter it.
  TallyResult worst_by(const LeakWalks& walks, std::uint64_t stream, double error,
                       std::string_view stage) const {
    LeakWalks::Order o = order(0, 0, stream);
    o.patches = {s_.worst};
    return rounds(walks, o, stage,
                  [error](const std::vector<PatchLight>& sums) {
                    const TallyResult r = sums[0].all.result();
                    return r.interval && r.standard_error < error * r.mean;
                  })[0]
        .all.result();
  }

  void walk_worst() {
    if (watch_.may_go_on()) s_.worst_light = worst_by(walks_, 3, 0.03, "worst patch");
  }

  void find_ways() {
    watch_.progress("ways", 0);
    LeakWalks::Order o = order(0, 0, 4);
    o.histories = 1 + pilot_walks / o.patches.size();
    for (LeakPath& path : walks_.paths(o, scene_.near, 8)) {
      s_.ways.push_back({path.share, words_of(path), std::move(path.points)});
    }
  }

  std::string words_of(const LeakPath& path) const {
    std::string words;
    for (const LeakPath::Seam& seam : path.seams) {
      words += words.empty() ? "" : "; then ";
      words += name_of(seam);
      if (&seam == &path.seams.front()) words += ", " + std::string(side_of(seam.place));
    }
    if (!words.empty()) return words;
    return path.points.size() > 1 ? "by no narrow seam" : "straight in from outside";
  }
  std::string name_of(const LeakPath::Seam& seam) const {
    const std::string &one = scene_.parts[seam.one].name, &other = scene_.parts[seam.other].name;
    for (const auto& pair : {std::pair(one, other), std::pair(other, one)}) {
      const auto known = scene_.seam_names.find(pair);
      if (known != scene_.seam_names.end()) return known->second;
    }
    return one == other ? "within " + one : "between " + one + " and " + other;
  }
  // As the film's back shows it, its width to the right and its height down.
  std::string_view side_of(const SpacePoint& place) const {
    const FilmPlane& f = scene_.film;
    const SpacePoint from{place.x - f.corner.x - 0.5 * (f.width.x + f.height.x),
                          place.y - f.corner.y - 0.5 * (f.width.y + f.height.y),
                          place.z - f.corner.z - 0.5 * (f.width.z + f.height.z)};
    const double x = component(from, f.width) / component(f.width, f.width);
    const double y = component(from, f.height) / component(f.height, f.height);
    if (std::abs(x) > std::abs(y)) return x > 0 ? "right" : "left";
    return y > 0 ? "below" : "above";
  }

  void try_remedies(const std::vector<LeakRemedy>& remedies) {
    for (const LeakRemedy& remedy : remedies) {
      if (!watch_.may_go_on()) return;
      watch_.progress("with " + remedy.what, 0);
      const LeakScene scene = remedy.scene();
      const LeakWalks walks(surfaces_of(scene), scene.film, watch_.threads,
                            map_watch("with " + remedy.what));
      if (!watch_.may_go_on()) return;
      s_.remedies.push_back({remedy.what, worst_by(walks, 5, 0.1, "with " + remedy.what)});
    }
    // Those whose change doesn't show stay as they were asked for.
    std::ranges::stable_sort(s_.remedies, {}, [this](const LeakStudy::Remedied& r) {
      if (!r.light.interval) return 2.0;
      return change_by(s_, r).shows() ? r.light.mean : s_.worst_light.mean;
    });
  }

  const LeakScene& scene_;
  const LeakQuestions& asked_;
  const LeakWatch& watch_;
  std::chrono::steady_clock::time_point began_;
  LeakWalks walks_;
  LeakStudy s_;
};

}  // namespace

RemedyChange change_by(const LeakStudy& study, const LeakStudy::Remedied& remedied) {
  const TallyResult &before = study.worst_light, &after = remedied.light;
  return {-std::log2(after.mean / before.mean),
          coverage_95 *
              std::hypot(after.standard_error / after.mean, before.standard_error / before.mean) /
              std::numbers::ln2};
}

std::optional<MeshFault> fault_of(const LeakScene& scene) {
  for (const LeakPart& part : scene.parts) {
    if (auto fault = fault_of(NamedMesh{part.name, part.mesh})) return fault;
  }
  const Surfaces surfaces = surfaces_of(scene);
  if (auto fault = fault_of(surfaces, scene.film)) return MeshFault{*fault, {}};
  if (const auto around = part_around(surfaces, scene.film)) {
    return MeshFault{fmt::format("the film's middle lies within '{}', where no light comes",
                                 scene.parts[*around].name),
                     "the film lies in a hollow, clear of all parts; is the file in mm?"};
  }
  return {};
}

std::optional<LeakStudy> leak_study(const LeakScene& scene, const LeakQuestions& questions,
                                    const std::vector<LeakRemedy>& remedies,
                                    const LeakWatch& watch) {
  return Study(scene, questions, watch).made(remedies);
}

void judge(LeakStudy& s) {
  const TallyResult& t = s.worst_light;
  if (!t.interval) {
    s.verdict = t.mean > 0 ? LeakVerdict::not_converged : LeakVerdict::no_light_found;
    return;
  }
  s.an_hour = t.mean * s.whole * leak_time;
  const double suns = s.whole / full_sun.value;
  for (const double rise : {0.02, 0.10}) {
    FogTime fog = time_to_fog(s.asked.film.speed, {rise}, t.mean * suns, t.standard_error * suns);
    fog.relative_u = std::hypot(fog.relative_u, std::numbers::ln2 * s.asked.film.doubt.value);
    s.fog.push_back(fog);
  }
  const FogTime& first = s.fog.front();
  const double factor = std::exp(coverage_95 * first.relative_u);
  s.verdict = first.time / factor >= leak_time  ? LeakVerdict::tight
              : first.time * factor < leak_time ? LeakVerdict::leaks
                                                : LeakVerdict::cannot_tell;
}

std::vector<LeakPatch> dark_patches(const FilmPlane& film) {
  const SpacePoint w = film.width, h = film.height;
  const double wide = std::hypot(w.x / mm, w.y / mm, w.z / mm);
  const double high = std::hypot(h.x / mm, h.y / mm, h.z / mm);
  const auto middle = [](std::size_t at, std::size_t of) {
    return (static_cast<double>(at) + 0.5) / static_cast<double>(of) - 0.5;
  };
  std::vector<LeakPatch> patches;
  for (std::size_t i = 0; i < film.columns * film.rows; ++i) {
    patches.push_back({middle(i % film.columns, film.columns) * wide * mm,
                       (0.0 - middle(i / film.columns, film.rows)) * high * mm,
                       {},
                       {},
                       {}});
  }
  return patches;
}

std::string_view name_of(LeakVerdict verdict) {
  switch (verdict) {
    case LeakVerdict::tight:
      return "light-tight";
    case LeakVerdict::leaks:
      return "leaks";
    case LeakVerdict::cannot_tell:
      return "cannot tell";
    case LeakVerdict::not_converged:
      return "not converged";
    case LeakVerdict::no_light_found:
      break;
  }
  return "no light found";
}

}  // namespace backfit

// SPDX-License-Identifier: MIT
#include <algorithm>
#include <chrono>
#include <cmath>
#include <utility>

#include "conversion/leak_study.hpp"
#include "lighttrap/share_out.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

// The seams' doubt is all the walks' scores' alike.
TallyResult with_doubt(TallyResult t, double relative_u) {
  const double u = relative_u * t.mean;
  if (t.interval) {
    t.interval->low = t.mean - std::hypot(t.mean - t.interval->low, coverage_95 * u);
    t.interval->high = t.mean + std::hypot(t.interval->high - t.mean, coverage_95 * u);
  }
  t.standard_error = std::hypot(t.standard_error, u);
  return t;
}

class SeamStudy {
 public:
  SeamStudy(const SeamScene& scene, const LeakQuestions& asked, const LeakWatch& watch)
      : scene_(scene),
        asked_(asked),
        watch_(watch),
        began_(std::chrono::steady_clock::now()),
        most_(asked.walks * scene.film.columns * scene.film.rows) {}

  std::optional<LeakStudy> made(const std::vector<SeamRemedy>& remedies) {
    watch_.progress("seams", 0);
    const SeamWalks walks = walks_of(scene_);
    s_.asked = asked_;
    s_.film = scene_.film;
    s_.parts = scene_.parts;
    s_.not_counted = scene_.not_counted;
    s_.triangles = scene_.hollow.triangles.size();
    s_.whole = asked_.sky + asked_.sun;
    set_sun(walks);
    walk_all(walks);
    if (!watch_.may_go_on()) return {};
    if (s_.worst_light.interval) try_remedies(remedies);
    if (!watch_.may_go_on()) return {};
    judge(s_);
    return std::move(s_);
  }

 private:
  static constexpr std::size_t pilot_walks = 8192, first_round = 32768;

  // Each section is solved once, however many seams have it.
  SeamWalks walks_of(const SeamScene& scene) {
    std::vector<std::size_t> numbers;
    std::vector<const LeakSeam*> unsolved;
    std::vector<SeamMouth> mouths;
    std::vector<std::pair<GapProfile, SeamWalls>> sections;
    for (const LeakSeam& seam : scene.seams) {
      const auto known = std::ranges::find(sections, std::pair(seam.profile, seam.walls));
      mouths.push_back({static_cast<std::size_t>(known - sections.begin()), seam.corner,
                        seam.across, seam.along, seam.length, seam.passes});
      if (known == sections.end()) sections.emplace_back(seam.profile, seam.walls);
    }
    std::vector<std::optional<SeamLight>> solved(sections.size());
    for (std::size_t i = 0; i < sections.size(); ++i) {
      const auto before =
          std::ranges::find_if(solved_, [&](const Solved& s) { return s.section == sections[i]; });
      if (before != solved_.end()) solved[i] = before->light;
    }
    share_out(sections.size(), watch_.threads, [&](std::size_t i) {
      if (!solved[i] && watch_.may_go_on()) {
        solved[i].emplace(sections[i].first, sections[i].second);
      }
    });
    std::vector<SeamLight> lights;
    for (std::size_t i = 0; i < sections.size(); ++i) {
      if (!solved[i]) solved[i].emplace(GapProfile{1 * mm, {1 * mm}, {}}, dark_);  // told to stop
      lights.push_back(*solved[i]);
      solved_.push_back({sections[i], *solved[i]});
    }
    return {scene.hollow, scene.film, std::move(lights), std::move(mouths)};
  }

  SeamWalks::Order order(std::size_t first, std::size_t histories, std::uint64_t stream) const {
    return {first, histories, watch_.threads, 8 * asked_.seed + stream, watch_.may_go_on};
  }
  Daylight daylight() const { return {asked_.sky, asked_.sun, s_.towards}; }

  bool time_is_up() const {
    if (!watch_.may_go_on()) return true;
    const std::chrono::duration<double> spent = std::chrono::steady_clock::now() - began_;
    // A round takes as long as all before it.
    return asked_.time && 2 * spent.count() > *asked_.time / second;
  }

  void set_sun(const SeamWalks& walks) {
    if (!(asked_.sun > Illuminance{})) return;
    watch_.progress("worst sun", 0);
    s_.towards = asked_.towards ? *asked_.towards : walks.worst_sun(order(0, pilot_walks, 1));
    const double far = std::hypot(s_.towards.x / mm, s_.towards.y / mm, s_.towards.z / mm);
    for (Length* x : {&s_.towards.x, &s_.towards.y, &s_.towards.z}) *x = 1 / far * *x;
  }

  // Rounds, each as long as all before it, until `good`.
  template <class Good>
  SeamWalks::Light rounds(const SeamWalks& walks, std::uint64_t stream, std::string_view stage,
                          const Good& good) const {
    SeamWalks::Light sum;
    for (std::size_t done = 0; done < most_;) {
      watch_.progress(stage, static_cast<double>(done) / static_cast<double>(most_));
      const std::size_t next = std::min(done == 0 ? first_round : done, most_ - done);
      SeamWalks::Light more = walks.walked(daylight(), order(done, next, stream));
      if (!watch_.may_go_on()) break;
      if (done == 0) {
        sum = std::move(more);
      } else {
        sum.add(more);
      }
      done += next;
      if (good(sum) || time_is_up()) break;
    }
    return sum;
  }

  // How unsure the seams' sections leave the light on the film.
  static double doubt(const SeamWalks& walks, const SeamWalks::Light& light) {
    double all = 0, u = 0;
    for (std::size_t m = 0; m < light.of_mouths.size(); ++m) {
      const Transmission t = walks.lights()[walks.mouths()[m].light].sky();
      all += light.of_mouths[m];
      if (t.through > 0) u += light.of_mouths[m] * t.mesh_error / t.through;
    }
    return all > 0 ? u / all : 0;
  }

  void walk_all(const SeamWalks& walks) {
    const SeamWalks::Light light = rounds(walks, 2, "fog map", [](const SeamWalks::Light& sum) {
      return std::ranges::all_of(
          sum.patches, [](const PatchLight& p) { return p.all.result().interval.has_value(); });
    });
    if (!watch_.may_go_on()) return;
    const double u = doubt(walks, light);
    s_.patches = dark_patches(scene_.film);
    for (std::size_t i = 0; i < s_.patches.size(); ++i) {
      s_.patches[i].all = with_doubt(light.patches[i].all.result(), u);
      s_.patches[i].sky = with_doubt(light.patches[i].sky.result(), u);
      s_.patches[i].sun = with_doubt(light.patches[i].sun.result(), u);
    }
    const auto most =
        std::ranges::max_element(s_.patches, {}, [](const LeakPatch& p) { return p.all.mean; });
    s_.worst = static_cast<std::size_t>(most - s_.patches.begin());
    list_seams(walks, light);
    s_.worst_light = worst_by(walks, 3, 0.03, "worst patch");
  }

  // Walks of their own: those that chose the worst patch would flatter it.
  TallyResult worst_by(const SeamWalks& walks, std::uint64_t stream, double error,
                       std::string_view stage) const {
    const SeamWalks::Light light = rounds(walks, stream, stage, [&](const SeamWalks::Light& sum) {
      const TallyResult r = sum.patches[s_.worst].all.result();
      return r.interval && r.standard_error < error * r.mean;
    });
    if (light.patches.empty()) return {};
    return with_doubt(light.patches[s_.worst].all.result(), doubt(walks, light));
  }

  void list_seams(const SeamWalks& walks, const SeamWalks::Light& light) {
    double all = 0;
    for (const double l : light.of_mouths) all += l;
    for (std::size_t m = 0; m < scene_.seams.size(); ++m) {
      const LeakSeam& seam = scene_.seams[m];
      const Transmission t = walks.lights()[walks.mouths()[m].light].sky();
      const double share = all > 0 ? light.of_mouths[m] / all : 0;
      s_.seams.push_back({seam.name, seam.side, seam.profile.gap, seam.length,
                          seam.passes * t.through, seam.passes * t.mesh_error, share});
      if (!(share > 0)) continue;
      s_.ways.push_back({share, seam.name + ", " + seam.side,
                         walks.way(daylight(), order(0, 0, 2).seed, light.brightest[m])});
    }
    std::ranges::stable_sort(s_.seams, std::greater{}, &LeakSeamLight::share);
    std::ranges::stable_sort(s_.ways, std::greater{}, &LeakWay::share);
  }

  void try_remedies(const std::vector<SeamRemedy>& remedies) {
    for (const SeamRemedy& remedy : remedies) {
      if (!watch_.may_go_on()) return;
      const std::string stage = "with " + remedy.what;
      watch_.progress(stage, 0);
      const SeamScene scene = remedy.scene();
      s_.remedies.push_back({remedy.what, worst_by(walks_of(scene), 5, 0.1, stage)});
    }
    std::ranges::stable_sort(s_.remedies, {}, [](const LeakStudy::Remedied& r) {
      return r.light.interval ? r.light.mean : 2;
    });
  }

  struct Solved {
    std::pair<GapProfile, SeamWalls> section;
    SeamLight light;
  };

  const SeamScene& scene_;
  const LeakQuestions& asked_;
  const LeakWatch& watch_;
  std::chrono::steady_clock::time_point began_;
  std::size_t most_;
  const SeamWalls dark_{{Wall{0.05}}, {Wall{0.05}}};
  std::vector<Solved> solved_;
  LeakStudy s_;
};

}  // namespace

std::optional<LeakStudy> leak_study(const SeamScene& scene, const LeakQuestions& questions,
                                    const std::vector<SeamRemedy>& remedies,
                                    const LeakWatch& watch) {
  return SeamStudy(scene, questions, watch).made(remedies);
}

}  // namespace backfit

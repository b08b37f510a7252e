// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <numbers>
#include <utility>

#include "conversion/leak_study.hpp"
#include "conversion/worst_sun.hpp"
#include "lighttrap/share_out.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

// The doubt of seams and walls is all the walks' scores' alike. As a factor: a wall's may be more
// than a stop.
TallyResult with_doubt(TallyResult t, double relative_u) {
  if (t.interval) {
    const auto off = [&](double ratio) {
      return std::exp(std::hypot(std::log(ratio), coverage_95 * relative_u));
    };
    t.interval->low = t.mean / off(t.mean / t.interval->low);
    t.interval->high = t.mean * off(t.interval->high / t.mean);
  }
  t.standard_error = std::hypot(t.standard_error, relative_u * t.mean);
  return t;
}

// The walls as the walks have them, each passing so much.
LitWall lit(const PrintedWall& wall, double passes) {
  return {wall.corner, wall.across, wall.along, wall.outwards, passes};
}

std::vector<FilmPiece> pieces_of(const SeamScene& scene) {
  std::vector<FilmPiece> pieces;
  for (const SeamScene::Piece& piece : scene.pieces) pieces.push_back({piece.area});
  return pieces;
}

std::string way_name(const LeakSeamLight& s) {
  if (!s.thickness) return s.name + ", " + s.side;
  return fmt::format("through the {}, {}, {} mm", s.name, s.side, fixed(*s.thickness / mm, 1));
}

class SeamStudy {
 public:
  SeamStudy(const SeamScene& scene, const LeakQuestions& asked, const LeakWatch& watch)
      : scene_(scene),
        asked_(asked),
        watch_(watch),
        began_(std::chrono::steady_clock::now()),
        most_(asked.walks * (scene.film.columns * scene.film.rows + scene.pieces.size())) {}

  std::optional<LeakStudy> made(const std::vector<SeamRemedy>& remedies) {
    watch_.progress("seams", 0);
    const SeamWalks walks = walks_of(scene_);
    s_.asked = asked_;
    s_.film = scene_.film;
    s_.parts = scene_.parts;
    s_.not_counted = scene_.not_counted;
    s_.shelter = scene_.shelter;
    s_.triangles = scene_.hollow.triangles.size();
    s_.whole = asked_.sky + asked_.sun;
    if (!watch_.may_go_on()) return {};
    set_sun(walks);
    if (!watch_.may_go_on()) return {};
    walk_all(walks);
    if (!watch_.may_go_on()) return {};
    if (s_.worst_light.interval) try_remedies(remedies);
    if (!scene_.walls.empty() && !scene_.readings) ask_of_walls();
    if (!watch_.may_go_on()) return {};
    judge(s_);
    return std::move(s_);
  }

 private:
  // What a seam's light depends on.
  struct Section {
    GapProfile profile;
    SeamWalls walls;
    Length length;
    friend bool operator==(const Section&, const Section&) = default;
  };
  static constexpr std::size_t pilot_walks = 8192, first_round = 32768;
  // What as many walks don't find is dark: no way leads there, or none that counts.
  static constexpr std::size_t surely_dark = 262144;

  // Each section is solved once, however many seams have it.
  SeamWalks walks_of(const SeamScene& scene) {
    std::vector<std::size_t> numbers;
    std::vector<const LeakSeam*> unsolved;
    std::vector<SeamMouth> mouths;
    std::vector<Section> sections;
    for (const LeakSeam& seam : scene.seams) {
      const Section section{seam.profile, seam.walls, seam.length};
      const auto known = std::ranges::find(sections, section);
      mouths.push_back({static_cast<std::size_t>(known - sections.begin()), seam.corner,
                        seam.across, seam.along, seam.length, seam.passes});
      if (known == sections.end()) sections.push_back(section);
    }
    std::vector<std::optional<SeamLight>> solved(sections.size());
    for (std::size_t i = 0; i < sections.size(); ++i) {
      const auto before =
          std::ranges::find_if(solved_, [&](const Solved& s) { return s.section == sections[i]; });
      if (before != solved_.end()) solved[i] = before->light;
    }
    share_out(sections.size(), watch_.threads, [&](std::size_t i) {
      if (!solved[i] && watch_.may_go_on()) {
        solved[i].emplace(sections[i].profile, sections[i].walls, sections[i].length,
                          watch_.may_go_on);
      }
    });
    std::vector<SeamLight> lights;
    for (std::size_t i = 0; i < sections.size(); ++i) {
      if (!solved[i]) solved[i].emplace(GapProfile{1 * mm, {1 * mm}, {}}, dark_);  // told to stop
      lights.push_back(*solved[i]);
      solved_.push_back({sections[i], *solved[i]});
    }
    std::vector<LitWall> walls;
    if (scene.readings) {
      for (const PrintedWall& wall : scene.walls) {
        walls.push_back(lit(wall, pass_by(*scene.readings, wall.thickness).through));
      }
    }
    return {scene.hollow,      scene.film,       std::move(lights),
            std::move(mouths), std::move(walls), pieces_of(scene)};
  }

  SeamWalks::Order order(std::size_t first, std::size_t histories, std::uint64_t stream) const {
    return {first, histories, watch_.threads, 8 * asked_.seed + stream, watch_.may_go_on, {}};
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
    const WorstSun sun = asked_.towards
                             ? sun_towards(*asked_.towards)
                             : worst_sun(walks, scene_.film, asked_.sun, order(0, pilot_walks, 1));
    s_.towards = sun.towards;
    s_.suns_alike = sun.alike;
  }

  // Where there is film beside the picture, so that neither waits for the other's light; else by
  // what comes in.
  std::vector<double> shares_of(const SeamWalks& walks) const {
    if (scene_.pieces.empty()) return {};
    return walks.shares(daylight(), order(0, pilot_walks * 2, 7));
  }

  // Rounds, each as long as all before it, until `good`.
  template <class Good>
  SeamWalks::Light rounds(const SeamWalks& walks, std::uint64_t stream, std::string_view stage,
                          const Good& good) const {
    SeamWalks::Light sum;
    const std::vector<double> shares = shares_of(walks);
    for (std::size_t done = 0; done < most_;) {
      watch_.progress(stage, static_cast<double>(done) / static_cast<double>(most_));
      const std::size_t next = std::min(done == 0 ? first_round : done, most_ - done);
      SeamWalks::Order next_ones = order(done, next, stream);
      next_ones.shares = shares;
      SeamWalks::Light more = walks.walked(daylight(), next_ones);
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

  // How unsure the seams' sections and the walls' readings leave the light on the film: each kind's
  // is the same error for all of its kind.
  static double doubt(const SeamScene& scene, const SeamWalks& walks,
                      const SeamWalks::Light& light) {
    double all = 0, of_seams = 0, of_walls = 0;
    const std::size_t mouths = walks.mouths().size();
    for (std::size_t m = 0; m < light.of_ways.size(); ++m) {
      all += light.of_ways[m];
      if (m < mouths) {
        const Transmission t = walks.lights()[walks.mouths()[m].light].sky();
        if (t.through > 0) of_seams += light.of_ways[m] * t.mesh_error / t.through;
      } else {
        of_walls += light.of_ways[m] * relative_u(scene, scene.walls[m - mouths]);
      }
    }
    return all > 0 ? std::hypot(of_seams, of_walls) / all : 0;
  }
  static double relative_u(const SeamScene& scene, const PrintedWall& wall) {
    return std::numbers::ln2 * pass_by(*scene.readings, wall.thickness).u.value;
  }

  static bool converged(const SeamWalks::Light& sum) {
    return std::ranges::all_of(sum.patches, [](const PatchLight& p) {
      const TallyResult r = p.all.result();
      return r.interval || (r.mean == 0 && r.histories >= surely_dark);
    });
  }

  void walk_all(const SeamWalks& walks) {
    const SeamWalks::Light light = rounds(walks, 2, "fog map", converged);
    if (!watch_.may_go_on()) return;
    const double u = doubt(scene_, walks, light);
    s_.patches = dark_patches(scene_.film);
    const std::size_t of_picture = s_.patches.size();
    for (const SeamScene::Piece& piece : scene_.pieces) {
      s_.pieces.push_back({});
      s_.pieces.back().name = piece.name;
    }
    double most = -1;
    for (std::size_t i = 0; i < light.patches.size(); ++i) {
      LeakPatch& patch = i < of_picture ? s_.patches[i] : s_.pieces[i - of_picture];
      patch.all = with_doubt(light.patches[i].all.result(), u);
      patch.sky = with_doubt(light.patches[i].sky.result(), u);
      patch.sun = with_doubt(light.patches[i].sun.result(), u);
      if (patch.all.mean <= most) continue;
      most = patch.all.mean;
      s_.worst = i;
    }
    list_ways(walks, light);
    s_.worst_light = worst_by(scene_, walks, 3, 0.03, "worst patch");
  }

  // Walks of their own: those that chose the worst patch would flatter it.
  TallyResult worst_by(const SeamScene& scene, const SeamWalks& walks, std::uint64_t stream,
                       double error, std::string_view stage) const {
    const SeamWalks::Light light = rounds(walks, stream, stage, [&](const SeamWalks::Light& sum) {
      const TallyResult r = sum.patches[looked_at(sum)].all.result();
      return r.interval && r.standard_error < error * r.mean;
    });
    if (light.patches.empty()) return {};
    return with_doubt(light.patches[looked_at(light)].all.result(), doubt(scene, walks, light));
  }
  // The patch that was the worst; with film beside the picture a remedy may leave another so.
  std::size_t looked_at(const SeamWalks::Light& light) const {
    if (scene_.pieces.empty() || !remedied_) return s_.worst;
    const auto most = std::ranges::max_element(
        light.patches, {}, [](const PatchLight& p) { return p.all.result().mean; });
    return static_cast<std::size_t>(most - light.patches.begin());
  }

  void list_ways(const SeamWalks& walks, const SeamWalks::Light& light) {
    double all = 0;
    for (const double l : light.of_ways) all += l;
    SeamWalks::Order walked = order(0, 0, 2);
    walked.shares = shares_of(walks);
    const auto list = [&](std::size_t way, LeakSeamLight s) {
      s.share = all > 0 ? light.of_ways[way] / all : 0;
      if (s.share > 0) {
        s_.ways.push_back(
            {s.share, way_name(s), walks.way(daylight(), walked, light.brightest[way])});
      }
      s_.seams.push_back(std::move(s));
    };
    const std::size_t mouths = walks.mouths().size();
    for (std::size_t m = 0; m < mouths; ++m) {
      const LeakSeam& seam = scene_.seams[m];
      const Transmission t = walks.lights()[walks.mouths()[m].light].sky();
      list(m, {seam.name,
               seam.side,
               seam.profile.gap,
               seam.length,
               {},
               seam.passes * t.through,
               seam.passes * t.mesh_error});
    }
    for (std::size_t w = 0; w < walks.walls().size(); ++w) {
      const PrintedWall& wall = scene_.walls[w];
      const double through = walks.walls()[w].passes;
      list(mouths + w, {wall.name,
                        wall.side,
                        {},
                        length_of(wall.across),
                        wall.thickness,
                        through,
                        through * relative_u(scene_, wall)});
    }
    std::ranges::stable_sort(s_.seams, std::greater{}, &LeakSeamLight::share);
    std::ranges::stable_sort(s_.ways, std::greater{}, &LeakWay::share);
  }
  static Length length_of(const SpacePoint& p) {
    return std::hypot(p.x / mm, p.y / mm, p.z / mm) * mm;
  }

  // What the walls may pass at most, by the light that they would let in if they passed all.
  void ask_of_walls() {
    std::vector<LitWall> open;
    const PrintedWall* thinnest = &scene_.walls.front();
    for (const PrintedWall& wall : scene_.walls) {
      open.push_back(lit(wall, 1));
      if (wall.thickness < thinnest->thickness) thinnest = &wall;
    }
    const SeamWalks walks(scene_.hollow, scene_.film, {}, {}, std::move(open), pieces_of(scene_));
    const WorstSun before{s_.towards, s_.suns_alike};
    set_sun(walks);
    const SeamWalks::Light light = rounds(walks, 6, "printed walls", converged);
    s_.towards = before.towards;
    s_.suns_alike = before.alike;
    double most = 0;
    for (const PatchLight& p : light.patches) most = std::max(most, p.all.result().mean);
    if (!(most > 0)) return;
    const double shown = fog_exposure(s_.asked.film.speed, {0.02}) / (most * s_.whole * leak_time);
    s_.wall_need = {
        {std::max(0.0, -std::log2(shown))}, thinnest->name, thinnest->thickness, scene_.steps};
  }

  // Less of the film's light can't show in any patch: twenty of them, and a remedy's own doubt.
  static constexpr double smallest_share = 0.002;

  bool changes_finish(const SeamScene& scene) const {
    return !std::ranges::equal(scene.hollow.stuffs, scene_.hollow.stuffs,
                               [](const Stuff& a, const Stuff& b) {
                                 return a.wall == b.wall && a.is_mirror == b.is_mirror;
                               });
  }

  // Of the film's light, what comes by ways that are another in `scene`, or none.
  double share_changed_by(const SeamScene& scene) const {
    const auto of = [](const auto& ways, const LeakSeamLight& way) {
      return std::ranges::find_if(
          ways, [&](const auto& w) { return w.name == way.name && w.side == way.side; });
    };
    double share = 0;
    for (const LeakSeamLight& way : s_.seams) {
      if (way.thickness) {
        const auto now = of(scene.walls, way), before = of(scene_.walls, way);
        if (now != scene.walls.end() && now->thickness == before->thickness) continue;
      } else {
        const auto now = of(scene.seams, way), before = of(scene_.seams, way);
        if (now != scene.seams.end() && now->profile == before->profile &&
            now->walls == before->walls && now->passes == before->passes &&
            now->length == before->length) {
          continue;
        }
      }
      share += way.share;
    }
    return share;
  }

  // Those that touch what brings light.
  void try_remedies(const std::vector<SeamRemedy>& remedies) {
    remedied_ = true;
    for (const SeamRemedy& remedy : remedies) {
      if (!watch_.may_go_on()) return;
      const std::string stage = "with " + remedy.what;
      watch_.progress(stage, 0);
      const SeamScene scene = remedy.scene();
      if (!changes_finish(scene) && share_changed_by(scene) < smallest_share) continue;
      if (scene.seams.empty() && !scene.counts_walls()) {
        s_.remedies.push_back({remedy.what, {}});
        continue;
      }
      const SeamWalks walks = walks_of(scene);
      if (!watch_.may_go_on()) return;
      s_.remedies.push_back({remedy.what, worst_by(scene, walks, 5, 0.1, stage)});
    }
    std::ranges::stable_sort(s_.remedies, {}, [](const LeakStudy::Remedied& r) {
      return r.light.interval ? r.light.mean : 2;
    });
  }

  struct Solved {
    Section section;
    SeamLight light;
  };

  const SeamScene& scene_;
  const LeakQuestions& asked_;
  const LeakWatch& watch_;
  std::chrono::steady_clock::time_point began_;
  std::size_t most_;
  const SeamWalls dark_{{Wall{0.05}}, {Wall{0.05}}};
  std::vector<Solved> solved_;
  bool remedied_ = false;
  LeakStudy s_;
};

}  // namespace

std::optional<LeakStudy> leak_study(const SeamScene& scene, const LeakQuestions& questions,
                                    const std::vector<SeamRemedy>& remedies,
                                    const LeakWatch& watch) {
  return SeamStudy(scene, questions, watch).made(remedies);
}

}  // namespace backfit

// SPDX-License-Identifier: MIT
// How much light reaches each point of the film, past everything between lens and film.
// Axes of the donor camera as in light.hpp. Derivations: docs/derivations/shadow.md.
#pragma once
#include <optional>
#include <span>
#include <vector>

#include "optics/beam.hpp"
#include "optics/light.hpp"

namespace backfit {

struct PlanePoint {
  Length x, y;
};
// Corners in order, either way round.
using Polygon = std::vector<PlanePoint>;

Polygon rectangle(Length width, Length height, PlanePoint centre = {});
// A regular polygon of the circle's area. Requires corners >= 3.
Polygon circle(Length diameter, PlanePoint centre = {}, int corners = 48);
// The triangles of a polygon without holes whose sides don't cross. Empty when it has no area.
std::vector<Polygon> triangles(const Polygon& outline);

// A flat thing square to the axis at `z`. An opening lets light by inside its parts only, an
// obstacle (a spool, a post, a finger of a pressure plate) stops what falls inside them. The
// parts are convex and don't overlap.
struct Screen {
  Length z;
  std::vector<Polygon> parts;
  bool obstacle = false;
};
Screen opening(Length z, const Polygon& outline);
Screen obstacle(Length z, const Polygon& outline);

// The lens as the film sees it: for a point of the film, the bright outline on the plane of the
// exit pupil.
class LensLight {
 public:
  // The same round pupil for every point: a lens that vignettes nothing.
  static LensLight disc(const ExitPupil& pupil, int corners = 48);
  // Traced through `lens`, whose last vertex stands at `last_vertex` and which is stopped down as
  // its stop's clear radius says, for film points at `film_z` up to `reach` off the axis: found
  // at `steps` heights and interpolated between.
  static LensLight traced(const LensModel& lens, Length last_vertex, Length film_z, Length reach,
                          int steps = 16, int corners = 48);

  // Empty where the lens sends no light, and beyond `reach`.
  Polygon seen_from(PlanePoint film_point) const;
  Length pupil_z() const { return pupil_z_; }

 private:
  Length pupil_z_;
  Length step_;                    // between outlines; 0 for a disc
  std::vector<Polygon> outlines_;  // for points (0, i step); empty ones where no light arrives
};

// Integral of the cosine over the solid angle of `source`, a polygon on the plane `source_z`, at
// `point` of a film square to the axis: its light is the subject's luminance times this. Exact
// (Lambert's formula for polygons). Requires source_z < point.z.
double projected_solid_angle(const Polygon& source, Length source_z, const FilmPoint& point);

// Light at `point` past all `screens`, as projected solid angle. A screen at the film or behind it
// is left out. Requires every screen behind the pupil.
double light_at(const FilmPoint& point, const LensLight& lens, std::span<const Screen> screens);

// Light over a frame centred on the axis at `film_z`, against the axis without screens.
struct LightMap {
  FrameSize frame;
  int columns = 0, rows = 0;
  std::vector<std::optional<Stops>> lost;  // row by row from the lower left; empty: no light
  PlanePoint place(int column, int row) const;
  const std::optional<Stops>& at(int column, int row) const;
};
// Requires columns, rows >= 2: the first and last lie on the frame's edges.
LightMap light_map(const FrameSize& frame, Length film_z, int columns, int rows,
                   const LensLight& lens, std::span<const Screen> screens);

// Stops lost at `point` against the axis without screens; empty without light.
std::optional<Stops> stops_lost(const FilmPoint& point, const LensLight& lens,
                                std::span<const Screen> screens);

// The largest frame of the shape of `shape`, no larger than it, none of whose corners, sides'
// middles and points between loses more than `allowed`. Bisection to 0.01 mm of its diagonal.
FrameSize largest_frame(const FrameSize& shape, Length film_z, Stops allowed, const LensLight& lens,
                        std::span<const Screen> screens);

// The same for one screen alone: none of these points loses more to it than all but `share` of the
// light that it would get otherwise. Share 1: no shadow inside; 1/2: where the picture's edge is
// seen to lie.
FrameSize lit_frame(const FrameSize& shape, Length film_z, double share, const LensLight& lens,
                    const Screen& screen);

}  // namespace backfit

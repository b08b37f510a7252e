// SPDX-License-Identifier: MIT
// The insert's numbers, from the film path, the chamber and the printer.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "conversion/insert_meetings.hpp"
#include "conversion/insert_sizes.hpp"
#include "conversion/insert_study.hpp"
#include "solid/lettering.hpp"

namespace backfit {
namespace {

// Common practice or the maker's choice, no source.
constexpr Length foam_least = 0.8 * mm;
constexpr Length longest_stub = 3 * mm, stub_short = 0.5 * mm, head_least = 1.5 * mm,
                 head_most = 4 * mm;
constexpr Length pad_most = 8 * mm, pad_from_rim = 0.5 * mm;
constexpr Length tail = 8 * mm, knob_height = 10 * mm, knob_felt = 1 * mm, knob_screw = 3 * mm;
constexpr Length small_knob = 26 * mm, large_knob = 34 * mm;
constexpr Torque easy = 50 * newton_mm;  // beyond it the larger knob
constexpr Length filter_usual = 12 * mm, filter_least = 8 * mm;
constexpr Length letters = 4 * mm, engraving = 0.4 * mm;
constexpr Length paper_width_usual = 62.8 * mm;

Length least(const Measured<Length>& m) { return m.value - m.half_width; }
Length most(const Measured<Length>& m) { return m.value + m.half_width; }

bool upright(FilmTravel goes) { return goes == FilmTravel::up || goes == FilmTravel::down; }

// Measured by the owner, or missing.
void ask(const std::optional<Stated<Measured<Length>>>& own, const char* key, const char* how,
         InsertStudy& s) {
  if (!own) s.missing.push_back({std::string("insert.") + key, how});
}

class Designer {
 public:
  Designer(const Assembly& a, InsertStudy& s)
      : a_(a),
        s_(s),
        d_(s.path.design),
        p_(d_.problem),
        l_(*s.path.layout),
        i_(insert_before_path(a, d_)) {}

  void design() {
    set_spool_ends();
    set_body();
    set_gate();
    set_rollers();
    set_pins();
    set_knob();
    if (!s_.missing.empty()) return;
    set_plate();
    set_hubs();
    set_pad();
    i_.screws.x = free_place(i_.boss() / 2 + i_.gap);
    set_window();
    set_words();
    meet_chamber(a_, i_, s_);
    s_.part = i_;
  }

 private:
  void set_spool_ends() {
    const SpoolPlan own = a_.plan.insert->spool.value_or(SpoolPlan{});
    const BackingPaperPlan paper = a_.plan.insert->backing_paper.value_or(BackingPaperPlan{});
    RollInsert::Spools& n = i_.spools;
    if (own.length) {
      n.length = most(*own.length.value());
    } else {
      n.length = most(a_.spool->length.value.value);
      if (a_.spool->length.doubtful()) s_.from_memory.emplace_back("length of the spool");
    }
    if (paper.paper_width) {
      n.film_width = most(*paper.paper_width.value());
    } else {
      n.film_width = paper_width_usual;
      s_.from_memory.emplace_back("width of the backing paper");
    }
    n.supply = l_.supply;
    n.take_up = l_.take_up;
    n.flange = p_.spool.flange;
    n.full = p_.spool.full;
    ask(own.end_hole, "spool.end_hole", "round hole in the spool's ends", s_);
    ask(own.slot_length, "spool.slot_length", "slot across that hole", s_);
    ask(own.slot_width, "spool.slot_width", "width of that slot", s_);
    ask(own.slot_depth, "spool.slot_depth", "depth of hole and slot in the spool", s_);
    if (own.slot_depth) n.stub = std::min(longest_stub, own.slot_depth->value.value - stub_short);
  }

  void set_body() {
    RollInsert::Body& b = i_.body;
    b.half_length = p_.room.high.x;
    b.half_width = i_.spools.length / 2 + i_.spools.play;
    b.back = p_.room.high.z;
  }

  // How low film, rollers and spools come beside the rails, with what must stay free.
  Length lowest() const {
    Length low = 0 * mm;
    for (int k = 0; k <= 8; ++k) {
      const StripPath film = film_of(p_, l_, k / 8.0);
      for (const Strand& strand : film.strands) {
        low = std::min({low, strand.from.z, strand.to.z});
      }
      for (std::size_t n = 0; n < film.wraps.size(); ++n) {
        if (l_.guides[n].rail_end && l_.guides[n].motion == Motion::fixed) continue;
        const Wrap& w = film.wraps[n];
        for (const double t : {0.25, 0.5, 0.75}) low = std::min(low, w.at(t).z);
      }
    }
    low = low - p_.strip.thickness / 2 - p_.clear.film;
    for (const Guide& g : l_.guides) {
      if (g.motion == Motion::turning) low = std::min(low, g.centre.z - g.radius - p_.clear.guide);
    }
    for (const SectionPoint& spool : {l_.supply, l_.take_up}) {
      low = std::min(low, spool.z - p_.spool.flange - p_.clear.turning);
    }
    return low;
  }

  void set_gate() {
    RollInsert::Gate& g = i_.gate;
    const Length layer = *a_.plan.printer->layer_height;
    g.frame_length = p_.gate.frame;
    g.frame_width = a_.film.image_width->value->value;
    g.rails_low = -g.frame_length / 2 - p_.gate.rail;
    g.rails_high = -g.rails_low;
    g.radius_low = g.radius_high = p_.strip.thickness;  // no sharp edge under the film
    for (const Guide& guide : l_.guides) {
      if (!guide.rail_end || guide.motion == Motion::turning) continue;
      if (guide.centre.x < 0 * mm) {
        g.rails_low = guide.centre.x - guide.radius;
        g.radius_low = guide.radius;
      } else {
        g.rails_high = guide.centre.x + guide.radius;
        g.radius_high = guide.radius;
      }
    }
    g.floor = lowest();
    const Length deep = std::max(i_.smallest_wall - g.floor,
                                 std::max(g.radius_low, g.radius_high) + i_.smallest_wall / 2);
    g.front = -in_layers(deep, layer);
  }

  void set_rollers() {
    for (const Guide& g : l_.guides) {
      if (g.motion != Motion::turning) continue;
      const Length beside =
          std::min(distance(g.centre, l_.supply), distance(g.centre, l_.take_up)) -
          p_.spool.flange - p_.clear.turning;
      i_.rollers.push_back({g.centre, g.radius, std::min(g.radius, beside)});
    }
  }

  void set_pins() {
    RollInsert::Spools& n = i_.spools;
    const Chamber& c = *a_.camera.chamber;
    const Length half = least(upright(d_.goes) ? *c.width : *c.height) / 2;
    i_.knob.chamber_half = half;
    n.head = std::clamp(half - i_.half_width() - draw(), head_least, head_most);
  }
  Length draw() const { return i_.spools.stub + i_.spools.play; }

  void set_knob() {
    RollInsert::Knob& k = i_.knob;
    const auto& own = a_.plan.insert->knob;
    if (own) {
      const CameraWall wall = *own->wall;
      // y across the film points left of the film's way, seen from behind.
      const bool first = wall == CameraWall::right || wall == CameraWall::top;
      const bool turned = d_.goes == FilmTravel::up || d_.goes == FilmTravel::left;
      k.side = first == turned ? -1 : 1;
      k.wall = own->wall_thickness->value;
    } else {
      s_.missing.push_back({"insert.knob.wall_thickness", "camera's wall that the knob sits on"});
    }
    k.clearance = d_.clearance;
    k.tail = tail;
    k.diameter = s_.path.last.torque > easy ? large_knob : small_knob;
    k.height = knob_height;
    k.felt = knob_felt;
    k.screw = knob_screw;
    k.marks = knob_marks;
  }

  // Hubs as wide as the flanges leave; as narrow as can be where a spool would not come in past
  // them.
  void set_hubs() {
    for (const SectionPoint spool : {l_.supply, l_.take_up}) {
      if (way_out(i_, spool).free >= i_.gap) continue;
      for (RollInsert::Roller& r : i_.rollers) r.hub = std::min(r.hub, i_.least_hub());
    }
  }

  // How far a strip of a cheek, `half` to each side of x, stays off the bores and rods.
  Length free_beside(Length x, Length half) const {
    const Length collar = i_.spools.collar / 2 + i_.gap;
    Length free = std::min(abs(x - l_.supply.x), abs(x - l_.take_up.x)) - collar - half;
    for (const RollInsert::Roller& r : i_.rollers) {
      free = std::min(free, abs(x - r.centre.x) - i_.rod / 2 - i_.gap - half);
    }
    return free;
  }
  // Nearest to the middle.
  Length free_place(Length half) const {
    const Length reach = i_.body.half_length - half;
    for (Length x; x < reach; x += 0.5 * mm) {
      for (const double side : {1.0, -1.0}) {
        if (free_beside(side * x, half) >= i_.smallest_wall) return side * x;
      }
    }
    return {};
  }

  void set_plate() {
    RollInsert::Plate& q = i_.plate;
    q.half_length = (p_.gate.frame + p_.gate.rail) / 2;
    const Length room = p_.gate.plate - i_.gate.seat;
    // Foam at its ears may reach past the plan's depth, which only film and spools must not meet.
    q.thickness = std::min(std::max(i_.smallest_wall, std::min(d_.wall, room - foam_least)), room);
    q.foam = std::max(foam_least, room - q.thickness);
    // Two grooves as far apart as the bores let them, and as evenly.
    const Length half = q.ear_width / 2;
    Length best;
    for (Length low = half - q.half_length; low < 0 * mm; low += 0.5 * mm) {
      if (free_beside(low, half) < i_.smallest_wall) continue;
      for (Length high = q.half_length - half; high > 0 * mm; high -= 0.5 * mm) {
        if (free_beside(high, half) < i_.smallest_wall) continue;
        if (high - low < q.ear_width + i_.smallest_wall) continue;
        const Length even = std::min(-low, high);
        if (even <= best) continue;
        best = even;
        q.ears = {low, high};
      }
    }
  }

  // Beside the supply spool's bore, under its flange, where nothing else is in the cheek.
  void set_pad() {
    RollInsert::Spools& n = i_.spools;
    const Length bore = n.journal / 2 + i_.gap + i_.smallest_wall;
    const Length rim = n.flange - pad_from_rim;
    n.pad = std::min(pad_most, rim - bore);
    const Length out = rim - n.pad / 2;
    Length best = -largest_size;
    for (int k = 0; k < 24; ++k) {
      const Angle way = 15 * k * deg;
      const SectionPoint at = n.supply + SectionPoint{out * cos(way), out * sin(way)};
      Length free = std::min({at.z - i_.body.front, i_.body.back - i_.trap.depth - at.z,
                              i_.body.half_length - abs(at.x)});
      for (const Length ear : i_.plate.ears) {
        free = std::min(free, abs(at.x - ear) - i_.plate.ear_width / 2);
      }
      for (const RollInsert::Roller& r : i_.rollers) {
        free = std::min(free, distance(at, r.centre) - i_.rod / 2);
      }
      if (free <= best) continue;
      best = free;
      n.pad_at = at;
    }
  }

  void set_window() {
    const auto& paper = a_.plan.insert->backing_paper;
    if (!s_.path.window || !paper || !paper->row_from_edge) return;
    const WindowPlace& w = *s_.path.window;
    // The paper's edge that is up in the camera; where the film goes up or down, the one that is up
    // once the camera is turned so that the film goes to the right.
    const Length from_edge = paper->row_from_edge->value.value;
    const double edge = d_.goes == FilmTravel::left ? -1 : 1;
    RollInsert::Window window{
        w.on_film.x, edge * (i_.spools.film_width / 2 - from_edge), filter_usual, {}};
    window.end =
        w.through_plate ? i_.gate.seat + i_.plate.thickness + foam_least : w.on_film.z + 1.5 * mm;
    const auto tube = [&] { return window.filter / 2 + i_.gap + i_.smallest_wall; };
    const auto fits = [&] {
      if (i_.spools.film_width / 2 - abs(window.y) - tube() < p_.clear.turning) return false;
      const Region round = box("tube", {window.x - tube(), window.end},
                               {window.x + tube(), std::max(window.end, i_.body.back)});
      for (const SectionPoint spool : {l_.supply, l_.take_up}) {
        if (gap(round, Disc{spool, p_.spool.full}) < p_.clear.turning) return false;
      }
      for (const Guide& g : l_.guides) {
        if (g.motion == Motion::turning && gap(round, Disc{g.centre, g.radius}) < p_.clear.guide) {
          return false;
        }
      }
      for (int k = 0; k <= 8; ++k) {
        for (const Strand& strand : film_of(p_, l_, k / 8.0).strands) {
          if (gap(round, strand) - p_.strip.thickness / 2 < p_.clear.film) return false;
        }
      }
      return true;
    };
    while (window.filter >= filter_least && !fits()) window.filter -= 0.5 * mm;
    if (window.filter < filter_least || window.end >= i_.body.back - i_.smallest_wall) return;
    i_.window = window;
    i_.plate.windowed = w.through_plate;
  }

  // Film, and the turns for each frame, in two columns on the half of the lid without the window.
  void set_words() {
    RollInsert::Words& w = i_.words;
    const std::size_t frames = s_.path.table.size();
    const std::size_t rows = (frames + 1) / 2;
    std::string film = *a_.film.name;
    w.lines.push_back(film.substr(0, film.find(',')));
    if (const auto comma = film.find(", "); comma != std::string::npos) {
      w.lines.push_back(film.substr(comma + 2));
    }
    w.lines.emplace_back("FRAME TURNS MARKS");
    const auto row = [&](std::size_t k) {
      const FrameWinding& f = s_.path.table[k];
      const auto marks = static_cast<int>(std::lround(f.advance * knob_marks));
      return fmt::format("{:>2} {:>2} {:>2}", f.frame, marks / knob_marks, marks % knob_marks);
    };
    for (std::size_t k = 0; k < rows; ++k) {
      w.lines.push_back(row(k) + (k + rows < frames ? "   " + row(k + rows) : std::string()));
    }
    w.quarters = d_.goes == FilmTravel::up     ? 3
                 : d_.goes == FilmTravel::down ? 1
                 : d_.goes == FilmTravel::left ? 2
                                               : 0;
    w.depth = engraving;
    // Room in the words' own directions: `wide` along a line, `high` across the lines.
    const bool across = upright(d_.goes);
    const Length edge = 3 * mm;
    const Length wide = 2 * (across ? i_.half_width() : i_.half_length()) - 2 * edge;
    Length low = -(across ? i_.half_length() : i_.half_width()) + edge, high = -low;
    if (i_.window) {
      const Length at = across ? i_.window->x : i_.window->y;
      const Length half = i_.window->filter / 2;
      (at > 0 * mm ? high : low) = at > 0 * mm ? at - half : at + half;
    }
    std::size_t longest = 0;
    for (const std::string& line : w.lines) longest = std::max(longest, line.size());
    const double n = static_cast<double>(longest), lines = static_cast<double>(w.lines.size());
    const Length by_width = wide / (n * (lettering_for(1 * mm).advance() / mm));
    const Length by_height = (high - low) / (1.6 * lines);
    w.height = std::min({letters, by_width, by_height});
    // Strokes that the nozzle can't leave open are not engraved.
    if (lettering_for(w.height).stroke < 0.9 * *a_.plan.printer->nozzle) w.height = {};
    const Length middle = (low + high) / 2;
    (across ? w.x : w.y) = middle;
  }

  const Assembly& a_;
  InsertStudy& s_;
  const PathDesign& d_;
  const LayoutProblem& p_;
  const Layout& l_;
  RollInsert i_;
};

}  // namespace

void design_insert(const Assembly& a, InsertStudy& s) { Designer(a, s).design(); }

}  // namespace backfit

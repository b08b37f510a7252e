// SPDX-License-Identifier: MIT
#include "documents/lens_answer.hpp"

#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "quantity/notation.hpp"

namespace backfit {
namespace {

using Json = nlohmann::ordered_json;

Json number(double value) {
  if (!std::isfinite(value)) return nullptr;
  return std::round(value * 1e7) / 1e7 + 0.0;
}
Json mm_of(Length length) { return number(length / mm); }

std::string_view name_of(Fate fate) {
  switch (fate) {
    case Fate::through:
      return "through";
    case Fate::clipped:
      return "clipped";
    case Fate::missed:
      return "missed";
    case Fate::reflected:
      break;
  }
  return "totally reflected";
}

Json sums_of(const Seidel& s) {
  return {{"s1", mm_of(s.s1)},
          {"s2", mm_of(s.s2)},
          {"s3", mm_of(s.s3)},
          {"s4", mm_of(s.s4)},
          {"s5", mm_of(s.s5)}};
}

// Which surfaces the sums belong to, counted from 1.
Json third_order_of(const ThirdOrder& third, const std::optional<Colour>& colour) {
  Json j = sums_of(third.sum);
  j["surfaces"] = Json::array();
  for (std::size_t i = 0; i < third.surfaces.size(); ++i) {
    Json row{{"surface", i + 1}};
    row.update(sums_of(third.surfaces[i]));
    j["surfaces"].push_back(row);
  }
  if (colour) {
    j["axial_colour_mm"] = mm_of(colour->axial);
    j["lateral_colour_mm"] = mm_of(colour->lateral);
  }
  return j;
}

Json ray_of(const LensStudy::RayAnswer& answer) {
  Json j{{"field_deg", number(answer.asked.field / deg)},
         {"pupil_x", number(answer.asked.x)},
         {"pupil_y", number(answer.asked.y)},
         {"vignetted", !answer.traced.passes()},
         {"fate", name_of(answer.traced.fate)},
         {"at_surface", answer.traced.passes() ? Json(nullptr) : Json(answer.traced.surface + 1)}};
  const bool arrives = answer.at_plane.has_value();
  j["x_mm"] = arrives ? mm_of(answer.at_plane->x) : Json(nullptr);
  j["y_mm"] = arrives ? mm_of(answer.at_plane->y) : Json(nullptr);
  j["tan_u"] = arrives ? number(answer.at_plane->m / answer.at_plane->n) : Json(nullptr);
  j["stop_y_mm"] = arrives ? mm_of(answer.traced.stop_y) : Json(nullptr);
  return j;
}

std::string row(std::string_view what, const std::string& text) {
  return fmt::format("  {:<22}{}\n", what, text);
}

std::string fine(Length length) { return text(length, 3); }

std::string in_mm(Length length, int decimals) { return fixed(length / mm, decimals); }

std::string third_order_table(const ThirdOrder& third) {
  std::string out = fmt::format("\n{:<9}{:>11}{:>11}{:>11}{:>11}{:>11}\n", "surface", "S1, mm",
                                "S2, mm", "S3, mm", "S4, mm", "S5, mm");
  const auto line = [](const std::string& name, const Seidel& s) {
    return fmt::format("{:<9}{:>11}{:>11}{:>11}{:>11}{:>11}\n", name, in_mm(s.s1, 6),
                       in_mm(s.s2, 6), in_mm(s.s3, 6), in_mm(s.s4, 6), in_mm(s.s5, 6));
  };
  for (std::size_t i = 0; i < third.surfaces.size(); ++i) {
    out += line(std::to_string(i + 1), third.surfaces[i]);
  }
  return out + line("sum", third.sum);
}

std::string ray_rows(const LensStudy::RayAnswer& r) {
  const std::string title =
      fmt::format("ray {:g}° {:g},{:g}", r.asked.field / deg, r.asked.x, r.asked.y);
  if (!r.at_plane) {
    return row(title,
               fmt::format("{} at surface {}", name_of(r.traced.fate), r.traced.surface + 1));
  }
  std::string out =
      row(title, fmt::format("x {}  y {} mm, slope {}, {} mm high at the stop",
                             in_mm(r.at_plane->x, 6), in_mm(r.at_plane->y, 6),
                             fixed(r.at_plane->m / r.at_plane->n, 6), in_mm(r.traced.stop_y, 6)));
  if (!r.traced.passes()) {
    out += row("", fmt::format("vignetted by surface {}", r.traced.surface + 1));
  }
  return out;
}

std::string quality_table(const ImageQuality& s) {
  std::string out = fmt::format("\n{:>7}{:>11}{:>11}{:>11}{:>11}{:>11}{:>11}\n", "field", "height",
                                "spot rms", "largest", "best film", "S lines", "T lines");
  for (const ImageQuality::Point& p : s.points) {
    out += fmt::format("{:>6g}°", p.field / deg);
    if (!p.light) {
      out += "  no light\n";
      continue;
    }
    const ImageQuality::Light& l = *p.light;
    for (const Length x :
         {l.height, l.rms, l.largest, l.best, l.best_sagittal, l.best_tangential}) {
      out += fmt::format("{:>11}", in_mm(x, 4));
    }
    out += "\n";
  }
  out +=
      "all in mm; best film: shifts away from the lens with the smallest spot, then for\n"
      "sagittal and for tangential lines alone\n";
  if (s.best_flat_film) {
    out += fmt::format("best for the whole: film shifted by {}\n", fine(*s.best_flat_film));
  }
  for (std::size_t shift = 0; shift < s.shifts.size(); ++shift) {
    out += fmt::format("\ncontrast by waves, film shifted by {}; S and T lines\n{:>7}",
                       fine(s.shifts[shift]), "field");
    for (const SpatialFrequency nu : s.frequencies) {
      out += fmt::format("{:>15}", fmt::format("{:g}/mm", nu / lp_per_mm));
    }
    out += "\n";
    for (const ImageQuality::Point& p : s.points) {
      if (!p.light) continue;
      out += fmt::format("{:>6g}°", p.field / deg);
      for (std::size_t i = 0; i < s.frequencies.size(); ++i) {
        const auto& c = s.at(p.light->by_waves, shift, i);
        out += fmt::format("{:>9.3f}{:>6.3f}", c.sagittal, c.tangential);
      }
      out += "\n";
    }
  }
  return out;
}

Json quality_of(const ImageQuality& s) {
  Json j{{"best_flat_film_mm", s.best_flat_film ? mm_of(*s.best_flat_film) : Json(nullptr)},
         {"points", Json::array()}};
  for (const ImageQuality::Point& p : s.points) {
    Json k{{"field_deg", number(p.field / deg)}, {"lit", p.light.has_value()}};
    if (p.light) {
      const ImageQuality::Light& l = *p.light;
      k["height_mm"] = mm_of(l.height);
      k["spot_rms_mm"] = mm_of(l.rms);
      k["spot_largest_mm"] = mm_of(l.largest);
      k["best_film_mm"] = mm_of(l.best);
      k["best_film_sagittal_mm"] = mm_of(l.best_sagittal);
      k["best_film_tangential_mm"] = mm_of(l.best_tangential);
      k["contrast"] = Json::array();
      for (std::size_t shift = 0; shift < s.shifts.size(); ++shift) {
        for (std::size_t i = 0; i < s.frequencies.size(); ++i) {
          const auto& rays = s.at(l.by_rays, shift, i);
          const auto& waves = s.at(l.by_waves, shift, i);
          k["contrast"].push_back({{"film_shift_mm", mm_of(s.shifts[shift])},
                                   {"line_pairs_per_mm", number(s.frequencies[i] / lp_per_mm)},
                                   {"sagittal", number(waves.sagittal)},
                                   {"tangential", number(waves.tangential)},
                                   {"sagittal_by_rays", number(rays.sagittal)},
                                   {"tangential_by_rays", number(rays.tangential)}});
        }
      }
    }
    j["points"].push_back(k);
  }
  return j;
}

}  // namespace

std::string lens_summary(const LensStudy& s) {
  std::string out = fmt::format("{}, at {:.1f} nm\n", s.name, s.wavelength / nm);
  if (s.afocal) {
    return out + row("angular magnification", fmt::format("{:.5f}x", s.angular_magnification));
  }
  out += row("focal length", fine(s.first.focal));
  out += row("back focal distance", fine(s.first.back_focal) + " behind the last vertex");
  out += row("front focus", fine(s.first.front_focal) + " from the first vertex");
  out +=
      row("principal points", fmt::format("{} from the first, {} from the last vertex, {} apart",
                                          fine(s.first.front_principal()),
                                          fine(s.first.back_principal()), fine(s.first.hiatus())));
  out += row("entrance pupil", fine(s.pupil.entrance) + " from the first vertex");
  out += row("exit pupil", fmt::format("{} from the last vertex, {} of the entrance pupil's size",
                                       fine(s.pupil.exit), fixed(s.pupil.magnification, 4)));
  if (s.f_number) out += row("f-number", fmt::format("f/{}", fixed(s.f_number->value, 3)));
  out += row("Petzval radius", fmt::format("{}, {} focal lengths", fine(-1 / s.petzval),
                                           fixed(-1 / (s.petzval * s.first.focal), 3)));
  if (s.conjugate) {
    out +=
        row("image", fmt::format("{} behind the last vertex, magnification {}",
                                 fine(s.conjugate->image), fixed(s.conjugate->magnification, 5)));
    if (s.effective_f_number) {
      out += row("", fmt::format("exposes like f/{}", fixed(s.effective_f_number->value, 3)));
    }
  }
  if (s.ray) out += ray_rows(*s.ray);
  for (const LensStudy::Light& l : s.light) {
    out += row("light at " + text(l.height, 2),
               l.relative ? fmt::format("{} of the centre's", fixed(*l.relative, 4)) : "none");
  }
  if (s.third) out += third_order_table(*s.third);
  if (s.quality) out += quality_table(*s.quality);
  return out;
}

std::string lens_json(const LensStudy& s) {
  Json j{
      {"schema", "backfit.lens/1"}, {"name", s.name}, {"wavelength_nm", number(s.wavelength / nm)}};
  if (s.afocal) {
    j["angular_magnification"] = number(s.angular_magnification);
    return j.dump(2) + "\n";
  }
  j["first_order"] = {
      {"efl_mm", mm_of(s.first.focal)},
      {"bfl_mm", mm_of(s.first.back_focal)},
      {"ffl_mm", mm_of(s.first.front_focal)},
      {"front_principal_mm", mm_of(s.first.front_principal())},
      {"back_principal_mm", mm_of(s.first.back_principal())},
      {"hiatus_mm", mm_of(s.first.hiatus())},
      {"entrance_pupil_mm", mm_of(s.pupil.entrance)},
      {"exit_pupil_mm", mm_of(s.pupil.exit)},
      {"pupil_magnification", number(s.pupil.magnification)},
      {"petzval_mm", mm_of(-1 / s.petzval)},
      {"entrance_radius_mm", s.entrance_radius ? mm_of(*s.entrance_radius) : Json(nullptr)},
      {"f_number", s.f_number ? number(s.f_number->value) : Json(nullptr)}};
  j["third_order"] = s.third ? third_order_of(*s.third, s.colour) : Json(nullptr);
  if (s.conjugate) {
    j["conjugate"] = {{"image_mm", mm_of(s.conjugate->image)},
                      {"magnification", number(s.conjugate->magnification)},
                      {"effective_f_number",
                       s.effective_f_number ? number(s.effective_f_number->value) : Json(nullptr)}};
  }
  j["plane_mm"] = mm_of(s.plane);
  if (s.ray) j["ray"] = ray_of(*s.ray);
  if (!s.light.empty()) {
    j["illumination"] = Json::array();
    for (const LensStudy::Light& l : s.light) {
      j["illumination"].push_back({{"height_mm", mm_of(l.height)},
                                   {"relative", l.relative ? number(*l.relative) : Json(nullptr)}});
    }
  }
  if (s.quality) j["sharpness"] = quality_of(*s.quality);
  return j.dump(2) + "\n";
}

}  // namespace backfit

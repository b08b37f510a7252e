// SPDX-License-Identifier: MIT
// The program's answers, as far as the page reads them; docs/json.md says what they mean.

export type Which = 'conversion' | 'camera';

export interface Place {
  file: string;
  line: number;
  column: number;
  length: number;
}
export interface Message {
  severity: 'error' | 'warning' | 'note';
  place: Place | null;
  text: string;
  help: string | null;
}
export interface Finding {
  id: string;
  severity: 'blocker' | 'warning' | 'note';
  place: Place | null;
  text: string;
  limit: string | null;
  remedies: string[];
}
export interface Share {
  input: string;
  contribution_mm: number;
  share: number;
}
export interface Report {
  camera: string;
  film: string;
  method: string;
  verdict: string;
  register: {
    set_back_mm: number;
    set_back_mm_u: number;
    set_back_budget: Share[];
    odds_infinity: number;
    give_mm?: number; // only of a lens that sits fast
    farthest_focus_mm: number | null;
    nearest_focus_mm: number | null;
    marks: {
      engraved_mm: number;
      from_new_stop_mm: number | null;
      from_new_stop_mm_u?: number;
      uncorrected_focus_mm: number | null;
    }[];
  };
  focus: {
    f_number: number;
    depth_of_focus_mm: number;
    plane_error_mm: number;
    plane_error_mm_u: number;
    plane_error_budget: Share[];
    odds_sharp: number;
  };
  depth_of_field: {
    circle_mm: number;
    stops: {
      f_number: number;
      hyperfocal_mm: number;
      subjects: { subject_mm: number; near_mm: number; far_mm: number | null }[];
    }[];
  };
  frame: {
    window_width_mm: number;
    window_height_mm: number;
    picture_width_mm: number;
    picture_height_mm: number;
    without_shadow_width_mm: number;
    without_shadow_height_mm: number;
    limited_by: string;
  };
  coverage: { grade: string; circle_mm: number; needed_mm: number; odds_covered: number };
  handedness: { laterally_reversed: boolean };
  findings: Finding[];
}
export interface Cover {
  clear_circle_mm: number;
  map: {
    f_number: number;
    columns: number;
    rows: number;
    x_mm: number[];
    y_mm: number[];
    loss_stops: (number | null)[][];
  };
}
export interface Exposure {
  f_number: number;
  time_s: number | null;
  marked_s: number | null;
  too_fast: boolean;
  no_speed: boolean;
  by_hand: boolean;
  total_stops: number | null;
}
export interface Light {
  emulsion: string;
  index_in_light: number;
  corrections_far: { name: string; stops: number }[];
  light_rows: { condition: string; name: string; ev_100: number; exposures: Exposure[] }[];
}
export interface Flash {
  flash: string;
  rated_guide_number_m: number;
  rows: {
    speed_s: number | null;
    or_slower: boolean;
    guide_number_m: number;
    ladder: { f_number: number; distance_mm: number | null }[];
  }[];
  notes: string[];
  cautions: string[];
}
export interface Dial {
  key: string;
  meaning: string;
  unit: string;
  line: number;
  column: number;
  length: number;
  value: number;
  least: number;
  most: number;
  step: number;
  decimals: number;
}
export interface Study {
  turned?: { file: Which; text: string };
  dials: Record<Which, Dial[]>;
  messages: { messages: Message[] };
  measure?: { key: string; how: string }[] | null;
  report: Report | null;
  cover: Cover | null;
  exposure?: Light | null;
  flash?: Flash | null;
  gate?: { width_mm: number; height_mm: number };
  leak_film?: { iso: number; film: string; from: string }; // that leaks are judged by
  has?: { path: boolean; way: boolean; timer: boolean; exposure: boolean; flash: boolean };
  words?: Record<string, string>;
}
export interface FileOnDisk {
  path: string;
  name: string;
  text: string;
  stamp: string;
}

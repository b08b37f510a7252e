// SPDX-License-Identifier: MIT
// Every film of the catalogue against the camera, with reasons; sorted as asked.
import { signal } from '@preact/signals';
import { useAnswer } from './asked';
import { MeasureNext } from './measure';
import { InWords, distance, mm, odds, stops } from './words';

interface Row {
  film: string;
  name: string;
  method: string | null;
  verdict: string;
  set_back_mm?: number;
  odds_infinity?: number;
  nearest_focus_mm?: number | null;
  picture_width_mm?: number;
  picture_height_mm?: number;
  area_change?: number;
  corner_loss_stops?: number | null;
  measure: { key: string; how: string }[];
  work: string[];
  reason: string | null;
}
interface Answer {
  match: { rows: Row[] } | null;
  words?: Record<string, string>;
}

const order = ['fits', 'fits with work', 'cannot tell yet', 'does not fit'];
const columns: { name: string; of: (r: Row) => number | string; show: (r: Row) => string }[] = [
  { name: 'film', of: (r) => r.name, show: (r) => r.name },
  { name: 'verdict', of: (r) => order.indexOf(r.verdict), show: (r) => r.verdict },
  { name: 'set-back', of: (r) => r.set_back_mm ?? Infinity, show: (r) => mm(r.set_back_mm, 2) },
  { name: 'infinity', of: (r) => -(r.odds_infinity ?? -1), show: (r) => (r.odds_infinity === undefined ? '–' : odds(r.odds_infinity)) },
  { name: 'nearest', of: (r) => r.nearest_focus_mm ?? Infinity, show: (r) => (r.set_back_mm === undefined ? '–' : distance(r.nearest_focus_mm)) },
  {
    name: 'picture',
    of: (r) => -(r.picture_width_mm ?? 0) * (r.picture_height_mm ?? 0),
    show: (r) => (r.picture_width_mm === undefined ? '–' : `${r.picture_width_mm.toFixed(0)} × ${mm(r.picture_height_mm, 0)}`),
  },
  {
    name: 'corner',
    of: (r) => r.corner_loss_stops ?? Infinity,
    show: (r) => (r.corner_loss_stops === undefined ? '–' : stops(r.corner_loss_stops)),
  },
];
const sorted = signal({ column: 1, down: false });

export function Films() {
  const { answer } = useAnswer<Answer>('/api/match', false);
  if (!answer) return <p class="lead">Trying every film …</p>;
  if (!answer.match) return <p class="lead">The camera file has mistakes.</p>;
  const by = columns[sorted.value.column];
  const rows = answer.match.rows
    .map((r, i) => [r, i] as const)
    .sort(([a, i], [b, k]) => {
      const [x, y] = [by.of(a), by.of(b)];
      const d = x < y ? -1 : x > y ? 1 : i - k;
      return sorted.value.down ? -d : d;
    })
    .map(([r]) => r);
  return (
    <>
      <h2>Films against this camera</h2>
      <p class="lead">At its widest stop; the corner in stops of light lost. A heading sorts.</p>
      <div class="wide" tabIndex={0} role="region" aria-label="Films">
        <table class="films">
          <thead>
            <tr>
              {columns.map((c, i) => (
                <th key={c.name} scope="col" aria-sort={i === sorted.value.column ? (sorted.value.down ? 'descending' : 'ascending') : undefined}>
                  <button onClick={() => (sorted.value = { column: i, down: i === sorted.value.column && !sorted.value.down })}>{c.name}</button>
                </th>
              ))}
            </tr>
          </thead>
          {rows.map((r) => (
            <tbody key={`${r.film} ${r.method}`}>
              <tr>
                {columns.map((c) => (
                  <td key={c.name}>{c.show(r)}</td>
                ))}
              </tr>
              <tr>
                <td class="reason" colSpan={columns.length}>
                  {r.measure.length > 0 && <div>measure next: {r.measure.map((m) => m.how).join('; ')}</div>}
                  {r.reason && <div>{r.reason}</div>}
                  <div>{[r.method, r.work.join('; ')].filter(Boolean).join(': ')}</div>
                </td>
              </tr>
            </tbody>
          ))}
        </table>
      </div>
      <MeasureNext list={answer.match.rows.flatMap((r) => r.measure)} title="Measured next, these would tell more" />
      <InWords text={answer.words?.match} />
    </>
  );
}

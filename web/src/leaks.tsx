// SPDX-License-Identifier: MIT
// Daylight that finds its way between the parts to the film: how much, by which ways, what helps.
import type { Message } from './answers';
import { Working } from './asked';
import { keyOfTexts } from './errands';
import { LeakForm, leaking } from './leak_form';
import { MeasureNext, type Measurement } from './measure';
import { InWords, mm } from './words';

interface Light {
  converged?: boolean;
  part?: number | null;
  low_95?: number | null;
  high_95?: number | null;
  walks?: number;
  effective_walks?: number | null;
  largest_share?: number | null;
}
interface Patch {
  x_mm?: number;
  y_mm?: number;
  light?: Light;
  hour_lx_s?: number | null;
}
// Any member may be missing, in an answer of another version.
interface Leak {
  verdict?: string;
  iso?: number;
  film?: string;
  iso_from?: string;
  rule?: string | null;
  columns?: number;
  rows?: number;
  patches?: Patch[];
  worst_patch?: number;
  worst_light?: Light;
  stops?: number | null;
  hour_lx_s?: number | null;
  minutes_to_fog?: { density_rise: number; minutes: number | null }[];
  ways?: { share?: number | null; seams?: string; points_mm?: [number, number, number][] }[];
  beside?: { film?: string; light?: Light }[];
  worst_beside?: string | null;
  taken_as_open?: string | null;
  walls_must_take?: { stops?: number; thinnest?: string; thickness_mm?: number; steps_to_read_mm?: number[] } | null;
  seams?: { name?: string; side?: string; gap_mm?: number | null; thickness_mm?: number | null; length_mm?: number | null; transmission?: number | null; share?: number | null }[];
  not_counted?: string[];
  remedies?: { what: string; gain_stops?: number | null; light?: Light }[];
}
export interface LeakAnswer {
  messages: { messages: Message[] };
  why_not: string | null;
  measure?: Measurement[];
  leak: Leak | null;
  words?: Record<string, string>;
}

// "2.4·10⁻¹¹"
function part(x: number | null | undefined): string {
  if (x == null) return '–';
  if (x === 0) return '0';
  const power = Math.floor(Math.log10(x));
  const up = String(power).replace(/[-\d]/g, (c) => ({ '-': '⁻', '0': '⁰', '1': '¹', '2': '²', '3': '³', '4': '⁴', '5': '⁵', '6': '⁶', '7': '⁷', '8': '⁸', '9': '⁹' })[c]!);
  return `${(x / 10 ** power).toFixed(1)}·10${up}`;
}
const time = (min: number | null | undefined) => (min == null ? '–' : min < 2 ? `${Number((min * 60).toPrecision(2))} s` : min < 120 ? `${min.toFixed(0)} min` : min < 2880 ? `${(min / 60).toFixed(0)} h` : min < 5e5 ? `${(min / 1440).toFixed(0)} days` : 'over a year');
const percent = (share: number | null | undefined) => (share == null ? '–' : share < 0.001 ? 'under 0.1 %' : `${(100 * share).toFixed(share < 0.1 ? 1 : 0)} %`);
const sure = (p: Patch) => p.light?.converged !== false && p.light?.part != null;
// No walk brought any.
const isDark = (light: Light | undefined) => light?.converged === false && light.effective_walks === 0;
const inWords = (light: Light | undefined, unsure: string) => (light?.part != null ? part(light.part) : isDark(light) ? 'dark' : unsure);

function FogMap(p: { leak: Leak }) {
  const { patches = [], columns = 0, rows = 0, worst_patch } = p.leak;
  if (!columns || !rows || patches.length !== columns * rows) return null;
  const xs = patches.map((q) => q.x_mm ?? 0);
  const ys = patches.map((q) => q.y_mm ?? 0);
  const gap = (list: number[], n: number) => (n > 1 ? (Math.max(...list) - Math.min(...list)) / (n - 1) : 40);
  const [w, h] = [gap(xs, columns), gap(ys, rows)];
  const [left, top] = [Math.min(...xs) - w / 2, Math.max(...ys) + h / 2];
  const scale = Math.min(360 / (w * columns), 340 / (h * rows));
  const lights = patches.filter(sure).map((q) => Math.log10(Math.max(q.light!.part!, 1e-30)));
  const [low, high] = [Math.min(...lights), Math.max(...lights)];
  const say = (q: Patch) => inWords(q.light, 'not sure');
  return (
    <svg
      class="over"
      width={w * columns * scale}
      height={h * rows * scale}
      viewBox={`0 0 ${w * columns * scale} ${h * rows * scale}`}
      role="img"
      aria-label={`Light on the film from behind, in parts of full daylight, ${rows} rows from the top: ${patches.map(say).join(', ')}`}
    >
      <defs>
        <pattern id="unsure" width="8" height="8" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <rect width="8" height="8" fill="var(--sheet)" />
          <line x1="0" y1="0" x2="0" y2="8" stroke="var(--rule)" stroke-width="3" />
        </pattern>
      </defs>
      {patches.map((q, i) => {
        const [x, y] = [(xs[i] - w / 2 - left) * scale, (top - ys[i] - h / 2) * scale];
        const share = sure(q) && high > low ? (Math.log10(Math.max(q.light!.part!, 1e-30)) - low) / (high - low) : 0.5;
        return (
          <g key={i}>
            <rect x={x} y={y} width={w * scale} height={h * scale} fill={sure(q) ? 'var(--red)' : isDark(q.light) ? 'var(--sheet)' : 'url(#unsure)'} fill-opacity={sure(q) ? 0.08 + 0.4 * share : 1} stroke="var(--rule)" />
            <text x={x + (w * scale) / 2} y={y + (h * scale) / 2 + 4} text-anchor="middle">
              {inWords(q.light, '?')}
            </text>
          </g>
        );
      })}
      {worst_patch !== undefined && patches[worst_patch] && (
        <rect
          x={(xs[worst_patch] - w / 2 - left) * scale + 2}
          y={(top - ys[worst_patch] - h / 2) * scale + 2}
          width={w * scale - 4}
          height={h * scale - 4}
          fill="none"
          stroke="var(--ink)"
          stroke-width="3"
        />
      )}
    </svg>
  );
}

function Answered(p: { leak: Leak }) {
  const { leak } = p;
  const worst = leak.worst_light;
  const none = leak.verdict === 'not converged';
  const tight = leak.verdict === 'light-tight';
  return (
    <>
      <p class={`verdict is-${tight ? 'fits' : none || leak.verdict !== 'leaks' ? 'fits-with-work' : 'does-not-fit'}`}>
        <b>
          {leak.verdict ?? 'no verdict'}
          {tight && leak.walls_must_take ? ' by its seams alone' : ''}
        </b>
      </p>
      {leak.walls_must_take && (
        <p class="lead">
          Printed walls are not counted: what the print passes isn’t known. Each wall that daylight meets must take {leak.walls_must_take.stops ?? '–'} stops or more, the thinnest ({leak.walls_must_take.thinnest ?? '–'}, {mm(leak.walls_must_take.thickness_mm)}) as well. Print
          steps of {(leak.walls_must_take.steps_to_read_mm ?? []).join(' and ')} mm and write what a light meter loses behind each as two <code>[[printer.wall_readings]]</code>.
        </p>
      )}
      {leak.film && (
        <p class="lead">
          Judged by {[leak.film, leak.iso_from].filter(Boolean).join(', ')}
          {leak.rule ? `; ${leak.rule}` : ''}.
        </p>
      )}
      {leak.taken_as_open && <p class="lead">Taken as open: {leak.taken_as_open}. What it holds back comes on top.</p>}
      {none && (
        <p class="lead">
          The walks have not converged: there is no number yet, and none is shown. Of {worst?.walks ?? '–'} walks from the worst patch as much light came as by{' '}
          {worst?.effective_walks?.toFixed(1) ?? '–'} equal ones. Let it walk longer, or look at one seam alone by <code>backfit trap</code>.
        </p>
      )}
      {leak.verdict === 'no light found' && <p class="lead">No walk found a way out. That is no proof that there is none.</p>}
      <dl class="figures">
        {leak.stops != null && (
          <div>
            <dt>worst patch{leak.worst_beside ? `, ${leak.worst_beside}` : ''}, light held back</dt>
            <dd>{leak.stops.toFixed(1)} stops</dd>
          </div>
        )}
        {worst?.part != null && (
          <div>
            <dt>worst patch, part of full daylight</dt>
            <dd>
              {part(worst.part)}{' '}
              <small>
                95 %: {part(worst.low_95)} to {part(worst.high_95)}
              </small>
            </dd>
          </div>
        )}
        {(leak.minutes_to_fog ?? []).map((f) => (
          <div key={f.density_rise}>
            <dt>
              until {leak.film ?? `ISO ${leak.iso ?? '–'} film`} rises by {f.density_rise.toFixed(2)}
            </dt>
            <dd>{time(f.minutes)}</dd>
          </div>
        ))}
      </dl>
      <div class="glass">
        <FogMap leak={leak} />
        <div class="key">
          <p>
            The film from behind. Each patch: part of full daylight that reaches it. Framed: the worst. Dark: no walk brought light. Hatched, with a question mark: not converged, so nothing is said.
          </p>
        </div>
      </div>
      {(leak.beside?.length ?? 0) > 0 && (
        <dl class="figures">
          {leak.beside!.map((b) => (
            <div key={b.film}>
              <dt>{b.film}</dt>
              <dd>{inWords(b.light, '?')}</dd>
            </div>
          ))}
        </dl>
      )}
      {(leak.ways?.length ?? 0) > 0 && (
        <>
          <h3>Ways of the light, most first</h3>
          <div class="wide" tabIndex={0} role="region" aria-label="Ways of the light">
            <table>
              <thead>
                <tr>
                  <th scope="col">way</th>
                  <th scope="col" class="left">
                    seams, from outside
                  </th>
                  <th scope="col">share</th>
                </tr>
              </thead>
              <tbody>
                {leak.ways!.map((w, i) => (
                  <tr key={i}>
                    <td class="wayname">
                      <svg width="22" height="12" aria-hidden="true">
                        <line x1="0" y1="6" x2="22" y2="6" stroke-width="3" class={`way${i % 5}`} />
                      </svg>{' '}
                      {i + 1}
                    </td>
                    <td class="left seams">{w.seams ?? '–'}</td>
                    <td>{percent(w.share)}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
          <p class="lead">The sheet Parts draws them in these colours.</p>
        </>
      )}
      {(leak.seams?.length ?? 0) > 0 && (
        <>
          <h3>Seams and walls</h3>
          <div class="wide" tabIndex={0} role="region" aria-label="Seams">
            <table>
              <thead>
                <tr>
                  <th scope="col">seam</th>
                  <th scope="col">gap or thickness</th>
                  <th scope="col">length</th>
                  <th scope="col">lets through</th>
                  <th scope="col">share of the light</th>
                </tr>
              </thead>
              <tbody>
                {leak.seams!.map((s, i) => (
                  <tr key={i}>
                    <td class="seams">{[s.name, s.side].filter(Boolean).join(', ')}</td>
                    <td>{s.thickness_mm != null ? `${mm(s.thickness_mm)} thick` : mm(s.gap_mm, 2)}</td>
                    <td>{mm(s.length_mm)}</td>
                    <td>{part(s.transmission)}</td>
                    <td>{percent(s.share)}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
        </>
      )}
      {(leak.not_counted?.length ?? 0) > 0 && (
        <>
          <h3>Not counted</h3>
          <ul class="findings">
            {leak.not_counted!.map((n) => (
              <li key={n}>{n}</li>
            ))}
          </ul>
        </>
      )}
      {(leak.remedies?.length ?? 0) > 0 && (
        <>
          <h3>What would help</h3>
          <table>
            <thead>
              <tr>
                <th scope="col">remedy</th>
                <th scope="col">less light, stops</th>
              </tr>
            </thead>
            <tbody>
              {leak.remedies!.map((r) => (
                <tr key={r.what}>
                  <td class="seams">{r.what}</td>
                  <td>{r.gain_stops != null ? r.gain_stops.toFixed(1) : isDark(r.light) ? 'no light found' : 'not converged'}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </>
      )}
    </>
  );
}

export function Leaks() {
  const { answer, of, running } = leaking.state.value;
  return (
    <>
      <h2>Light that leaks in</h2>
      <p class="lead">How much daylight reaches the film between the parts, where it comes in, and what would help. The other sheets work meanwhile.</p>
      <LeakForm />
      <Working errand={leaking} />
      {answer && of !== keyOfTexts() && <p class="lead">This is of an earlier text.</p>}
      {answer?.why_not && <p>{answer.why_not}.</p>}
      <MeasureNext list={answer?.measure} />
      {answer?.leak && <Answered leak={answer.leak} />}
      {!answer && !running && <p class="lead">Nothing has been followed yet.</p>}
      <InWords text={answer?.words?.leak} />
    </>
  );
}

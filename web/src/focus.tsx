// SPDX-License-Identifier: MIT
// Where the sharp picture lies: old scale against new, depth of field, what the doubt is made of.
import { signal } from '@preact/signals';
import type { Report, Share } from './answers';
import * as bench from './bench';
import { SharpFrom } from './findings';
import { InWords, distance, mm, odds } from './words';

type Stop = Report['depth_of_field']['stops'][number];

const stop = signal<number | null>(null);

function Bars(p: { title: string; shares: Share[] }) {
  return (
    <section>
      <h3>{p.title}</h3>
      <div class="bars" role="list">
        {p.shares.map((s) => (
          <div role="listitem" key={s.input} style={{ display: 'contents' }}>
            <span>{s.input}</span>
            <span aria-hidden="true">
              <i style={{ width: `${s.share * 100}%` }} />
            </span>
            <span>
              {(s.share * 100).toFixed(0)} %<small class="label">{s.contribution_mm.toFixed(3)} mm</small>
            </span>
          </div>
        ))}
      </div>
    </section>
  );
}

// Both scales on one bed: travel of the lens from its new stop to the right.
function Scale() {
  const marks = bench.good.value!.report.register.marks;
  const placed = marks.filter((m) => m.from_new_stop_mm !== null);
  if (placed.length === 0) return null;
  const most = Math.max(...placed.map((m) => m.from_new_stop_mm!)) * 1.08;
  const x = (travel: number) => 24 + (travel / most) * 590;
  // What each engraved mark focuses if nothing but the back changed, and where it ought to stand.
  return (
    <div class="wide">
      <svg width="640" height="96" viewBox="0 0 640 96" role="img" aria-label="The new focusing scale; the table below says the same">
        <line x1="24" y1="52" x2="620" y2="52" stroke="var(--ink)" stroke-width="2" />
        <line x1="24" y1="40" x2="24" y2="64" stroke="var(--ink)" stroke-width="2" />
        <text x="24" y="34" text-anchor="middle">
          ∞
        </text>
        {placed.map((m, i) => (
          <g key={m.engraved_mm}>
            <rect
              x={x(m.from_new_stop_mm! - (m.from_new_stop_mm_u ?? 0) * 1.96)}
              y="47"
              width={Math.max(1, x((m.from_new_stop_mm_u ?? 0) * 3.92) - x(0))}
              height="10"
              fill="var(--mark)"
              opacity="0.3"
            />
            <line x1={x(m.from_new_stop_mm!)} y1="42" x2={x(m.from_new_stop_mm!)} y2="62" stroke="var(--mark)" stroke-width="2" />
            <text x={x(m.from_new_stop_mm!)} y={i % 2 ? 34 : 80} text-anchor="middle">
              {distance(m.engraved_mm)}
            </text>
          </g>
        ))}
      </svg>
    </div>
  );
}

// The new scale as a picture and as a table, with what is sharp at a stop.
function Marks({ chosen }: { chosen: Stop | undefined }) {
  return (
    <>
      <h3>New focusing scale, travel from the new infinity stop</h3>
      <Scale />
      <div class="wide" tabIndex={0} role="region" aria-label="Focusing marks">
        <table>
          <thead>
            <tr>
              <th scope="col">mark</th>
              <th scope="col">from the new stop</th>
              <th scope="col">left as it is, it focuses</th>
              {chosen && <th scope="col">sharp at f/{chosen.f_number} from, to</th>}
            </tr>
          </thead>
          <tbody>
            {bench.good.value!.report.register.marks.map((m) => {
              const depth = chosen?.subjects.find((s) => s.subject_mm === m.engraved_mm);
              return (
                <tr key={m.engraved_mm}>
                  <td>{distance(m.engraved_mm)}</td>
                  <td>{m.from_new_stop_mm === null ? 'out of reach' : mm(m.from_new_stop_mm, 2)}</td>
                  <td>{distance(m.uncorrected_focus_mm)}</td>
                  {chosen && <td>{depth ? `${distance(depth.near_mm)}, ${distance(depth.far_mm)}` : '–'}</td>}
                </tr>
              );
            })}
          </tbody>
        </table>
      </div>
    </>
  );
}

export function Focus() {
  const { report, words } = bench.good.value!;
  const r = report.register;
  const all = report.depth_of_field.stops;
  const chosen = all.find((s) => s.f_number === (stop.value ?? report.focus.f_number)) ?? all[0];
  return (
    <>
      <h2>Where the sharp picture lies</h2>
      <dl class="figures">
        <div>
          <dt>infinity reached, odds</dt>
          <dd>{odds(r.odds_infinity)}</dd>
        </div>
        {r.give_mm === undefined ? (
          <div>
            <dt>farthest and nearest focus</dt>
            <dd>
              {distance(r.farthest_focus_mm)}, {distance(r.nearest_focus_mm)}
            </dd>
          </div>
        ) : (
          <SharpFrom stop={chosen} />
        )}
        <div>
          <dt>depth of focus at f/{report.focus.f_number}, to one side</dt>
          <dd>{mm(report.focus.depth_of_focus_mm, 2)}</dd>
        </div>
        <div>
          <dt>film off the sharp plane</dt>
          <dd>
            {report.focus.plane_error_mm.toFixed(2)} mm <small>u {report.focus.plane_error_mm_u.toFixed(2)}</small>
          </dd>
        </div>
        <div>
          <dt>infinity sharp, odds</dt>
          <dd>{odds(report.focus.odds_sharp)}</dd>
        </div>
      </dl>
      {r.give_mm === undefined && <Marks chosen={chosen} />}
      {all.length > 0 && (
        <div class="row">
          <label>
            stop{' '}
            <select value={chosen.f_number} onChange={(e) => (stop.value = Number(e.currentTarget.value))}>
              {all.map((s) => (
                <option key={s.f_number} value={s.f_number}>
                  f/{s.f_number}
                </option>
              ))}
            </select>
          </label>
          <span>
            hyperfocal distance {distance(chosen.hyperfocal_mm)}, for a blur of {mm(report.depth_of_field.circle_mm, 2)}
          </span>
        </div>
      )}
      <Bars title="What the doubt in the set-back is made of" shares={r.set_back_budget} />
      <Bars title="What the doubt in the film's plane is made of" shares={report.focus.plane_error_budget} />
      <InWords text={words?.report} />
    </>
  );
}

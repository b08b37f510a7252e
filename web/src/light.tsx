// SPDX-License-Identifier: MIT
// Times for the light there is, and the flash's ladder of stops and distances.
import { signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import * as bench from './bench';
import type { Exposure } from './answers';
import { errand, keyOfTexts } from './errands';
import { InWords, distance, time } from './words';

// In brackets what the shutter has no speed for.
function set(e: Exposure): string {
  if (e.too_fast) return 'too bright';
  if (e.no_speed) return `(${time(e.time_s)})`;
  return time(e.marked_s ?? e.time_s);
}

// "2.9", "118": the figures that an index can mean.
function indexWords(index: number): string {
  return index < 100 ? String(Number(index.toPrecision(2))) : index.toFixed(0);
}

interface Metered {
  metered: { subject_mm: number | null; exposures: Exposure[]; factors: { name: string; stops: number }[] } | null;
}

const ev = signal(12);
const metres = signal(''); // to the subject; empty: the plan's
const metering = errand<Metered>('/api/metered', false);

// A reading of the meter, answered while it is turned.
function Meter() {
  const key = `${keyOfTexts()} ${ev.value} ${metres.value}`;
  useEffect(() => {
    if (metering.asked !== key) void metering.start({ ...bench.texts.peek(), ev_100: ev.value, subject_mm: 1000 * Number(metres.value.replace(',', '.')) || 0 }, key);
  }, [key]);
  const answer = metering.state.value.answer?.metered;
  return (
    <section aria-label="A meter reading">
      <h3>A meter reading</h3>
      <div class="row keep">
        <label class="winder">
          EV at ISO 100 <input type="range" min="0" max="18" step="0.25" value={ev.value} onInput={(e) => (ev.value = e.currentTarget.valueAsNumber)} />
          <output>{ev.value.toFixed(2)}</output>
        </label>
        <label>
          subject, m{' '}
          <input type="text" inputMode="decimal" size={5} value={metres.value} placeholder="plan's" onInput={(e) => (metres.value = e.currentTarget.value)} />
        </label>
      </div>
      {answer && (
        <>
          <dl class="figures">
            {answer.exposures.map((e) => (
              <div key={e.f_number}>
                <dt>f/{e.f_number}</dt>
                <dd>{set(e)}</dd>
              </div>
            ))}
          </dl>
          <p class="lead">
            Subject {answer.subject_mm === null ? 'far away' : `at ${distance(answer.subject_mm)}`}
            {answer.factors.map((c) => `, ${c.name} ${c.stops >= 0 ? '+' : '−'}${Math.abs(c.stops).toFixed(2)} stop`).join('')}. In brackets: the shutter has no such speed.
          </p>
        </>
      )}
    </section>
  );
}

export function LightSheet() {
  const { exposure, flash, words } = bench.good.value!;
  if (!exposure) {
    return (
      <>
        <h2>Light and times</h2>
        <p class="lead">The conversion says nothing of what is loaded. Add this at its end, with the emulsion you have:</p>
        <pre>{'[exposure]\nemulsion = "cubic-400-british"'}</pre>
      </>
    );
  }
  return (
    <>
      <h2>
        Light and times on {exposure.emulsion}, index {indexWords(exposure.index_in_light)}
      </h2>
      <p class="lead">
        What to set, for a far subject.{' '}
        {exposure.corrections_far.map((c) => `${c.name} ${c.stops >= 0 ? '+' : '−'}${Math.abs(c.stops).toFixed(2)} stop`).join(', ')}
      </p>
      <div class="wide" tabIndex={0} role="region" aria-label="Times">
        <table>
          <thead>
            <tr>
              <th scope="col">light</th>
              <th scope="col">EV at 100</th>
              {exposure.light_rows[0]?.exposures.map((e) => (
                <th scope="col" key={e.f_number}>
                  f/{e.f_number}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {exposure.light_rows.map((r) => (
              <tr key={r.condition}>
                <td title={r.name}>{r.condition}</td>
                <td>{r.ev_100.toFixed(1)}</td>
                {r.exposures.map((e) => (
                  <td key={e.f_number}>{set(e)}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <Meter />
      {flash && (
        <>
          <h3>
            {flash.flash}, rated guide number {flash.rated_guide_number_m.toFixed(0)} m
          </h3>
          {flash.rows.map((r, i) => (
            <Ladder key={i} row={r} />
          ))}
          {flash.notes.concat(flash.cautions).map((n) => (
            <p class="lead" key={n}>
              {n}
            </p>
          ))}
        </>
      )}
      <InWords text={[words?.exposure, words?.flash].filter(Boolean).join('\n')} />
    </>
  );
}

// Distances on a ladder that doubles with equal steps, as the stops do.
function Ladder(p: { row: NonNullable<NonNullable<typeof bench.good.value>['flash']>['rows'][number] }) {
  const rungs = p.row.ladder.filter((l) => l.distance_mm !== null);
  if (rungs.length === 0) return null;
  const far = Math.max(...rungs.map((l) => l.distance_mm!));
  const near = Math.min(...rungs.map((l) => l.distance_mm!));
  const x = (d: number) => 40 + (far > near ? Math.log(d / near) / Math.log(far / near) : 0) * 520;
  const speed = p.row.speed_s === null ? 'any speed' : time(p.row.speed_s) + (p.row.or_slower ? ' or slower' : '');
  const say = rungs.map((l) => `f/${l.f_number} at ${distance(l.distance_mm)}`).join(', ');
  return (
    <div class="wide">
      <svg width="600" height="70" viewBox="0 0 600 70" role="img" aria-label={`${speed}, guide number ${p.row.guide_number_m.toFixed(1)} m: ${say}`}>
        <text x="4" y="12">
          {speed}, guide number {p.row.guide_number_m.toFixed(1)} m on this film
        </text>
        <line x1={x(near)} x2={x(far)} y1="42" y2="42" stroke="var(--ink)" stroke-width="2" />
        {rungs.map((l) => (
          <g key={l.f_number}>
            <line x1={x(l.distance_mm!)} x2={x(l.distance_mm!)} y1="36" y2="48" stroke="var(--ink)" stroke-width="2" />
            <text x={x(l.distance_mm!)} y="31" text-anchor="middle">
              f/{l.f_number}
            </text>
            <text x={x(l.distance_mm!)} y="63" text-anchor="middle">
              {distance(l.distance_mm)}
            </text>
          </g>
        ))}
      </svg>
    </div>
  );
}

// SPDX-License-Identifier: MIT
// The photocell-timed shutter: its speeds with resistors against the marks.
import { Again, Working, useAnswer } from './asked';
import * as bench from './bench';
import { Recordings } from './recordings';
import { InWords, odds, time } from './words';

interface Speed {
  marked_s: number;
  lack: string | null;
  why?: string;
  parts_kohm?: number[];
  joint?: string;
  resistance_kohm?: number;
  time_s?: number;
  error_stops?: number;
  worst_under_stops?: number;
  worst_over_stops?: number;
  odds?: number;
}
interface Answer {
  timer: { allowed_stops: number; wiring: string; values: string; speeds: Speed[] } | null;
  words?: Record<string, string>;
}

const kohm = (r: number) => String(Number(r.toPrecision(3)));

export function Shutter() {
  return (
    <>
      <h2>Shutter</h2>
      <Timer />
      <Recordings />
    </>
  );
}

function Timer() {
  const there = bench.good.value?.has?.timer ?? false;
  const { answer, errand } = useAnswer<Answer>('/api/timer', true, there);
  if (!there) {
    return (
      <>
        <p class="lead">
          Nothing is said of a photocell that times this shutter. Where it has one: write timing = "photocell" under [shutter] in the camera file and, under
          [shutter.timer], the times that trial resistors gave.
        </p>
      </>
    );
  }
  const t = answer?.timer;
  if (!t) {
    return (
      <>
        <Working errand={errand} />
        <Again errand={errand} />
      </>
    );
  }
  const x = (e: number) => 80 + Math.max(-0.5, Math.min(0.5, e)) * 150;
  const row = 24;
  return (
    <>
      <h3>Speeds with resistors, against their marks</h3>
      <p class="lead">
        {t.wiring}, {t.values}; the pale band is the ± {t.allowed_stops.toFixed(2)} stop that a speed may be off.
      </p>
      <Working errand={errand} />
      <div class="wide" tabIndex={0} role="region" aria-label="Speeds">
        <table>
          <thead>
            <tr>
              <th scope="col">mark</th>
              <th scope="col">resistors, kΩ</th>
              <th scope="col">together</th>
              <th scope="col">gives</th>
              <th scope="col">off, stops</th>
              <th scope="col" class="left">
                short, worst cases, long
              </th>
              <th scope="col">odds</th>
            </tr>
          </thead>
          <tbody>
            {t.speeds.map((s) => (
              <tr key={s.marked_s}>
                <td>{time(s.marked_s)}</td>
                {s.lack ? (
                  <td colSpan={6} class="reason">
                    {s.lack}: {s.why}
                  </td>
                ) : (
                  <>
                    <td>{t.wiring === 'chain' && s.parts_kohm!.length > 1 ? `… + ${kohm(s.parts_kohm!.at(-1)!)}` : s.parts_kohm!.map(kohm).join(s.joint === 'parallel' ? ' ∥ ' : ' + ')}</td>
                    <td>{kohm(s.resistance_kohm!)}</td>
                    <td>{s.time_s! < 0.1 ? `${(s.time_s! * 1000).toFixed(1)} ms` : time(s.time_s)}</td>
                    <td>{s.error_stops!.toFixed(2)}</td>
                    <td class="picture">
                      <svg width="160" height={row} viewBox={`0 0 160 ${row}`} aria-hidden="true">
                        <rect x={x(-t.allowed_stops)} width={x(t.allowed_stops) - x(-t.allowed_stops)} y="3" height={row - 6} fill="var(--mark-pale)" />
                        <line x1={x(0)} x2={x(0)} y1="3" y2={row - 3} stroke="var(--faint)" />
                        <line x1={x(s.worst_under_stops!)} x2={x(s.worst_over_stops!)} y1={row / 2} y2={row / 2} stroke="var(--ink)" stroke-width="2" />
                        <circle cx={x(s.error_stops!)} cy={row / 2} r="4" fill="var(--mark)" />
                      </svg>
                    </td>
                    <td>{odds(s.odds!)}</td>
                  </>
                )}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <InWords text={answer?.words?.timer} />
    </>
  );
}

// SPDX-License-Identifier: MIT
// The film's way through an insert, in section, wound from the roll's start to its end.
import { signal } from '@preact/signals';
import { Again, Working, useAnswer } from './asked';
import { useEffect } from 'preact/hooks';
import type { Message, Report } from './answers';
import * as bench from './bench';
import { MeasureNext, type Measurement } from './measure';
import { InWords, mm } from './words';

type Point = [number, number];
interface Round {
  centre_mm: Point;
  radius_mm: number;
}
interface State {
  name: string;
  turns: number;
  supply: Round;
  take_up: Round;
  film_mm: Point[];
  tensions_n: number[];
  knob_torque_n_mm: number;
}
interface Scene {
  body: {
    room_mm: [Point, Point];
    wall_mm: number;
    plate_mm: [Point, Point];
    rails_mm: [Point, Point][];
    light_mm: [Point, Point];
    in_the_way: { name: string; comes_out: boolean; corners_mm: Point[] }[];
    guides: (Round & { turning: boolean })[];
    core_mm: number;
    flange_mm: number;
  };
  states: State[];
  clearances: { between: string; and: string; gap_mm: number }[];
}
interface Answer {
  messages?: { messages: Message[] };
  path: { verdict: string; findings: { weight: string; text: string; remedies: string[] }[]; to_measure: { key: string; how: string }[] } | null;
  winding?: Scene | null;
  report?: Report | null;
  measure?: Measurement[];
  words?: Record<string, string>;
}

const at = signal(1);

function Section(p: { scene: Scene; state: State }) {
  const { body } = p.scene;
  const [low, high] = body.room_mm;
  const left = low[0] - body.wall_mm - 4;
  const right = high[0] + body.wall_mm + 4;
  const top = high[1] + body.wall_mm + 4;
  const bottom = Math.min(low[1], -10) - 4;
  // The section's z points up the page: the back above, the lens below.
  const y = (z: number) => -z;
  const list = (q: Point[]) => q.map(([x, z]) => `${x},${y(z)}`).join(' ');
  const box = ([a, b]: [Point, Point], props: Record<string, string | number>) => <rect x={a[0]} y={y(b[1])} width={b[0] - a[0]} height={b[1] - a[1]} {...props} />;
  const [edge, pupil] = body.light_mm;
  const part = (bottom - edge[1]) / (pupil[1] - edge[1]);
  const out = edge[0] + part * (pupil[0] - edge[0]);
  const thin = { fill: 'none', stroke: 'var(--ink)', 'stroke-width': 0.3 };
  const roll = (r: Round, name: string) => (
    <g>
      <circle cx={r.centre_mm[0]} cy={y(r.centre_mm[1])} r={body.flange_mm} {...thin} stroke-dasharray="1.5 1" />
      <circle cx={r.centre_mm[0]} cy={y(r.centre_mm[1])} r={r.radius_mm} fill="var(--rule)" stroke="var(--ink)" stroke-width="0.3" />
      <circle cx={r.centre_mm[0]} cy={y(r.centre_mm[1])} r={body.core_mm} fill="var(--sheet)" stroke="var(--ink)" stroke-width="0.3" />
      <text class="small" x={r.centre_mm[0]} y={y(r.centre_mm[1]) + 0.8} text-anchor="middle">
        {name}
      </text>
    </g>
  );
  return (
    <svg
      class="section"
      viewBox={`${left} ${-top} ${right - left} ${top - bottom}`}
      role="img"
      aria-label={`Section through the insert at ${p.state.name}: supply roll ${mm(p.state.supply.radius_mm)} in radius, take-up roll ${mm(p.state.take_up.radius_mm)}`}
    >
      <path
        d={`M${low[0]},${y(low[1])}h${-body.wall_mm}V${y(high[1] + body.wall_mm)}H${high[0] + body.wall_mm}V${y(low[1])}h${-body.wall_mm}V${y(high[1])}H${low[0]}Z`}
        fill="var(--mark-pale)"
        stroke="var(--ink)"
        stroke-width="0.3"
      />
      <polygon points={list([[-edge[0], edge[1]], [-out, bottom], [out, bottom], edge])} fill="#e8c65a" opacity="0.35" />
      {body.in_the_way.map((k) => (
        <polygon key={k.name} points={list(k.corners_mm)} fill={k.comes_out ? 'none' : 'var(--rule)'} stroke="var(--ink)" stroke-width="0.3" stroke-dasharray={k.comes_out ? '1 1' : undefined}>
          <title>{k.comes_out ? `${k.name}, comes out` : k.name}</title>
        </polygon>
      ))}
      {box(body.plate_mm, { fill: 'var(--rule)', stroke: 'var(--ink)', 'stroke-width': 0.3 })}
      {body.rails_mm.map((r, i) => box(r, { key: i, fill: 'var(--mark-pale)', stroke: 'var(--ink)', 'stroke-width': 0.3 }))}
      {roll(p.state.supply, 'supply')}
      {roll(p.state.take_up, 'take-up')}
      {body.guides.map((g, i) => (
        <circle key={i} cx={g.centre_mm[0]} cy={y(g.centre_mm[1])} r={g.radius_mm} fill={g.turning ? 'var(--sheet)' : 'var(--rule)'} stroke="var(--ink)" stroke-width="0.3" />
      ))}
      <polyline points={list(p.state.film_mm)} fill="none" stroke="var(--red)" stroke-width="0.7" stroke-linejoin="round" />
    </svg>
  );
}

function Lacking({ messages }: { messages: Message[] }) {
  return (
    <>
      <p class="lead">The files do not say enough yet to look for the film's way:</p>
      <ul class="findings">
        {messages
          .filter((m) => m.severity === 'error')
          .map((m) => (
            <li key={m.text}>
              {m.text}
              {m.help && <p class="faint">{m.help}</p>}
            </li>
          ))}
      </ul>
    </>
  );
}

export function Winding() {
  const there = bench.good.value?.has?.path ?? false;
  const { answer, errand, fresh } = useAnswer<Answer>('/api/path', true, there);
  useEffect(() => {
    if (fresh && answer?.report) bench.addWay(answer.report, answer.words);
  }, [answer, fresh]);
  if (!there) {
    return (
      <>
        <h2>Winding</h2>
        <p class="lead">Film is wound in an insert in the chamber; this conversion loads {bench.good.value?.report.film} otherwise.</p>
      </>
    );
  }
  if (!answer) {
    return (
      <>
        <h2>The film's way through the insert</h2>
        <Working errand={errand} />
        <Again errand={errand} />
        <p class="lead">Many layouts are tried; that may take half a minute. The other sheets work meanwhile.</p>
      </>
    );
  }
  const scene = answer.winding;
  const state = scene?.states[Math.min(at.value, scene.states.length - 1)];
  const tensions = state?.tensions_n ?? [];
  return (
    <>
      <h2>The film's way through the insert</h2>
      <Working errand={errand} />
      <Again errand={errand} />
      {!answer.path && <Lacking messages={answer.messages?.messages ?? []} />}
      <MeasureNext list={answer.measure ?? answer.path?.to_measure} />
      {scene && state && (
        <>
          <div class="row keep">
            <label class="winder">
              wound to{' '}
              <input
                type="range"
                min="0"
                max={scene.states.length - 1}
                step="1"
                value={Math.min(at.value, scene.states.length - 1)}
                aria-valuetext={state.name}
                onInput={(e) => (at.value = e.currentTarget.valueAsNumber)}
              />
            </label>
            <output>
              {state.name}, {state.turns.toFixed(2)} turns
            </output>
          </div>
          <Section scene={scene} state={state} />
          <dl class="figures">
            <div>
              <dt>knob torque</dt>
              <dd>{state.knob_torque_n_mm.toFixed(1)} N mm</dd>
            </div>
            <div>
              <dt>tension of the film, supply to take-up</dt>
              <dd>
                {Math.min(...tensions).toFixed(2)} to {Math.max(...tensions).toFixed(2)} N
              </dd>
            </div>
            <div>
              <dt>rolls, radius</dt>
              <dd>
                {state.supply.radius_mm.toFixed(1)} and {mm(state.take_up.radius_mm)}
              </dd>
            </div>
          </dl>
          <h3>Least clearances</h3>
          <div class="wide" tabIndex={0} role="region" aria-label="Clearances">
            <table>
              <thead>
                <tr>
                  <th scope="col">between</th>
                  <th scope="col" class="left">
                    and
                  </th>
                  <th scope="col">gap</th>
                </tr>
              </thead>
              <tbody>
                {scene.clearances.map((c, i) => (
                  <tr key={i}>
                    <td>{c.between}</td>
                    <td class="left">{c.and}</td>
                    <td>{mm(c.gap_mm, 2)}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
        </>
      )}
      {answer.path && (
        <ul class="findings">
          {answer.path.findings.map((f, i) => (
            <li key={i}>
              <span class={`sev ${f.weight}`}>{f.weight}</span> {f.text}
              {f.remedies.length > 0 && (
                <ul>
                  {f.remedies.map((r) => (
                    <li key={r}>{r}</li>
                  ))}
                </ul>
              )}
            </li>
          ))}
        </ul>
      )}
      <InWords text={answer.words?.path} />
    </>
  );
}

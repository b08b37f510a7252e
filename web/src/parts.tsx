// SPDX-License-Identifier: MIT
// The parts where they sit in the camera, with both film planes and the light, to turn about and to
// measure on.
import { computed, signal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { Again, Working, useAnswer } from './asked';
import { errand } from './errands';
import { axes, between, facesIn, type Face } from './faces';
import type { LeakAnswer } from './leaks';
import { MeasureNext, type Measurement } from './measure';
import type { Hit, Model, PartsScene } from './model';
import { mm } from './words';

interface Answer {
  parts: PartsScene | null;
  failure?: string;
  measure?: Measurement[];
}

const apart = signal(0);
const axis = signal<0 | 1 | 2>(0);
const cut = signal(1); // share of what is there that stays
const solid = signal(true);
const byFaces = signal(true);
const chosen = signal<[string, string]>(['', '']); // faces
const hits = signal<Hit[]>([]); // places, two at most
const waysShown = signal(true);
const leaks = errand<LeakAnswer>('/api/leak');

const ways = computed(() => (waysShown.value ? (leaks.state.value.answer?.leak?.ways ?? []).map((w) => w.points_mm ?? []) : []));

function extent(faces: Face[]): [number, number][] {
  return [0, 1, 2].map((k) => {
    let [low, high] = [Infinity, -Infinity];
    for (const f of faces) {
      for (let i = k; i < f.corners.length; i += 3) {
        low = Math.min(low, f.corners[i]);
        high = Math.max(high, f.corners[i]);
      }
    }
    return [low, high];
  });
}

const said = (h: Hit) => `${h.of}, ${h.corner ? 'corner' : 'surface'} at ${h.place.map((x) => x.toFixed(2)).join(', ')} mm`;

function pointsSay(): string {
  const [a, b] = hits.value;
  if (!a) return 'Click on a part, or turn it and press Enter: what stands in the middle is taken. Corners are taken where one is near.';
  if (!b) return `First: ${said(a)}. Now the second.`;
  const d = b.place.map((x, i) => x - a.place[i]);
  return `${Math.hypot(...d).toFixed(2)} mm from ${said(a)} to ${said(b)}: ${d.map((x, i) => `${x.toFixed(2)} mm along ${axes[i]}`).join(', ')}.`;
}

function Turntable(p: { scene: PartsScene; faces: Face[] }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const model = useRef<Model | null>(null);
  const trouble = useRef<HTMLParagraphElement>(null);
  const pressed = useRef<[number, number] | null>(null);
  const range = extent(p.faces)[axis.value];
  const marked = () => (byFaces.value ? chosen.value.map((id) => p.faces.find((f) => f.id === id)).filter((f) => f !== undefined) : []);
  const settle = () => {
    const m = model.current;
    if (!m) return;
    m.apart(apart.value);
    m.cutAt(axis.value, cut.value >= 1 ? 1e4 : range[0] + cut.value * (range[1] - range[0]));
    m.shade(solid.value, getComputedStyle(document.body).color);
    m.mark(marked(), byFaces.value ? [] : hits.value);
    m.lightWays(ways.value);
  };
  useEffect(() => {
    let gone = false;
    void import('./model').then(({ Model }) => {
      if (gone) return;
      try {
        model.current = new Model(canvas.current!, p.scene);
        settle();
      } catch {
        trouble.current!.textContent = 'This browser draws no solids (no WebGL); the tables say what there is, and faces can be measured by their names.';
      }
    });
    const resized = () => model.current?.draw();
    addEventListener('resize', resized);
    return () => {
      gone = true;
      removeEventListener('resize', resized);
      model.current?.close();
      model.current = null;
    };
  }, [p.scene]);
  useEffect(settle);

  const pick = (x: number, y: number) => {
    const hit = model.current?.at(x, y);
    if (!hit) return;
    if (!byFaces.value) {
      hits.value = hits.value.length === 1 ? [hits.value[0], hit] : [hit];
      return;
    }
    const along = hit.normal.findIndex((n) => Math.abs(n) > 0.99);
    const face = p.faces.find((f) => f.of === hit.of && f.axis === along && Math.abs(f.at - hit.place[along]) < 0.05);
    if (!face) return;
    const [a, b] = chosen.value;
    chosen.value = a && !b ? [a, face.id] : [face.id, ''];
  };
  const step = 0.12;
  const keys: Record<string, (e: KeyboardEvent) => void> = {
    ArrowLeft: (e) => (e.shiftKey ? model.current?.shift(-0.05, 0) : model.current?.turn(-step, 0)),
    ArrowRight: (e) => (e.shiftKey ? model.current?.shift(0.05, 0) : model.current?.turn(step, 0)),
    ArrowUp: (e) => (e.shiftKey ? model.current?.shift(0, 0.05) : model.current?.turn(0, step)),
    ArrowDown: (e) => (e.shiftKey ? model.current?.shift(0, -0.05) : model.current?.turn(0, -step)),
    '+': () => model.current?.nearer(1.15),
    '-': () => model.current?.nearer(1 / 1.15),
    Enter: () => pick(canvas.current!.clientWidth / 2, canvas.current!.clientHeight / 2),
  };
  const pieces = p.scene.pieces.map((x) => x.name).join(', ') || 'no parts yet';
  const at = range[0] + cut.value * (range[1] - range[0]);
  return (
    <>
      <div class="row">
        <label class="winder">
          apart <input type="range" min="0" max="1" step="0.02" value={apart.value} onInput={(e) => (apart.value = e.currentTarget.valueAsNumber)} />
        </label>
        <label>
          cut across{' '}
          <select value={axis.value} onChange={(e) => (axis.value = Number(e.currentTarget.value) as 0 | 1 | 2)}>
            <option value="0">x, from the right</option>
            <option value="1">y, from the top</option>
            <option value="2">z, from the back</option>
          </select>
        </label>
        <label class="winder">
          at{' '}
          <input
            type="range"
            min="0"
            max="1"
            step="0.01"
            value={cut.value}
            aria-label="cut at"
            aria-valuetext={cut.value >= 1 ? 'whole' : `${axes[axis.value]} ${mm(at)}`}
            onInput={(e) => (cut.value = e.currentTarget.valueAsNumber)}
          />
          <output>{cut.value >= 1 ? 'whole' : mm(at)}</output>
        </label>
        <label>
          <input type="checkbox" checked={!solid.value} onChange={(e) => (solid.value = !e.currentTarget.checked)} /> edges only
        </label>
        <span>
          <button class="button" onClick={() => model.current?.nearer(1.3)}>
            Nearer
          </button>{' '}
          <button class="button" onClick={() => model.current?.nearer(1 / 1.3)}>
            Farther
          </button>
        </span>
        {(leaks.state.value.answer?.leak?.ways?.length ?? 0) > 0 && (
          <label>
            <input type="checkbox" checked={waysShown.value} onChange={(e) => (waysShown.value = e.currentTarget.checked)} /> ways of leaking light
          </label>
        )}
      </div>
      <p ref={trouble} class="label hint">
        Drag or arrow keys turn it, Shift with arrows moves it, the wheel or + and − bring it nearer; a click or Enter picks.
      </p>
      <div class="stage">
        <canvas
          ref={canvas}
          class="model"
          tabIndex={0}
          role="img"
          aria-label={`The film planes, the light and the parts in the camera: ${pieces}; the tables below say the same`}
          onKeyDown={(e) => {
            const act = keys[e.key];
            if (!act || e.altKey || e.ctrlKey) return;
            e.preventDefault();
            act(e);
          }}
          onPointerDown={(e) => {
            e.currentTarget.setPointerCapture(e.pointerId);
            pressed.current = [e.clientX, e.clientY];
          }}
          onPointerMove={(e) => e.buttons && model.current?.turn(-e.movementX * 0.008, e.movementY * 0.008)}
          onPointerUp={(e) => {
            const from = pressed.current;
            pressed.current = null;
            if (!from || Math.hypot(e.clientX - from[0], e.clientY - from[1]) > 4) return;
            const box = e.currentTarget.getBoundingClientRect();
            pick(e.clientX - box.left, e.clientY - box.top);
          }}
          onWheel={(e) => {
            e.preventDefault();
            model.current?.nearer(e.deltaY < 0 ? 1.1 : 1 / 1.1);
          }}
        />
        <svg class="aim" width="22" height="22" viewBox="0 0 22 22" aria-hidden="true">
          <path d="M11 1v8M11 13v8M1 11h8M13 11h8" fill="none" stroke="var(--red)" stroke-width="1.5" />
        </svg>
      </div>
    </>
  );
}

function Distance(p: { faces: Face[] }) {
  const groups = new Map<string, Face[]>();
  for (const f of p.faces) groups.set(f.of, [...(groups.get(f.of) ?? []), f]);
  const list = (name: string, i: 0 | 1) => (
    <label>
      {name}{' '}
      <select
        class="faces"
        aria-label={`${name} the face`}
        value={chosen.value[i]}
        onChange={(e) => {
          const id = e.currentTarget.value;
          chosen.value = i === 0 ? [id, chosen.value[1]] : [chosen.value[0], id];
        }}
      >
        <option value="">–</option>
        {[...groups].map(([of, faces]) => (
          <optgroup key={of} label={of}>
            {faces.map((f) => (
              <option key={f.id} value={f.id}>
                {f.of.startsWith('planes') ? f.name : `${of}: ${f.name}`}
              </option>
            ))}
          </optgroup>
        ))}
      </select>
    </label>
  );
  const [a, b] = chosen.value.map((id) => p.faces.find((f) => f.id === id));
  const says = !byFaces.value
    ? pointsSay()
    : a && b
      ? between(a, b).says
      : a || b
        ? 'Now the other face: from the list, or by a click.'
        : 'Two faces square to an axis, from the lists or by clicks: the distance between them.';
  return (
    <section aria-label="Distances">
      <h3>Distance</h3>
      <div class="row">
        <fieldset>
          <legend>between</legend>
          <label>
            <input type="radio" name="between" checked={byFaces.value} onChange={() => (byFaces.value = true)} /> faces
          </label>{' '}
          <label>
            <input type="radio" name="between" checked={!byFaces.value} onChange={() => (byFaces.value = false)} /> points
          </label>
        </fieldset>
        {byFaces.value && list('from', 0)}
        {byFaces.value && list('to', 1)}
        <button
          class="button"
          onClick={() => {
            chosen.value = ['', ''];
            hits.value = [];
          }}
        >
          Clear
        </button>
      </div>
      <p role="status" class="distance">
        {says}
      </p>
    </section>
  );
}

const facesOf = new WeakMap<PartsScene, Face[]>();

export function PartsSheet() {
  const { answer, errand: it } = useAnswer<Answer>('/api/parts', true);
  const scene = answer?.parts;
  if (scene && !facesOf.has(scene)) facesOf.set(scene, facesIn(scene));
  const faces = scene ? facesOf.get(scene)! : [];
  return (
    <>
      <h2>Parts in the camera</h2>
      <Working errand={it} />
      <Again errand={it} />
      {answer?.failure && <p class="sev error">{answer.failure}</p>}
      <MeasureNext list={answer?.measure} title="Measure next, for what can't be made yet" />
      {scene && (
        <>
          {scene.pieces.length === 0 && <p class="lead">No part can be made yet, or this conversion needs none; the findings say why.</p>}
          <Turntable scene={scene} faces={faces} />
          <Distance faces={faces} />
          <div class="row tables">
            {scene.pieces.length > 0 && (
              <table>
                <caption>Parts, along x, y and z</caption>
                <tbody>
                  {scene.pieces.map((x, i) => (
                    <tr key={x.name}>
                      <th scope="row">
                        <svg width="12" height="12" aria-hidden="true">
                          <rect width="12" height="12" class={`tint${i % 8}`} />
                        </svg>{' '}
                        {x.count > 1 ? `${x.count} × ${x.name}` : x.name}
                      </th>
                      <td>{x.size_mm.map((s) => s.toFixed(1)).join(' × ')} mm</td>
                    </tr>
                  ))}
                </tbody>
              </table>
            )}
            {(scene.in_the_way?.length ?? 0) > 0 && (
              <table>
                <caption>In the way, framed in the picture</caption>
                <tbody>
                  {scene.in_the_way!.map((x) => (
                    <tr key={x.name}>
                      <th scope="row">{x.name}</th>
                      <td>{x.comes_out ? 'comes out (dotted)' : 'stays: the insert is notched round it (red)'}</td>
                      <td>{x.high_mm.map((h, i) => (h - x.low_mm[i]).toFixed(1)).join(' × ')} mm</td>
                    </tr>
                  ))}
                </tbody>
              </table>
            )}
            <table>
              <caption>Planes square to the axis, z behind the original film</caption>
              <tbody>
                {scene.planes.map((x) => (
                  <tr key={x.name}>
                    <th scope="row">{x.name}</th>
                    <td>
                      {x.width_mm.toFixed(1)} × {mm(x.height_mm)}
                    </td>
                    <td>{mm(x.z_mm, 2)}</td>
                  </tr>
                ))}
                <tr>
                  <th scope="row">exit pupil</th>
                  <td>⌀ {mm(2 * scene.pupil.radius_mm)}</td>
                  <td>{mm(scene.pupil.z_mm, 2)}</td>
                </tr>
              </tbody>
            </table>
          </div>
        </>
      )}
    </>
  );
}

// SPDX-License-Identifier: MIT
// The parts where they sit in the camera, with both film planes and the light, to turn about.
import { useEffect, useRef } from 'preact/hooks';
import { Working, useAnswer } from './asked';
import type { Model, PartsScene } from './model';
import { mm } from './words';

interface Answer {
  parts: PartsScene | null;
  failure?: string;
}

function Turntable(p: { scene: PartsScene }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const model = useRef<Model | null>(null);
  const trouble = useRef<HTMLParagraphElement>(null);
  useEffect(() => {
    let gone = false;
    void import('./model').then(({ Model }) => {
      if (gone) return;
      try {
        model.current = new Model(canvas.current!, p.scene);
        model.current.draw();
      } catch {
        trouble.current!.textContent = 'This browser draws no solids (no WebGL); the table says what there is.';
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
  const step = 0.12;
  const keys: Record<string, () => void> = {
    ArrowLeft: () => model.current?.turn(-step, 0),
    ArrowRight: () => model.current?.turn(step, 0),
    ArrowUp: () => model.current?.turn(0, step),
    ArrowDown: () => model.current?.turn(0, -step),
    '+': () => model.current?.nearer(1.15),
    '-': () => model.current?.nearer(1 / 1.15),
  };
  const pieces = p.scene.pieces.map((x) => x.name).join(', ') || 'no parts yet';
  return (
    <>
      <div class="row">
        <label class="winder">
          apart <input type="range" min="0" max="1" step="0.02" value="0" onInput={(e) => model.current?.apart(e.currentTarget.valueAsNumber)} />
        </label>
        <label class="winder">
          cut{' '}
          <input
            type="range"
            min="-100"
            max="100"
            step="1"
            value="100"
            aria-label="cut away from the right"
            onInput={(e) => model.current?.cutAt(e.currentTarget.valueAsNumber)}
          />
        </label>
      </div>
      <p ref={trouble} class="label">
        Drag or arrow keys turn it, the wheel or + and − bring it nearer.
      </p>
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
          act();
        }}
        onPointerDown={(e) => e.currentTarget.setPointerCapture(e.pointerId)}
        onPointerMove={(e) => e.buttons && model.current?.turn(-e.movementX * 0.008, e.movementY * 0.008)}
        onWheel={(e) => {
          e.preventDefault();
          model.current?.nearer(e.deltaY < 0 ? 1.1 : 1 / 1.1);
        }}
      />
    </>
  );
}

export function PartsSheet() {
  const { answer, seconds } = useAnswer<Answer>('/api/parts', true);
  const scene = answer?.parts;
  return (
    <>
      <h2>Parts in the camera</h2>
      <Working seconds={answer ? seconds : (seconds ?? 0)} />
      {answer?.failure && <p class="sev error">{answer.failure}</p>}
      {scene && (
        <>
          {scene.pieces.length === 0 && <p class="lead">No part can be made yet, or this conversion needs none; the findings say why.</p>}
          <Turntable scene={scene} />
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

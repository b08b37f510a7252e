// SPDX-License-Identifier: MIT
// The frame as the film sees it: how much light each place gets, what shadows it, what is cropped.
import { signal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import * as bench from './bench';
import { contour, between, type Grid } from './contours';
import { InWords, mm, odds, stops } from './words';

const darkest = 6; // stops that the picture tells apart
const fromBehind = signal(true);
const own = signal<ImageBitmap | null>(null);

export async function layInPicture(file: File | undefined) {
  own.value = file ? await createImageBitmap(file).catch(() => null) : null;
}

// Light as the film gets it: the sheet's own tones, a band each third of a stop.
function tone(loss: number): [number, number, number] {
  const band = Math.min(Math.floor(loss * 3) / 3, darkest);
  const light = 2 ** (-band / 2.2);
  return [255 * light ** 0.94, 250 * light, 228 * light ** 1.1].map(Math.round) as [number, number, number];
}

function paint(canvas: HTMLCanvasElement, g: Grid, mirrored: boolean, picture: ImageBitmap | null) {
  const c = canvas.getContext('2d')!;
  const { width, height } = canvas;
  const pixels = new ImageData(width, height);
  let under: Uint8ClampedArray | null = null;
  if (picture) {
    // Laid in as the lens throws it: the picture's own side is the subject's, seen upright.
    const scale = Math.max(width / picture.width, height / picture.height);
    const w = picture.width * scale;
    const h = picture.height * scale;
    c.drawImage(picture, (width - w) / 2, (height - h) / 2, w, h);
    under = c.getImageData(0, 0, width, height).data;
  }
  const [x0, x1] = [g.x[0], g.x[g.x.length - 1]];
  const [y0, y1] = [g.y[0], g.y[g.y.length - 1]];
  for (let j = 0; j < height; ++j) {
    const y = y1 + ((y0 - y1) * (j + 0.5)) / height;
    for (let i = 0; i < width; ++i) {
      const s = (i + 0.5) / width;
      const x = mirrored ? x1 + (x0 - x1) * s : x0 + (x1 - x0) * s;
      const loss = between(g, x, y);
      const at = 4 * (j * width + i);
      const t = under ? null : tone(loss);
      const light = under ? 2 ** (-Math.min(loss, 8) / 2.2) : 1;
      for (let k = 0; k < 3; ++k) pixels.data[at + k] = t ? t[k] : under![at + k] * light;
      pixels.data[at + 3] = 255;
    }
  }
  c.putImageData(pixels, 0, 0);
}

export function Frame() {
  const { report, cover, gate, words } = bench.good.value!;
  const f = report.frame;
  const canvas = useRef<HTMLCanvasElement>(null);
  const map = cover!.map;
  const grid: Grid = {
    x: map.x_mm,
    y: map.y_mm,
    z: map.loss_stops.map((row) => row.map((z) => (z === null ? darkest + 2 : Math.min(z, darkest + 2)))),
  };
  // Millimetres to pixels, with room around the film for what reaches past it.
  const wide = Math.max(f.window_width_mm, gate?.width_mm ?? 0) * 1.06;
  const high = Math.max(f.window_height_mm, gate?.height_mm ?? 0) * 1.06;
  const scale = Math.min(440 / wide, 520 / high, 6);
  const W = wide * scale;
  const H = high * scale;
  const flip = fromBehind.value ? 1 : -1;
  const to = (x: number, y: number): [number, number] => [W / 2 + flip * x * scale, H / 2 - y * scale];
  const inner = { w: Math.round(f.window_width_mm * scale), h: Math.round(f.window_height_mm * scale) };
  useEffect(() => paint(canvas.current!, grid, !fromBehind.value, own.value), [map, fromBehind.value, own.value, inner.w, inner.h]);
  const box = (w: number, h: number, p: Record<string, string | number>) => (
    <rect x={W / 2 - (w * scale) / 2} y={H / 2 - (h * scale) / 2} width={w * scale} height={h * scale} fill="none" {...p} />
  );
  const lines = {
    window: { stroke: 'var(--ink)', 'stroke-width': 2 },
    picture: { stroke: '#c4421a', 'stroke-width': 2 },
    clear: { stroke: '#c4421a', 'stroke-width': 1.5, 'stroke-dasharray': '2 4' },
    gate: { stroke: '#1461a8', 'stroke-width': 2, 'stroke-dasharray': '10 5' },
    circle: { stroke: 'var(--circle)', 'stroke-width': 1.5, 'stroke-dasharray': '10 3 2 3' },
  };
  const levels = [0.5, 1, 2, 3, 4].filter((l) => grid.z.some((r) => r.some((z) => z > l)));
  const key = (p: Record<string, string | number>, text: string) => (
    <div>
      <svg width="34" height="12" aria-hidden="true">
        <line x1="1" y1="6" x2="33" y2="6" {...p} />
      </svg>
      <span>{text}</span>
    </div>
  );
  const label = (level: number) => {
    // On the diagonal towards the lower right, where the line is crossed.
    for (let t = 0; t <= 1; t += 0.01) {
      const [x, y] = [(flip * t * f.window_width_mm) / 2, (-t * f.window_height_mm) / 2];
      if (between(grid, x, y) >= level) {
        const [px, py] = to(x, y);
        return (
          <text key={level} x={px - 4} y={py - 4} text-anchor="end" class="level">
            {level}
          </text>
        );
      }
    }
    return null;
  };
  const corner = map.loss_stops[0][0];
  const description =
    `The film's window is ${mm(f.window_width_mm)} wide and ${mm(f.window_height_mm)} high; ` +
    `the lit picture is ${f.picture_width_mm.toFixed(1)} × ${mm(f.picture_height_mm)}, cut by the ${f.limited_by || 'window'}; ` +
    `the window's corner loses ${corner === null ? 'all light' : `${stops(corner)} stops`}.`;
  return (
    <>
      <h2>The frame as the film sees it, at f/{map.f_number}</h2>
      <div class="row">
        <label>
          <input type="checkbox" checked={!fromBehind.value} onChange={(e) => (fromBehind.value = !e.currentTarget.checked)} /> seen from the lens,
          mirrored
        </label>
        <label>
          picture of mine laid in{' '}
          <input
            type="file"
            accept="image/*"
            onChange={(e) => void layInPicture(e.currentTarget.files?.[0])}
          />
        </label>
      </div>
      <div class="glass">
        <div class="plate">
          <canvas
            ref={canvas}
            width={inner.w}
            height={inner.h}
            aria-hidden="true"
            style={{ left: `${((W - inner.w) / 2 / W) * 100}%`, top: `${((H - inner.h) / 2 / H) * 100}%`, width: `${(inner.w / W) * 100}%` }}
          />
          <svg class="over" width={W} height={H} viewBox={`0 0 ${W} ${H}`} role="img" aria-label={description}>
            {levels.map((l) => (
              <path key={l} d={contour(grid, l, to)} fill="none" stroke="#4b4636" stroke-width={l % 1 ? 0.7 : 1.2} />
            ))}
            {levels.map(label)}
            <circle cx={W / 2} cy={H / 2} r={(report.coverage.circle_mm / 2) * scale} fill="none" {...lines.circle} />
            {box(f.window_width_mm, f.window_height_mm, lines.window)}
            {gate && box(gate.width_mm, gate.height_mm, lines.gate)}
            {box(f.without_shadow_width_mm, f.without_shadow_height_mm, lines.clear)}
            {box(f.picture_width_mm, f.picture_height_mm, lines.picture)}
          </svg>
        </div>
        <div class="key">
          {key(lines.window, `window before the film, ${f.window_width_mm.toFixed(1)} × ${mm(f.window_height_mm)}`)}
          {key(lines.picture, `lit picture, ${f.picture_width_mm.toFixed(1)} × ${mm(f.picture_height_mm)}${f.limited_by ? `, cut by the ${f.limited_by}` : ''}`)}
          {key(lines.clear, `without any shadow, ${f.without_shadow_width_mm.toFixed(1)} × ${mm(f.without_shadow_height_mm)}`)}
          {gate && key(lines.gate, `the old picture, ${gate.width_mm.toFixed(1)} × ${mm(gate.height_mm)}`)}
          {key(lines.circle, `image circle by ${report.coverage.grade}, ${mm(report.coverage.circle_mm, 0)}; covers the picture with odds ${odds(report.coverage.odds_covered)}`)}
          <p>
            Thin lines bear the light lost against the centre, in stops; the tone steps each third of a stop. {description}{' '}
            {report.handedness.laterally_reversed ? 'The finished picture is a mirror image.' : 'The finished picture reads right.'}
          </p>
        </div>
      </div>
      <InWords text={words?.cover} />
    </>
  );
}

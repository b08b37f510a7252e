// SPDX-License-Identifier: MIT
// Flat faces of bodies, to measure between: those square to an axis of the camera.
import type { PartsScene } from './model';

export interface Face {
  id: string;
  of: string; // the piece, or what the plane is
  name: string;
  axis: 0 | 1 | 2;
  at: number; // mm along that axis
  corners: number[]; // of its triangles or its outline, x y z each
  outline: boolean; // corners in pairs, as lines
}

export const axes = ['x', 'y', 'z'] as const;
const sides = [
  ['left', 'right'],
  ['bottom', 'top'],
  ['lens side', 'back side'],
] as const;

export function numbers(base64: string): ArrayBuffer {
  const text = atob(base64);
  const out = new Uint8Array(text.length);
  for (let i = 0; i < text.length; ++i) out[i] = text.charCodeAt(i);
  return out.buffer;
}

const square = 0.99995; // cosine: half a degree off an axis
const least = 15; // mm²; smaller ones are edges' work

interface Gathered extends Face {
  area: number;
  sum: number; // of level times area
  low: number[];
  high: number[];
  up: boolean;
}

function facesOf(name: string, points: Float32Array, triangles: Uint32Array): Face[] {
  const found = new Map<string, Gathered>();
  const at = (i: number): [number, number, number] => [points[3 * i], points[3 * i + 1], points[3 * i + 2]];
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [at(triangles[t]), at(triangles[t + 1]), at(triangles[t + 2])];
    const u = [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
    const v = [c[0] - a[0], c[1] - a[1], c[2] - a[2]];
    const n = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]];
    const length = Math.hypot(n[0], n[1], n[2]);
    const axis = ([0, 1, 2] as const).find((k) => Math.abs(n[k]) > square * length);
    if (axis === undefined || length === 0) continue;
    const level = (a[axis] + b[axis] + c[axis]) / 3;
    const up = n[axis] > 0;
    const id = `${name} ${axis} ${up ? '+' : '-'} ${level.toFixed(2)}`;
    const face: Gathered = found.get(id) ?? { id, of: name, name: '', axis, at: level, corners: [], outline: false, area: 0, sum: 0, low: [1e9, 1e9, 1e9], high: [-1e9, -1e9, -1e9], up };
    found.set(id, face);
    face.area += length / 2;
    face.sum += (level * length) / 2;
    for (const p of [a, b, c]) {
      face.corners.push(...p);
      for (let k = 0; k < 3; ++k) {
        face.low[k] = Math.min(face.low[k], p[k]);
        face.high[k] = Math.max(face.high[k], p[k]);
      }
    }
  }
  return [...found.values()]
    .filter((f) => f.area >= least)
    .map((f) => {
      const size = [0, 1, 2].filter((k) => k !== f.axis).map((k) => (f.high[k] - f.low[k]).toFixed(1));
      const level = f.sum / f.area;
      return {
        id: f.id,
        of: f.of,
        name: `${sides[f.axis][f.up ? 1 : 0]}, ${axes[f.axis]} ${level.toFixed(2)} mm, ${size.join(' × ')}`,
        axis: f.axis,
        at: level,
        corners: f.corners,
        outline: false,
      };
    })
    .sort((a, b) => a.axis - b.axis || a.at - b.at);
}

export function facesIn(scene: PartsScene): Face[] {
  const planes = scene.planes.map((p): Face => {
    const [w, h, z] = [p.width_mm / 2, p.height_mm / 2, p.z_mm];
    return {
      id: `plane ${p.name}`,
      of: 'planes of the camera',
      name: `${p.name}, z ${z.toFixed(2)} mm`,
      axis: 2,
      at: z,
      corners: [-w, -h, z, w, -h, z, w, -h, z, w, h, z, w, h, z, -w, h, z, -w, h, z, -w, -h, z],
      outline: true,
    };
  });
  return planes.concat(scene.pieces.flatMap((p) => facesOf(p.name, new Float32Array(numbers(p.points)), new Uint32Array(numbers(p.triangles)))));
}

// What lies between two faces, in a sentence.
export function between(a: Face, b: Face): { distance: number | null; says: string } {
  const name = (f: Face) => (f.of.startsWith('planes') ? f.name : `${f.of}, ${f.name}`);
  if (a.axis !== b.axis) return { distance: null, says: `The two are square to each other (${axes[a.axis]} and ${axes[b.axis]}): there is no one distance between them. Pick points instead.` };
  const d = b.at - a.at;
  const way = Math.abs(d) < 0.005 ? '' : `; the second lies ${[['left', 'right'], ['below', 'above'], ['nearer the lens', 'farther back']][a.axis][d > 0 ? 1 : 0]}`;
  return { distance: Math.abs(d), says: `${Math.abs(d).toFixed(2)} mm along ${axes[a.axis]} from ${name(a)} to ${name(b)}${way}.` };
}

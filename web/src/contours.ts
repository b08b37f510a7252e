// SPDX-License-Identifier: MIT
// Drawing a map of numbers: a value between its points, and the lines of equal value.

export interface Grid {
  x: number[];
  y: number[];
  z: number[][]; // rows of y
}

// Value at a place by the four points around it, straight between them.
export function between(g: Grid, x: number, y: number): number {
  const place = (at: number, list: number[]) => {
    const step = (list[list.length - 1] - list[0]) / (list.length - 1);
    const i = Math.min(Math.max(Math.floor((at - list[0]) / step), 0), list.length - 2);
    return [i, Math.min(Math.max((at - list[i]) / step, 0), 1)] as const;
  };
  const [i, u] = place(x, g.x);
  const [k, v] = place(y, g.y);
  const a = g.z[k][i] * (1 - u) + g.z[k][i + 1] * u;
  const b = g.z[k + 1][i] * (1 - u) + g.z[k + 1][i + 1] * u;
  return a * (1 - v) + b * v;
}

// The line at `level`, as an SVG path: each cell's two triangles cut by it.
export function contour(g: Grid, level: number, to: (x: number, y: number) => [number, number]): string {
  let d = '';
  const cut = (p: [number, number, number][]) => {
    const ends: [number, number][] = [];
    for (let e = 0; e < 3; ++e) {
      const [ax, ay, az] = p[e];
      const [bx, by, bz] = p[(e + 1) % 3];
      if (az < level === bz < level) continue;
      const t = (level - az) / (bz - az);
      ends.push(to(ax + t * (bx - ax), ay + t * (by - ay)));
    }
    if (ends.length === 2) d += `M${ends[0].map((n) => n.toFixed(1))}L${ends[1].map((n) => n.toFixed(1))}`;
  };
  for (let k = 0; k + 1 < g.y.length; ++k) {
    for (let i = 0; i + 1 < g.x.length; ++i) {
      const at = (a: number, b: number): [number, number, number] => [g.x[a], g.y[b], g.z[b][a]];
      cut([at(i, k), at(i + 1, k), at(i, k + 1)]);
      cut([at(i + 1, k + 1), at(i, k + 1), at(i + 1, k)]);
    }
  }
  return d;
}

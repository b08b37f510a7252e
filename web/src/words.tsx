// SPDX-License-Identifier: MIT
// What a sheet shows, in the words of the command line: for who reads rather than looks.
export function InWords(p: { text: string | undefined }) {
  if (!p.text) return null;
  return (
    <details class="inwords">
      <summary>The same in words</summary>
      <pre tabIndex={0}>{p.text}</pre>
    </details>
  );
}

// Lengths as the trade says them.
export const mm = (x: number | null | undefined, decimals = 1) => (x == null ? '–' : `${x.toFixed(decimals)} mm`);
export const distance = (x: number | null | undefined) =>
  x == null ? 'infinity' : x >= 1000 ? `${Number((x / 1000).toFixed(2))} m` : `${x.toFixed(0)} mm`;
export const odds = (x: number) => (x > 0.999 ? 'over 99.9 %' : x < 0.001 ? 'under 0.1 %' : `${(x * 100).toFixed(1)} %`);
export const stops = (x: number | null | undefined) => (x == null ? 'dark' : x.toFixed(1));
export function time(s: number | null | undefined): string {
  if (s == null) return '–';
  const n = Math.round(1 / s);
  if (s < 0.3 || (n > 1 && Math.abs(1 / s / n - 1) < 0.05)) return `1/${n} s`;
  return s < 90 ? `${s.toPrecision(2)} s` : `${(s / 60).toFixed(0)} min`;
}

// SPDX-License-Identifier: MIT
// What is to be measured next, with the survey's sketches: where the caliper goes.
import { signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import * as bench from './bench';
import { Drawn } from './drawn';
import { ask } from './talk';

export interface Measurement {
  key: string; // "seat.groove.depth"
  how: string;
}

const pictures = signal<Record<string, string>>({}); // by the letters marked

function Sketch(p: { letters: string; says: string }) {
  const svg = pictures.value[p.letters];
  useEffect(() => {
    if (svg) return;
    void ask<{ svg: string }>(`/api/sketch/${p.letters}`)
      .then((answer) => (pictures.value = { ...pictures.value, [p.letters]: answer.svg }))
      .catch(bench.inTrouble);
  }, [p.letters]);
  return (
    <div class="wide" tabIndex={0} role="region" aria-label="Where the caliper goes">
      {svg && <Drawn class="sketch" svg={svg} alt={`The camera cut from top to bottom and its seat from behind, with a letter for each distance; marked: ${p.says}`} />}
    </div>
  );
}

const letterOf = (key: string) => bench.letters.value[key] ?? '';
const open = signal(true);

export function MeasureNext(p: { list: Measurement[] | null | undefined; title?: string; chief?: boolean }) {
  const list = (p.list ?? []).filter((m, i, all) => all.findIndex((o) => o.key === m.key) === i);
  if (list.length === 0) return null;
  const letters = [...new Set(list.map((m) => letterOf(m.key)).filter(Boolean))].sort().join('');
  const says = list
    .filter((m) => letterOf(m.key))
    .map((m) => `${letterOf(m.key)} ${m.key}`)
    .join(', ');
  return (
    <section class="measure">
      {p.chief ? <h2>{p.title}</h2> : <h3>{p.title ?? 'Measure next'}</h3>}
      <ul class="findings">
        {list.map((m) => (
          <li key={m.key}>
            {letterOf(m.key) && (
              <b class="letter" aria-label={`letter ${letterOf(m.key)} of the sketch:`}>
                {letterOf(m.key)}
              </b>
            )}{' '}
            {m.how} <code>{m.key}</code>
          </li>
        ))}
      </ul>
      {letters && (
        <details open={open.value} onToggle={(e) => (open.value = e.currentTarget.open)}>
          <summary>Where the caliper goes</summary>
          <Sketch letters={letters} says={says} />
        </details>
      )}
    </section>
  );
}

// Numbers that the camera file ought to hold and doesn't, as far as the sketches show them.
export function unmeasured(): Measurement[] {
  const text = bench.texts.value.camera;
  const lines = text.split('\n');
  const list: Measurement[] = [];
  for (const m of bench.study.value?.messages.messages ?? []) {
    if (m.severity !== 'error' || bench.fileOf(m.place) !== 'camera') continue;
    let table = '';
    for (let i = Math.min(m.place!.line, lines.length) - 1; i >= 0 && !table; --i) {
      table = lines[i].match(/^\s*\[+\s*([\w.]+)\s*\]+/)?.[1] ?? '';
    }
    const key = m.text.match(/lacks the key '(\w+)'/)?.[1] ?? lines[m.place!.line - 1]?.match(/^\s*(\w+)\s*=/)?.[1];
    const whole = `${table}.${key}`;
    if (bench.letters.value[whole]) list.push({ key: whole, how: m.text });
  }
  return list;
}

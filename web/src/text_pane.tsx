// SPDX-License-Identifier: MIT
// The two files as their owner writes them; under the text what is wrong with it, and dials for the
// numbers in it.
import { computed } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import type { Dial, Which } from './answers';
import * as bench from './bench';
import { Tabs } from './tabs';

interface Stretch {
  from: number;
  to: number;
  kind: string;
}

const dials = computed<Dial[]>(() => bench.study.value?.dials[bench.shown.value] ?? []);

// The dial whose line the caret is on, its number nearest.
const atCaret = computed(() => {
  const text = bench.texts.value[bench.shown.value];
  const line = text.slice(0, bench.caret.value).split('\n').length;
  const there = dials.value.filter((d) => d.line === line);
  const distance = (d: Dial) => {
    const [from, to] = bench.stretch(text, d);
    return Math.max(from - bench.caret.value, bench.caret.value - to, 0);
  };
  return there.sort((a, b) => distance(a) - distance(b))[0];
});

const stretches = computed<Stretch[]>(() => {
  const which = bench.shown.value;
  const text = bench.texts.value[which];
  const list: Stretch[] = [];
  const add = (p: { line: number; column: number; length: number }, kind: string) => {
    const [from, to] = bench.stretch(text, p);
    if (to > from && !list.some((s) => from < s.to && to > s.from)) list.push({ from, to, kind });
  };
  for (const m of bench.study.value?.messages.messages ?? []) {
    if (m.place && bench.fileOf(m.place) === which) add(m.place, m.severity);
  }
  if (atCaret.value) add(atCaret.value, 'dial');
  return list.sort((a, b) => a.from - b.from);
});

function Backdrop(p: { text: string }) {
  const parts = [];
  let at = 0;
  for (const s of stretches.value) {
    parts.push(p.text.slice(at, s.from), <mark class={s.kind}>{p.text.slice(s.from, s.to)}</mark>);
    at = s.to;
  }
  return (
    <>
      {parts}
      {p.text.slice(at)}
      {'\n'}
    </>
  );
}

// Those worth a place of their own, in this order; of these the first three that the files have.
const chief = ['insert.set_back', 'back.holder_depth', 'back.back_register', 'focus.aperture', 'focusing.room_behind_infinity', 'lens.focal'];

function DialRow(p: { which: Which; dial: Dial }) {
  const { which, dial } = p;
  const id = `dial-${which}-${dial.line}-${dial.column}`;
  const value = dial.value.toFixed(dial.decimals);
  const reads = dial.unit.endsWith('/') ? dial.unit + value : `${value} ${dial.unit}`;
  return (
    <div class="dialrow">
      <label for={id} title={`${dial.key}: ${dial.meaning}`}>
        {dial.key.split(".").pop()!.replaceAll("_", " ")}
      </label>
      <input
        id={id}
        type="range"
        min={dial.least}
        max={dial.most}
        step={dial.step}
        value={dial.value}
        aria-valuetext={reads}
        onInput={(e) => void bench.turn(which, dial, e.currentTarget.valueAsNumber)}
      />
      <output for={id}>{reads}</output>
    </div>
  );
}

function Dials() {
  const all = bench.study.value?.dials;
  if (!all) return null;
  const rows: { which: Which; dial: Dial }[] = [];
  const here = atCaret.value;
  for (const key of chief) {
    for (const which of bench.kinds) {
      const dial = all[which].find((d) => d.key === key);
      if (dial && rows.length < 3) rows.push({ which, dial });
    }
  }
  if (here && !rows.some((r) => r.dial === here)) rows.push({ which: bench.shown.value, dial: here });
  return (
    <section class="dials" aria-label="Dials">
      {rows.map((r) => (
        <DialRow key={`${r.which} ${r.dial.key} ${r.dial.line} ${r.dial.column}`} {...r} />
      ))}
      {!here && <p class="label">Set the cursor on a number to turn it here.</p>}
    </section>
  );
}

function Remarks() {
  const messages = bench.study.value?.messages.messages ?? [];
  const mistakes = messages.filter((m) => m.severity === 'error').length;
  return (
    <ul class="remarks" aria-label="Remarks on the text">
      <li aria-live="polite">
        {mistakes === 0 ? 'No mistakes in the text.' : mistakes === 1 ? 'One mistake in the text.' : `${mistakes} mistakes in the text.`}
      </li>
      {messages.map((m, i) => {
        const which = bench.fileOf(m.place);
        return (
          <li key={i}>
            <span class={`sev ${m.severity}`}>{m.severity}: </span>
            {m.text}
            {m.help && <div>Remedy: {m.help}</div>}
            {which && (
              <div>
                <button class="at" onClick={() => bench.point(m.place)}>
                  {which} file, line {m.place!.line}
                </button>
              </div>
            )}
          </li>
        );
      })}
    </ul>
  );
}

export function TextPane() {
  const area = useRef<HTMLTextAreaElement>(null);
  const under = useRef<HTMLPreElement>(null);
  const lines = useRef<HTMLPreElement>(null);
  const which = bench.shown.value;
  const text = bench.texts.value[which];
  const follow = () => {
    const a = area.current!;
    under.current!.scrollTo(a.scrollLeft, a.scrollTop);
    lines.current!.scrollTo(0, a.scrollTop);
  };
  const pointed = bench.pointed.value;
  useEffect(() => {
    const a = area.current;
    if (!a || !pointed || pointed.which !== bench.shown.value) return;
    a.focus();
    a.setSelectionRange(pointed.from, pointed.to);
    const line = a.value.slice(0, pointed.from).split('\n').length;
    a.scrollTop = Math.max(0, line * 20 - a.clientHeight / 2);
    bench.caret.value = pointed.from;
  }, [pointed]);
  useEffect(follow);
  const tabs = bench.kinds
    .filter((k) => bench.files.value[k])
    .map((k) => ({ id: k, name: bench.files.value[k]!.name, mark: bench.unsaved.value.includes(k) ? ' •' : '' }));
  const caret = () => (bench.caret.value = area.current!.selectionStart);
  const nudge = (e: KeyboardEvent) => {
    const dial = atCaret.value;
    if (!e.altKey || !dial || (e.key !== 'ArrowUp' && e.key !== 'ArrowDown')) return;
    e.preventDefault();
    void bench.turn(which, dial, dial.value + (e.key === 'ArrowUp' ? dial.step : -dial.step));
  };
  return (
    <section class="words" aria-label="Text">
      <Tabs label="Files" tabs={tabs} chosen={bench.shown} panel="text" />
      <div class="text" id="text" role="tabpanel" aria-labelledby={`tab-${which}`}>
        <pre class="lines" ref={lines} aria-hidden="true">
          {text.split('\n').map((_, i) => `${i + 1}\n`).join('')}
        </pre>
        <pre ref={under} aria-hidden="true">
          <Backdrop text={text} />
        </pre>
        <textarea
          ref={area}
          aria-label={`Text of the ${which} file`}
          spellcheck={false}
          autocapitalize="off"
          autocomplete="off"
          wrap="off"
          value={text}
          onInput={(e) => {
            bench.write(which, e.currentTarget.value);
            caret();
          }}
          onScroll={follow}
          onSelect={caret}
          onClick={caret}
          onKeyUp={caret}
          onKeyDown={nudge}
        />
      </div>
      <Dials />
      <Remarks />
    </section>
  );
}

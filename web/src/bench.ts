// SPDX-License-Identifier: MIT
// What lies on the bench: the two texts, what the program says of them, what was before.
import { batch, computed, signal } from '@preact/signals';
import type { Dial, FileOnDisk, Place, Report, Study, Which } from './answers';
import { Refused, anew, ask, listen } from './talk';

export const kinds: Which[] = ['conversion', 'camera'];

export const files = signal<Record<Which, FileOnDisk | null>>({ conversion: null, camera: null });
export const texts = signal<Record<Which, string>>({ conversion: '', camera: '' });
export const shown = signal<Which>('conversion');
export const caret = signal(0);
export const study = signal<Study | null>(null);
// The last study of texts without mistakes; pictures stay while a mistake stands.
export const good = signal<(Study & { report: Report }) | null>(null);
export const trouble = signal('');
export const said = signal(''); // for a moment: "saved"
export const theirs = signal<Partial<Record<Which, FileOnDisk>>>({});
export const folder = signal(''); // where results are made
export const letters = signal<Record<string, string>>({}); // of the survey's sketches, by key

export const unsaved = computed(() =>
  kinds.filter((k) => files.value[k] && files.value[k]!.text !== texts.value[k]),
);
export const stale = computed(() => study.value !== null && study.value.report === null);

export function fileOf(place: Place | null): Which | null {
  return kinds.find((k) => files.value[k] && files.value[k]!.path === place?.file) ?? null;
}

// ---- what was before

type State = { texts: Record<Which, string>; shown: Which; caret: number };
let past: State[] = [];
let future: State[] = [];
let lastKind = '';
let lastTime = 0;
const now = (): State => ({ texts: texts.value, shown: shown.value, caret: caret.value });

// Strokes of one kind within a moment are one step back.
function remember(kind: string) {
  const time = performance.now();
  if (kind !== lastKind || time - lastTime > 900) {
    past.push(now());
    if (past.length > 500) past.shift();
  }
  future = [];
  lastKind = kind;
  lastTime = time;
}

function step(from: State[], to: State[]) {
  const state = from.pop();
  if (!state) return;
  to.push(now());
  lastKind = '';
  batch(() => {
    texts.value = state.texts;
    shown.value = state.shown;
    caret.value = state.caret;
  });
  askSoon(0);
}
export const undo = () => step(past, future);
export const redo = () => step(future, past);

export function write(which: Which, text: string, kind = 'typing') {
  if (text === texts.value[which]) return;
  remember(`${kind} ${which}`);
  texts.value = { ...texts.value, [which]: text };
  askSoon(120);
}

// ---- asking

function understood(answer: Study) {
  batch(() => {
    study.value = answer;
    if (answer.report) {
      hasWay.value = false;
      const before = good.value;
      // What a turning dial doesn't ask for stays until it rests.
      good.value = { ...before, ...answer, report: answer.report } as Study & { report: Report };
    }
    trouble.value = '';
  });
}

// A report with the film's way in it, in the place of the quicker one without.
export const hasWay = signal(false);
export function addWay(report: Report, words?: Record<string, string>) {
  if (hasWay.value || !good.value) return;
  batch(() => {
    hasWay.value = true;
    good.value = { ...good.value!, report, words: { ...good.value!.words, ...words } };
  });
}

export function inTrouble(e: unknown) {
  if (e instanceof DOMException && e.name === 'AbortError') return;
  if (e instanceof Refused) {
    trouble.value =
      e.answer.error === 'bad_token'
        ? 'This page is of an earlier run: open the address that the program printed last, here or in another tab. Your text is kept here.'
        : `The program refuses: ${e.answer.text ?? e.message}.`;
  } else {
    trouble.value = 'The program has ended. Your text is kept on this page while it stays open; start the program again with the same port and open its new address in this tab to go on.';
  }
}

let timer = 0;
let asking: AbortController | undefined;
export function askSoon(wait: number) {
  clearTimeout(timer);
  timer = window.setTimeout(async () => {
    asking?.abort();
    asking = new AbortController();
    try {
      understood(await ask<Study>('/api/study', texts.value, asking.signal));
    } catch (e) {
      inTrouble(e);
    }
  }, wait);
}

// Turns a dial to `value`. Only the last wish counts while one is under way.
let turning = false;
let wish: (() => void) | null = null;
export async function turn(which: Which, dial: Dial, value: number, begun = performance.now()) {
  if (turning) {
    wish = () => void turn(which, dial, value, begun);
    return;
  }
  turning = true;
  clearTimeout(timer);
  asking?.abort();
  try {
    const { line, column } = dial;
    const answer = await ask<Study>('/api/study', {
      ...texts.value,
      turn: { file: which, line, column, value },
    });
    remember(`dial ${which} ${dial.key}`);
    batch(() => {
      if (answer.turned) texts.value = { ...texts.value, [answer.turned.file]: answer.turned.text };
      understood(answer);
    });
    requestAnimationFrame(() => performance.measure('turn', { start: begun }));
  } catch (e) {
    inTrouble(e);
  }
  turning = false;
  const next = wish;
  wish = null;
  if (next) next();
  else askSoon(250);
}

// ---- files

// True when nothing is unsaved any more.
export async function save(): Promise<boolean> {
  for (const which of unsaved.value) {
    const file = files.value[which]!;
    const text = texts.value[which];
    try {
      const { stamp } = await ask<{ stamp: string }>('/api/save', {
        file: which,
        text,
        seen: file.stamp,
      });
      files.value = { ...files.value, [which]: { ...file, text, stamp } };
      said.value = `${file.name} saved`;
    } catch (e) {
      if (e instanceof Refused && e.status === 409) {
        const disk = { ...file, text: e.answer.text ?? '', stamp: e.answer.stamp ?? '' };
        theirs.value = { ...theirs.value, [which]: disk };
      } else {
        inTrouble(e);
      }
      return false;
    }
  }
  return true;
}

// Another editor wrote the file: its text is read; what stood here is one step back.
export function takeTheirs(which: Which) {
  const disk = theirs.value[which]!;
  const { [which]: _, ...rest } = theirs.value;
  remember(`theirs ${which}`);
  batch(() => {
    theirs.value = rest;
    files.value = { ...files.value, [which]: disk };
    texts.value = { ...texts.value, [which]: disk.text };
  });
  askSoon(0);
}

// The owner has seen theirs and wants this text: the next save may write over it.
export function keepMine(which: Which) {
  const { [which]: disk, ...rest } = theirs.value;
  theirs.value = rest;
  files.value = { ...files.value, [which]: disk! };
}

async function heardOfFiles(stamps: Record<Which, string>) {
  const changed = kinds.filter((k) => files.value[k] && files.value[k]!.stamp !== stamps[k]);
  if (changed.length === 0) return;
  const disk = await ask<Record<Which, FileOnDisk | null>>('/api/files');
  for (const which of changed) {
    const fresh = disk[which];
    const file = files.value[which]!;
    if (!fresh || fresh.stamp === file.stamp) continue;
    const untouched = texts.value[which] === file.text;
    theirs.value = { ...theirs.value, [which]: fresh };
    if (untouched && fresh.stamp) {
      takeTheirs(which);
      said.value = `${file.name} was changed by another editor and read anew`;
    }
  }
}

interface Opened extends Record<Which, FileOnDisk | null> {
  folder: string;
  letters: Record<string, string>;
}

export async function start() {
  anew(() => {
    trouble.value = '';
    void heardOfFiles({ conversion: '', camera: '' });
    askSoon(0);
  });
  try {
    const { conversion, camera, ...rest } = await ask<Opened>('/api/files');
    files.value = { conversion, camera };
    folder.value = rest.folder;
    letters.value = rest.letters;
    texts.value = { conversion: conversion?.text ?? '', camera: camera?.text ?? '' };
    askSoon(0);
  } catch (e) {
    inTrouble(e);
    return;
  }
  for (;;) {
    try {
      await listen('/api/news', undefined, (name, data) => {
        if (trouble.value) askSoon(0);
        if (name === 'files') void heardOfFiles(JSON.parse(data));
      });
      inTrouble(null);
    } catch (e) {
      inTrouble(e);
    }
    await new Promise((rested) => setTimeout(rested, 2000));
  }
}

// Shows a place of a file, its stretch selected.
export const pointed = signal<{ which: Which; from: number; to: number; again: number } | null>(null);
export function point(place: Place | null) {
  const which = fileOf(place);
  if (!place || !which) return;
  const [from, to] = stretch(texts.value[which], place);
  batch(() => {
    shown.value = which;
    pointed.value = { which, from, to, again: performance.now() };
  });
}

// Where a stretch of code points stands in `text`, in the units of JavaScript's strings.
export function stretch(text: string, p: { line: number; column: number; length: number }): [number, number] {
  const lines = text.split('\n');
  const before = lines.slice(0, p.line - 1).reduce((n, l) => n + l.length + 1, 0);
  const points = [...(lines[p.line - 1] ?? '')];
  const from = before + points.slice(0, p.column - 1).join('').length;
  return [from, from + points.slice(p.column - 1, p.column - 1 + p.length).join('').length];
}

// SPDX-License-Identifier: MIT
// What the program works out in the background: one errand for each question, kept from sheet to
// sheet, and ended when the text that it was asked about is no more.
import { effect, signal, type Signal } from '@preact/signals';
import * as bench from './bench';
import { ask, listen } from './talk';

export interface Running {
  seconds: number;
  stage: string;
  done: number; // share, 0 where that can't be told
}
export interface State<T> {
  answer: T | null;
  of: string; // the question that it answers
  running: Running | null;
  broken: boolean; // ended without an answer
}

export class Errand<T> {
  readonly state: Signal<State<T>> = signal({ answer: null, of: '', running: null, broken: false });
  asked = ''; // the last question, answered or not
  private stopper: AbortController | null = null;

  constructor(
    readonly path: string,
    readonly long: boolean,
    readonly ofText: boolean,
  ) {}

  async start(question: object, key = JSON.stringify(question)) {
    this.stop();
    const stopper = new AbortController();
    this.stopper = stopper;
    this.asked = key;
    const set = (change: Partial<State<T>>) => {
      if (this.stopper === stopper) this.state.value = { ...this.state.value, ...change };
    };
    const run = (change: Partial<Running>) => set({ running: { ...(this.state.value.running ?? { seconds: 0, stage: '', done: 0 }), ...change } });
    set({ broken: false });
    if (this.long) run({});
    try {
      if (!this.long) {
        set({ answer: await ask<T>(this.path, question, stopper.signal), of: key });
      } else {
        let answered = false;
        await listen(
          this.path,
          question,
          (name, data) => {
            if (name === 'answer') {
              answered = true;
              set({ answer: JSON.parse(data), of: key });
            } else if (name === 'progress' || name === 'working') {
              run(JSON.parse(data));
            }
          },
          stopper.signal,
        );
        if (!answered) set({ broken: true });
      }
    } catch (e) {
      bench.inTrouble(e);
    }
    set({ running: null });
  }

  // The program ends its work as soon as the connection is closed.
  stop() {
    this.stopper?.abort();
    this.stopper = null;
    if (this.state.value.running) this.state.value = { ...this.state.value, running: null };
  }
}

const all = new Map<string, Errand<unknown>>();

export function errand<T>(path: string, long = true, ofText = true): Errand<T> {
  if (!all.has(path)) all.set(path, new Errand<unknown>(path, long, ofText));
  return all.get(path) as Errand<T>;
}

export const keyOfTexts = () => JSON.stringify(bench.texts.value);

// A newer text: what is still being worked out for the older one is of no use.
effect(() => {
  bench.texts.value;
  for (const e of all.values()) {
    if (e.ofText && e.state.peek().running) {
      e.stop();
      e.asked = '';
    }
  }
});

// SPDX-License-Identifier: MIT
// Answers that a sheet asks for when it is looked at, and asks again when the texts have changed.
import { useEffect, useState } from 'preact/hooks';
import type { Study } from './answers';
import * as bench from './bench';
import { ask, listen } from './talk';

export interface Asked<T> {
  answer: T | null;
  seconds: number | null; // since a long study began; null: at rest
  fresh: boolean; // of the texts as they are
}

const kept = new Map<string, { key: string; answer: unknown }>();

export function useAnswer<T>(path: string, long: boolean, wanted = true): Asked<T> {
  const study: Study | null = bench.good.value;
  const [state, set] = useState<Omit<Asked<T>, 'fresh'>>({ answer: (kept.get(path)?.answer as T) ?? null, seconds: null });
  useEffect(() => {
    if (!wanted || !study) return;
    const key = JSON.stringify(bench.texts.peek());
    if (kept.get(path)?.key === key) return;
    const stop = new AbortController();
    const take = (answer: T) => {
      kept.set(path, { key, answer });
      set({ answer, seconds: null });
    };
    const wait = window.setTimeout(async () => {
      try {
        if (!long) return take(await ask<T>(path, bench.texts.peek(), stop.signal));
        await listen(
          path,
          bench.texts.peek(),
          (name, data) => {
            if (name === 'answer') take(JSON.parse(data));
            else set((s) => ({ ...s, seconds: JSON.parse(data).seconds }));
          },
          stop.signal,
        );
      } catch (e) {
        bench.inTrouble(e);
      }
    }, long ? 400 : 100);
    return () => {
      clearTimeout(wait);
      stop.abort();
    };
  }, [study, wanted]);
  return { ...state, fresh: kept.get(path)?.key === JSON.stringify(bench.texts.value) };
}

export function Working(p: { seconds: number | null }) {
  return (
    <p class="lead" role="status">
      {p.seconds === null ? '' : `Working it out, ${p.seconds} s …`}
    </p>
  );
}

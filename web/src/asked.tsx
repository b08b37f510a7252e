// SPDX-License-Identifier: MIT
// Answers that a sheet asks for when it is looked at, and asks again when the texts have changed.
import { useEffect } from 'preact/hooks';
import * as bench from './bench';
import { errand, keyOfTexts, type Errand } from './errands';

export interface Asked<T> {
  answer: T | null;
  fresh: boolean; // of the texts as they are
  errand: Errand<T>;
}

export function useAnswer<T>(path: string, long: boolean, wanted = true): Asked<T> {
  const it = errand<T>(path, long);
  const study = bench.good.value;
  useEffect(() => {
    if (!wanted || !study) return;
    const key = keyOfTexts();
    if (it.asked === key) return;
    const wait = window.setTimeout(() => void it.start(bench.texts.peek(), key), long ? 400 : 100);
    return () => clearTimeout(wait);
  }, [study, wanted]);
  const { answer, of } = it.state.value;
  return { answer, fresh: of === keyOfTexts(), errand: it };
}

// What is under way, and a button that ends it. Says nothing when nothing is.
export function Working<T>(p: { errand: Errand<T>; onAgain?: () => void }) {
  const { running, broken } = p.errand.state.value;
  if (broken) {
    return (
      <p class="working" role="status">
        <span class="sev error">The program broke this off.</span> The text stays as it is; what it said stands where it was started.
      </p>
    );
  }
  if (!running) return <p class="working" role="status" />;
  const share = running.done > 0 ? ` ${(running.done * 100).toFixed(0)} %` : '';
  return (
    <p class="working" role="status">
      <span>
        {running.stage || 'working it out'}
        {share}, {running.seconds} s …
      </span>
      <progress aria-label="done" value={running.done > 0 ? running.done : undefined} max="1" />
      <button class="button" onClick={() => p.errand.stop()}>
        Stop
      </button>
    </p>
  );
}

// Where a study was stopped by hand: a way to begin it again.
export function Again<T>(p: { errand: Errand<T> }) {
  if (p.errand.state.value.running || p.errand.asked !== keyOfTexts() || p.errand.state.value.of === keyOfTexts()) return null;
  return (
    <p>
      <button class="button" onClick={() => void p.errand.start(bench.texts.peek(), keyOfTexts())}>
        Work it out
      </button>
    </p>
  );
}

// SPDX-License-Identifier: MIT
// The film's way through an insert, in section.
import { Working, useAnswer } from './asked';
import * as bench from './bench';
import { InWords } from './words';

interface Answer {
  path: { verdict: string } | null;
  words?: Record<string, string>;
}

export function Winding() {
  const there = bench.good.value?.has?.path ?? false;
  const { answer, seconds } = useAnswer<Answer>('/api/path', true, there);
  if (!there) {
    return (
      <>
        <h2>Winding</h2>
        <p class="lead">Film is wound in an insert in the chamber; this conversion loads {bench.good.value?.report.film} otherwise.</p>
      </>
    );
  }
  if (!answer) return <Working seconds={seconds ?? 0} />;
  return (
    <>
      <h2>The film's way through the insert</h2>
      <Working seconds={seconds} />
      <InWords text={answer.words?.path} />
    </>
  );
}

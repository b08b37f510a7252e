// SPDX-License-Identifier: MIT
// Everything of a conversion made into its folder, and what is in that.
import { signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { Working } from './asked';
import * as bench from './bench';
import { errand } from './errands';
import { ask } from './talk';

interface Made {
  folder: string;
  files: { name: string; address: string; bytes: number }[];
  older: boolean;
}
interface Answer {
  status: number;
  told: string;
}

const made = signal<Made | null>(null);
const despite = signal(false);
const saving = signal(false);
const making = errand<Answer>('/api/make', true, false);

async function look() {
  try {
    made.value = await ask<Made>('/api/made');
  } catch (e) {
    bench.inTrouble(e);
  }
}

async function make() {
  saving.value = true;
  const saved = await bench.save();
  saving.value = false;
  if (!saved) return;
  await making.start({ ...bench.texts.peek(), despite_blockers: despite.value }, String(performance.now()));
  await look();
}

const kinds: Record<string, string> = {
  'build-sheet.pdf': 'build sheet: steps, drawings, templates, materials',
  'exposure-card.pdf': 'exposure card for the back of the camera',
  'report.json': 'findings, for programs',
  'timer.cir': "the timer's circuit, for a simulator",
};
const size = (bytes: number) => (bytes < 1e6 ? `${Math.max(1, Math.round(bytes / 1000))} kB` : `${(bytes / 1e6).toFixed(1)} MB`);

function Results(p: { made: Made }) {
  const papers = p.made.files.filter((f) => !f.name.startsWith('parts/'));
  papers.sort((a, b) => Number(b.name.endsWith('.pdf')) - Number(a.name.endsWith('.pdf')));
  const parts = new Map<string, Made['files']>();
  for (const f of p.made.files) {
    if (!f.name.startsWith('parts/')) continue;
    const name = f.name.slice(6).replace(/\.\w+$/, '');
    parts.set(name, [...(parts.get(name) ?? []), f]);
  }
  const link = (f: Made['files'][number], text: string) => (
    <a href={f.address} target="_blank" rel="noopener">
      {text}
    </a>
  );
  return (
    <>
      <h3>Papers</h3>
      <ul class="findings">
        {papers.map((f) => (
          <li key={f.name}>
            {link(f, f.name)} <small class="faint">{[kinds[f.name], size(f.bytes)].filter(Boolean).join(', ')}</small>
          </li>
        ))}
      </ul>
      {parts.size > 0 && (
        <>
          <h3>Parts</h3>
          <div class="wide" tabIndex={0} role="region" aria-label="Files of the parts">
            <table>
              <thead>
                <tr>
                  <th scope="col">part</th>
                  <th scope="col" class="left">
                    to print or to change
                  </th>
                </tr>
              </thead>
              <tbody>
                {[...parts].map(([name, files]) => (
                  <tr key={name}>
                    <th scope="row">{name.replaceAll('-', ' ')}</th>
                    <td class="left links">
                      {files.map((f) => (
                        <span key={f.name}>
                          {link(f, f.name.replace(/^.*\./, '').toUpperCase())} <small class="faint">{size(f.bytes)}</small>
                        </span>
                      ))}
                    </td>
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
        </>
      )}
    </>
  );
}

export function MakeSheet() {
  useEffect(() => void look(), []);
  const { answer, running } = making.state.value;
  const report = bench.good.value!.report;
  const blocked = report.findings.some((f) => f.severity === 'blocker');
  const unsaved = bench.unsaved.value.length > 0;
  const busy = running !== null || saving.value;
  return (
    <>
      <h2>Make everything</h2>
      <p class="lead">
        Build sheet, cards and parts of the files as saved, into <code>{bench.folder.value}</code>. The folder appears whole, or the one that is there stays.
      </p>
      {bench.stale.value && <p class="sev error">The text has mistakes: nothing can be made of it.</p>}
      {blocked && (
        <p class="row">
          <label>
            <input type="checkbox" checked={despite.value} onChange={(e) => (despite.value = e.currentTarget.checked)} /> make it although a blocker was found; the findings say which
          </label>
        </p>
      )}
      <p class="row">
        <button class="button chief" disabled={busy || bench.stale.value || (blocked && !despite.value)} onClick={() => void make()}>
          {unsaved ? 'Save both files and make everything' : 'Make everything'}
        </button>
      </p>
      <Working errand={making} />
      {!busy && answer && (
        <p role="status" class={answer.status === 2 ? 'sev error' : ''}>
          {answer.status === 0 ? 'Made.' : answer.status === 1 ? (answer.told.includes('nothing was made') ? 'Nothing was made: a blocker was found.' : 'Made, with blockers left.') : 'Nothing was made.'}
        </p>
      )}
      {!busy && answer && answer.told && (
        <details class="inwords" open={answer.status !== 0}>
          <summary>What was said meanwhile</summary>
          <pre tabIndex={0}>{answer.told}</pre>
        </details>
      )}
      {made.value && made.value.files.length > 0 && (
        <section aria-label="Results">
          {made.value.older && <p class="lead">These were made before the files were last saved.</p>}
          <Results made={made.value} />
        </section>
      )}
      {made.value && made.value.files.length === 0 && !busy && <p class="lead">Nothing has been made there yet.</p>}
    </>
  );
}

// SPDX-License-Identifier: MIT
// The whole page: title block, the two texts, the sheets.
import { signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import * as bench from './bench';
import { Findings } from './findings';
import { errand } from './errands';
import { Focus } from './focus';
import { Frame, layInPicture } from './frame';
import { Films } from './films';
import { Leaks } from './leaks';
import { LightSheet } from './light';
import { MakeSheet } from './make';
import { MeasureNext, unmeasured } from './measure';
import { PartsSheet } from './parts';
import { layIn } from './recordings';
import { Shutter } from './shutter';
import { Tabs } from './tabs';
import { TextPane } from './text_pane';
import { Winding } from './winding';

const sheets = [
  { id: 'findings', name: 'Findings', leaf: Findings, work: [] },
  { id: 'frame', name: 'Frame', leaf: Frame, work: [] },
  { id: 'focus', name: 'Focus', leaf: Focus, work: [] },
  { id: 'films', name: 'Films', leaf: Films, work: [] },
  { id: 'light', name: 'Light', leaf: LightSheet, work: [] },
  { id: 'shutter', name: 'Shutter', leaf: Shutter, work: ['/api/timer', '/api/trace'] },
  { id: 'winding', name: 'Winding', leaf: Winding, work: ['/api/path'] },
  { id: 'parts', name: 'Parts', leaf: PartsSheet, work: ['/api/parts'] },
  { id: 'leaks', name: 'Leaks', leaf: Leaks, work: ['/api/leak'] },
  { id: 'make', name: 'Make', leaf: MakeSheet, work: ['/api/make'] },
] as const;
type Sheet = (typeof sheets)[number]['id'];
const sheet = signal<Sheet>('findings');

function keys(e: KeyboardEvent) {
  const control = e.ctrlKey || e.metaKey;
  if (control && e.key === 's') {
    e.preventDefault();
    void bench.save();
  } else if (control && e.key.toLowerCase() === 'z') {
    e.preventDefault();
    (e.shiftKey ? bench.redo : bench.undo)();
  } else if (control && e.key === 'y') {
    e.preventDefault();
    bench.redo();
  } else if (e.altKey && /^[0-9]$/.test(e.key)) {
    e.preventDefault();
    sheet.value = sheets[(Number(e.key) + 9) % 10].id;
  }
}

// A file dropped anywhere: a picture for the frame, else a recording of the shutter.
function dropped(e: DragEvent) {
  const file = e.dataTransfer?.files[0];
  if (!file) return;
  e.preventDefault();
  if (file.type.startsWith('image/')) {
    sheet.value = 'frame';
    void layInPicture(file);
  } else {
    sheet.value = 'shutter';
    layIn(file);
  }
}

const titles: Record<string, string> = {
  camera: 'camera file',
  conversion: 'conversion file',
};

function Block() {
  const report = bench.good.value?.report;
  const open = bench.unsaved.value;
  return (
    <header class="block">
      <h1>
        <small>Backfit, conversion of</small>
        {report?.camera ?? bench.files.value.conversion?.name ?? '…'}
      </h1>
      {report && (
        <>
          <div>
            <small>film</small>
            {report.film}
          </div>
          <div>
            <small>method</small>
            {report.method}
          </div>
          <div class={`verdict is-${report.verdict.replaceAll(' ', '-')}`}>
            <small>{bench.stale.value ? 'verdict before the mistake' : 'verdict'}</small>
            <b>{report.verdict}</b>
          </div>
        </>
      )}
      <div class="files">
        <span role="status">{open.length ? `not saved: ${open.map((w) => titles[w]).join(', ')}` : bench.said.value || 'saved'}</span>
        <button class="button" onClick={bench.undo} aria-keyshortcuts="Control+Z">
          Undo
        </button>
        <button class="button chief" disabled={!open.length} onClick={() => void bench.save()} aria-keyshortcuts="Control+S">
          Save
        </button>
      </div>
      {bench.trouble.value && (
        <div class="notice bad" role="alert">
          {bench.trouble.value}
        </div>
      )}
      {bench.kinds
        .filter((w) => bench.theirs.value[w])
        .map((w) => (
          <div class="notice bad" role="alert" key={w}>
            <span>
              Another editor has changed {bench.theirs.value[w]!.name} on disk. Nothing is written over it.
            </span>
            <button class="button" onClick={() => bench.takeTheirs(w)}>
              Read theirs (undo brings mine back)
            </button>
            <button class="button" onClick={() => bench.keepMine(w)}>
              Keep mine, and save over theirs next time
            </button>
          </div>
        ))}
    </header>
  );
}

export function Page() {
  useEffect(() => {
    addEventListener('keydown', keys);
    addEventListener('dragover', (e) => e.dataTransfer?.types.includes('Files') && e.preventDefault());
    addEventListener('drop', dropped);
    addEventListener('beforeunload', (e) => {
      if (bench.unsaved.value.length) e.preventDefault();
    });
  }, []);
  const Leaf = sheets.find((s) => s.id === sheet.value)!.leaf;
  return (
    <div class="bench">
      <Block />
      <TextPane />
      <main class="sheet">
        <Tabs
          label="Sheets"
          tabs={sheets.map(({ id, name, work }) => ({ id, name, mark: work.some((path) => errand(path, true, path !== '/api/make' && path !== '/api/trace').state.value.running) ? ' …' : '' }))}
          chosen={sheet}
          panel="leaf"
        />
        <div
          class={bench.stale.value ? 'leaf stale' : 'leaf'}
          id="leaf"
          role="tabpanel"
          tabIndex={0}
          aria-labelledby={`tab-${sheet.value}`}
        >
          {bench.stale.value && bench.good.value && (
            <p class="lead" role="status">
              The text has mistakes; this is what held before them.
            </p>
          )}
          {bench.stale.value && <MeasureNext list={unmeasured()} title="Measure, and write it into the camera file" chief />}
          {bench.good.value ? <Leaf /> : <p class="lead">{bench.study.value ? 'Mend the mistakes that stand under the text: what the sheets show is worked out from it.' : 'Working it out …'}</p>}
        </div>
      </main>
    </div>
  );
}

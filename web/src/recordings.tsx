// SPDX-License-Identifier: MIT
// Recordings of the shutter laid onto the page: what speeds they tell, and what those would change.
import { computed, effect, signal } from '@preact/signals';
import type { Exposure, Message, Study } from './answers';
import { Working } from './asked';
import * as bench from './bench';
import { Drawn } from './drawn';
import { errand } from './errands';
import { ask } from './talk';
import { InWords, time } from './words';

interface Speed {
  marked_s: number | null;
  shots: number;
  effective: boolean;
}
interface Trace {
  by: string;
  format: string;
  summary: Speed[];
  saved: { marked_s: number; effective: string }[] | null;
  notes: string[];
}
interface Answer {
  messages: { messages: Message[] };
  trace: Trace | null;
  speeds?: { mean: string; deviation: string | null }[];
  words?: Record<string, string>;
  picture?: string;
  unsaved?: { messages: Message[] };
  camera?: string;
  timer_goes_before?: boolean;
}

const most = 22_000_000; // bytes; the program takes 32 MiB with all that goes around them

const file = signal<File | null>(null);
const tooLarge = signal('');
const marked = signal('');
const sound = signal(false);
const rise = signal('');
const channel = signal('');
const step = signal('');
const later = signal<{ of: string; study: Study } | null>(null); // with the speeds in the file
const tracing = errand<Answer>('/api/trace', true, false);

async function base64(data: Blob): Promise<string> {
  const reader = new FileReader();
  const address = await new Promise<string>((done, failed) => {
    reader.onload = () => done(String(reader.result));
    reader.onerror = () => failed(reader.error);
    reader.readAsDataURL(data);
  });
  return address.slice(address.indexOf(',') + 1);
}

async function analyse() {
  if (!file.value) return;
  const question = {
    ...bench.texts.peek(),
    name: file.value.name,
    bytes: await base64(file.value),
    marked: marked.value,
    sound: sound.value,
    sensor_rise: rise.value,
    channel: Number(channel.value) || 0,
    step: step.value,
  };
  await tracing.start(question, bench.texts.peek().camera);
}

export function layIn(recording: File) {
  tooLarge.value = recording.size > most ? `${recording.name} holds ${(recording.size / 1e6).toFixed(0)} MB; up to ${most / 1e6} MB are taken: cut it around the shots.` : '';
  if (tooLarge.value) return;
  file.value = recording;
  void analyse();
}

// What the whole study says with the speeds in the camera file.
effect(() => {
  const camera = tracing.state.value.answer?.camera;
  if (!camera || later.peek()?.of === camera) return;
  void ask<Study>('/api/study', { ...bench.texts.peek(), camera }).then((study) => (later.value = { of: camera, study })).catch(bench.inTrouble);
});

const setting = (e: Exposure) => (e.too_fast ? 'too bright' : e.no_speed ? `${time(e.time_s)} by hand` : time(e.marked_s ?? e.time_s));

// Rows of the card that come out otherwise.
const changes = computed(() => {
  const before = bench.good.value?.exposure;
  const after = later.value?.of === tracing.state.value.answer?.camera ? later.value?.study.exposure : null;
  if (!before || !after) return null;
  const list: string[] = [];
  for (const row of after.light_rows) {
    const old = before.light_rows.find((r) => r.condition === row.condition);
    for (const e of row.exposures) {
      const was = old?.exposures.find((o) => o.f_number === e.f_number);
      if (was && setting(was) !== setting(e)) list.push(`${row.condition}, f/${e.f_number}: ${setting(e)} instead of ${setting(was)}`);
    }
  }
  return list;
});

// Lines that a text has gained and lost.
export function difference(before: string, after: string): { sign: '+' | '−'; line: string }[] {
  const [a, b] = [before.split('\n'), after.split('\n')];
  const common: number[][] = Array.from({ length: a.length + 1 }, () => new Array<number>(b.length + 1).fill(0));
  for (let i = a.length - 1; i >= 0; --i) {
    for (let k = b.length - 1; k >= 0; --k) {
      common[i][k] = a[i] === b[k] ? common[i + 1][k + 1] + 1 : Math.max(common[i + 1][k], common[i][k + 1]);
    }
  }
  const list: { sign: '+' | '−'; line: string }[] = [];
  for (let i = 0, k = 0; i < a.length || k < b.length; ) {
    if (i < a.length && k < b.length && a[i] === b[k]) ++i, ++k;
    else if (k >= b.length || (i < a.length && common[i + 1][k] >= common[i][k + 1])) list.push({ sign: '−', line: a[i++] });
    else list.push({ sign: '+', line: b[k++] });
  }
  return list.filter((d) => d.line.trim());
}

function Said(p: { messages: Message[] }) {
  if (p.messages.length === 0) return null;
  return (
    <ul class="findings">
      {p.messages.map((m, i) => (
        <li key={i}>
          <span class={`sev ${m.severity}`}>{m.severity}</span> {m.place && `${m.place.file.replace(/^.*\//, '')}, line ${m.place.line}: `}
          {m.text}
          {m.help && <div>Remedy: {m.help}</div>}
        </li>
      ))}
    </ul>
  );
}

function Speeds(p: { answer: Answer }) {
  const t = p.answer.trace!;
  const written = (s: Speed) => t.saved?.find((w) => s.marked_s !== null && Math.abs(w.marked_s / s.marked_s - 1) < 1e-6)?.effective;
  return (
    <div class="wide" tabIndex={0} role="region" aria-label="Speeds of the recording">
      <table>
        <caption>Means, ± for 95 % by these shots alone; for the file the usual scatter of a shutter is taken where shots are few</caption>
        <thead>
          <tr>
            <th scope="col">mark</th>
            <th scope="col">shots</th>
            <th scope="col">{t.summary.every((s) => s.effective) ? 'effective time' : t.by === 'sound' ? 'from click to click' : 'time'}</th>
            <th scope="col">off its mark, stops</th>
            {t.saved && <th scope="col">as the file holds it</th>}
          </tr>
        </thead>
        <tbody>
          {t.summary.map((s, i) => (
            <tr key={i}>
              <td>{s.marked_s === null ? 'not said' : time(s.marked_s)}</td>
              <td>{s.shots}</td>
              <td>{p.answer.speeds?.[i]?.mean}</td>
              <td>{p.answer.speeds?.[i]?.deviation ?? '–'}</td>
              {t.saved && <td>{written(s)}</td>}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function Written(p: { answer: Answer; current: boolean }) {
  const { answer } = p;
  if (!answer.camera) return <Said messages={answer.unsaved?.messages ?? []} />;
  const now = bench.texts.value.camera;
  if (now === answer.camera) return <p role="status">The camera file holds these speeds. Ctrl+S saves it, undo takes them out again.</p>;
  if (!p.current) {
    return (
      <p class="lead">
        The camera file has changed since.{' '}
        <button class="button" onClick={() => void analyse()}>
          Analyse again
        </button>
      </p>
    );
  }
  return (
    <>
      <h3>What this would write into the camera file</h3>
      <pre tabIndex={0}>
        {difference(now, answer.camera)
          .map((d) => `${d.sign} ${d.line}`)
          .join('\n')}
      </pre>
      {answer.timer_goes_before && <p class="lead">As long as the camera file surveys a timer, the card goes by the timer and not by these.</p>}
      {!bench.good.value?.exposure && <p class="lead">The conversion says nothing of what is loaded, so there is no exposure card for these to change.</p>}
      {changes.value && (
        <>
          <h3>What it would change on the exposure card</h3>
          {changes.value.length === 0 ? (
            <p class="lead">No setting.</p>
          ) : (
            <ul class="plain">
              {changes.value.slice(0, 12).map((c) => (
                <li key={c}>{c}</li>
              ))}
              {changes.value.length > 12 && <li>and {changes.value.length - 12} more</li>}
            </ul>
          )}
        </>
      )}
      <p class="row">
        <button
          class="button chief"
          onClick={() => {
            bench.write('camera', answer.camera!, 'recording');
            bench.shown.value = 'camera';
          }}
        >
          Write these speeds into the text
        </button>
      </p>
    </>
  );
}

export function Recordings() {
  const { answer, of } = tracing.state.value;
  const t = answer?.trace;
  const box = (name: string, value: typeof marked, hint: string, size: number) => (
    <label>
      {name} <input type="text" value={value.value} size={size} placeholder={hint} onInput={(e) => (value.value = e.currentTarget.value)} />
    </label>
  );
  return (
    <section aria-label="Recordings">
      <h3>Recordings</h3>
      <p class="lead hint">
        A light sensor at a sound input (WAV), an oscilloscope's table, or plain sound. Drop the file anywhere on this page, or choose it. Nothing is kept of it.
      </p>
      <form
        class="row"
        onSubmit={(e) => {
          e.preventDefault();
          void analyse();
        }}
      >
        <label>
          recording{' '}
          <input
            type="file"
            accept=".wav,.aif,.aiff,.flac,.ogg,.csv,.txt,.tsv,audio/*,text/*"
            onChange={(e) => {
              const chosen = e.currentTarget.files?.[0];
              if (chosen) layIn(chosen);
            }}
          />
        </label>
        {box('marked speeds, in order', marked, '1/25 s, 1/50 s', 18)}
        <label>
          <input type="checkbox" checked={sound.value} onChange={(e) => (sound.value = e.currentTarget.checked)} /> plain sound
        </label>
        {box('rise of the sensor', rise, '20 us ± 5', 9)}
        {box('channel', channel, 'clearest', 6)}
        {box('time between rows', step, 'as written', 9)}
        <button class="button" type="submit" disabled={!file.value}>
          Analyse{file.value ? ` ${file.value.name}` : ''}
        </button>
      </form>
      {tooLarge.value && (
        <p class="sev error" role="alert">
          {tooLarge.value}
        </p>
      )}
      <Working errand={tracing} />
      {answer && <Said messages={answer.messages.messages} />}
      {t && (
        <>
          <Speeds answer={answer} />
          {t.notes.map((n) => (
            <p class="lead" key={n}>
              {n}.
            </p>
          ))}
          <Written answer={answer} current={of === bench.texts.value.camera} />
          {answer.picture && (
            <details class="inwords">
              <summary>The curve of each shot</summary>
              <Drawn class="page" svg={answer.picture} alt="Light over time of each shot; the words below say the same" />
            </details>
          )}
          <InWords text={answer.words?.trace} />
        </>
      )}
    </section>
  );
}

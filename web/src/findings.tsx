// SPDX-License-Identifier: MIT
// The verdict and what it rests on.
import type { Report } from './answers';
import * as bench from './bench';
import { MeasureNext } from './measure';
import { InWords, distance, mm, odds } from './words';

/** A lens that sits fast: from where on its widest stop shows all sharp. */
export function SharpFrom({ stop }: { stop: Report['depth_of_field']['stops'][number] | undefined }) {
  const range = stop?.subjects[0];
  if (!stop || !range) return null;
  return (
    <div>
      <dt>sharp at f/{stop.f_number} from, to; the lens sits fast</dt>
      <dd>
        {distance(range.near_mm)}, {distance(range.far_mm)}
      </dd>
    </div>
  );
}

export function Findings() {
  const { report, words } = bench.good.value!;
  const r = report.register;
  const f = report.frame;
  return (
    <>
      <h2>
        {report.camera}, {report.film}: {report.verdict}
      </h2>
      {bench.good.value!.has?.way && !bench.hasWay.value && (
        <p class="lead">The film's way through the insert takes longer to find and is not in this verdict: the sheet Winding finds it and adds it.</p>
      )}
      <dl class="figures">
        <div>
          <dt>set-back of the film</dt>
          <dd>
            {r.set_back_mm.toFixed(2)} mm <small>u {r.set_back_mm_u.toFixed(2)}</small>
          </dd>
        </div>
        <div>
          <dt>infinity reached, odds</dt>
          <dd>{odds(r.odds_infinity)}</dd>
        </div>
        {r.give_mm === undefined ? (
          <div>
            <dt>nearest focus</dt>
            <dd>{distance(r.nearest_focus_mm)}</dd>
          </div>
        ) : (
          <SharpFrom stop={report.depth_of_field.stops[0]} />
        )}
        <div>
          <dt>infinity sharp at f/{report.focus.f_number}, odds</dt>
          <dd>{odds(report.focus.odds_sharp)}</dd>
        </div>
        <div>
          <dt>lit picture</dt>
          <dd>
            {f.picture_width_mm.toFixed(1)} × {mm(f.picture_height_mm)}
          </dd>
        </div>
        <div>
          <dt>image circle, of {mm(report.coverage.needed_mm, 0)} needed</dt>
          <dd>{mm(report.coverage.circle_mm, 0)}</dd>
        </div>
      </dl>
      <MeasureNext list={bench.good.value!.measure} />
      <ul class="findings">
        {report.findings.map((x, i) => (
          <li key={i}>
            <span class={`sev ${x.severity}`}>{x.severity}</span> {x.text}
            {(x.limit || x.remedies.length > 0) && (
              <ul>
                {x.limit && <li>{x.limit}</li>}
                {x.remedies.map((w) => (
                  <li key={w}>{w}</li>
                ))}
              </ul>
            )}
            {bench.fileOf(x.place) && (
              <div>
                <button class="at" onClick={() => bench.point(x.place)}>
                  {bench.fileOf(x.place)} file, line {x.place!.line}
                </button>
              </div>
            )}
          </li>
        ))}
      </ul>
      <InWords text={words?.report} />
    </>
  );
}

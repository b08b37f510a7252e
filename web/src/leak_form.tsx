// SPDX-License-Identifier: MIT
// What is asked of light that leaks in: film, felt and how long to walk.
import { signal, type Signal } from '@preact/signals';
import * as bench from './bench';
import { errand, keyOfTexts } from './errands';
import type { LeakAnswer } from './leaks';

// Kept as they are typed: an answer that comes meanwhile redraws the form and takes nothing away.
const iso = signal<string | null>(null); // until one is typed: what the conversion says
const feltRound = signal(true);
const feltGroove = signal(false);
const feltFeet = signal(true);
const feltFloor = signal(false);
const feltBores = signal(false);
const feltPack = signal(false);
const windowOpen = signal(false);
// Two pieces of felt before a light meter: thickness in mm, and stops lost; empty: not read.
const feltPieces = ['1', '2'].map((mm) => ({ mm: signal(mm), stops: signal('') }));
const minutes = signal(1);
export const leaking = errand<LeakAnswer>('/api/leak');

const begin = () =>
  void leaking.start(
    {
      ...bench.texts.peek(),
      ...(Number(iso.value) > 0 ? { iso: Number(iso.value) } : {}),
      felt_round_holder: feltRound.value,
      felt_in_groove: feltGroove.value,
      felt_under_feet: feltFeet.value,
      felt_round_floor: feltFloor.value,
      felt_in_bores: feltBores.value,
      felt_beside_pack_holder: feltPack.value,
      window_open: windowOpen.value,
      felt_readings: feltPieces.filter((p) => p.stops.value !== '').map((p) => [Number(p.mm.value), Number(p.stops.value)]),
      seconds: 60 * minutes.value,
    },
    keyOfTexts(),
  );

export function LeakForm() {
  const film = bench.good.value?.leak_film;
  const box = (value: typeof feltRound, name: string) => (
    <label>
      <input type="checkbox" checked={value.value} onChange={(e) => (value.value = e.currentTarget.checked)} /> {name}
    </label>
  );
  const number = (value: Signal<string>, name: string, most: number) => (
    <input
      class="short"
      type="number"
      min="0"
      max={most}
      step="any"
      aria-label={name}
      value={value.value}
      onInput={(e) => (value.value = e.currentTarget.value)}
    />
  );
  return (
    <form
      class="row"
      onSubmit={(e) => {
        e.preventDefault();
        begin();
      }}
    >
      <label>
        speed, ISO or EI{' '}
        <input
          type="number"
          min="0.1"
          max="100000"
          step="any"
          value={iso.value ?? film?.iso ?? 400}
          onInput={(e) => (iso.value = e.currentTarget.value)}
          onChange={() => {
            if (!(Number(iso.value) > 0)) iso.value = null;
          }}
        />
        {film && (
          <small>
            {' '}
            left empty: {film.film}, {film.from}
          </small>
        )}
      </label>
      <fieldset class="row">
        <legend>of a back</legend>
        {box(feltRound, 'felt round the holder')}
        {box(feltGroove, 'felt in the groove')}
      </fieldset>
      <fieldset class="row">
        <legend>of a holder in the pack's place</legend>
        {box(feltPack, 'felt beside it')}
      </fieldset>
      <fieldset class="row">
        <legend>of an insert</legend>
        {box(feltFeet, 'felt under its feet')}
        {box(feltFloor, 'felt round its floor')}
        {box(feltBores, 'felt in its bores')}
        {box(windowOpen, 'red window open')}
      </fieldset>
      <fieldset class="row" aria-describedby="felt-readings">
        <legend>felt by a light meter</legend>
        {feltPieces.map((piece, i) => (
          <span key={i}>
            {number(piece.mm, `thickness of the ${i ? 'second' : 'first'} piece of felt, mm`, 100)} mm takes {number(piece.stops, `stops that the ${i ? 'second' : 'first'} piece of felt takes`, 60)} stops
          </span>
        ))}
      </fieldset>
      <p class="lead" id="felt-readings">
        Two pieces of your felt, as thick as it will lie pressed, and by how many stops a light meter falls behind each. Left empty, what felt passes is not counted.
      </p>
      <label>
        walk for about{' '}
        <select value={minutes.value} onChange={(e) => (minutes.value = Number(e.currentTarget.value))}>
          {[0.25, 1, 5, 20, 60].map((m) => (
            <option key={m} value={m}>
              {m < 1 ? `${60 * m} s` : `${m} min`}
            </option>
          ))}
        </select>
      </label>
      <button class="button chief" type="submit" disabled={leaking.state.value.running !== null || bench.stale.value}>
        Follow the light
      </button>
    </form>
  );
}

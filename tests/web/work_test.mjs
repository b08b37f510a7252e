// SPDX-License-Identifier: MIT
// What takes long: results made, recordings timed, light followed; each seen through and each stopped.
import assert from 'node:assert/strict';
import { existsSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { after, test } from 'node:test';
import { browser, children, opened, served, sheet } from './opened.mjs';

after(() => browser.close());

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

async function readable(page, what) {
  await page.evaluate(axe);
  for (const size of [{ width: 390, height: 844 }, { width: 1280, height: 800 }]) {
    await page.setViewportSize(size);
    const found = await page.evaluate(() => window.axe.run());
    assert.deepEqual(
      found.violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.html).slice(0, 3)}`),
      [],
      `${what} at ${size.width}`,
    );
    const wider = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    assert.ok(wider <= 0, `${what} at ${size.width} is ${wider} px wider than the window`);
  }
}

async function until(what, holds) {
  for (let i = 0; i < 100; ++i) {
    if (holds()) return;
    await new Promise((r) => setTimeout(r, 100));
  }
  assert.fail(what);
}

test('everything is made, listed and opened from its folder alone', async (t) => {
  const bench = await opened(t, 'kestrel/kestrel-4x5.conversion.toml', { bypassCSP: true });
  const { page } = bench;
  const folder = join(bench.folder, 'kestrel/kestrel-4x5-made');
  await sheet(page, 'Make');
  await page.getByRole('button', { name: 'Make everything' }).click();
  const sheetLink = page.getByRole('link', { name: 'build-sheet.pdf' });
  await sheetLink.waitFor({ timeout: 120_000 });
  await page.getByText('Made.', { exact: true }).waitFor();
  assert.ok(existsSync(join(folder, 'build-sheet.pdf')));
  await readable(page, 'Make');
  // Every link gives the bytes that stand in the folder, and says what they are.
  const links = await page.locator('.leaf a').evaluateAll((all) => all.map((a) => a.href));
  assert.ok(links.length >= 5);
  for (const link of links) {
    const answer = await fetch(link);
    assert.equal(answer.status, 200, link);
    const name = new URL(link).pathname.split('/').slice(3).join('/');
    assert.deepEqual(Buffer.from(await answer.arrayBuffer()), readFileSync(join(folder, name)), name);
    const type = answer.headers.get('content-type');
    if (name.endsWith('.pdf')) assert.equal(type, 'application/pdf');
    if (name.endsWith('.stl')) assert.equal(answer.headers.get('content-disposition'), 'attachment');
  }
  // No other file, no other address, nothing that was changed since.
  const way = links[0].slice(0, links[0].indexOf('/build-sheet'));
  const status = async (address) => (await fetch(address)).status;
  assert.equal(await status(`${way}/contents.txt`), 404);
  assert.equal(await status(`${way}/..%2Fkestrel.camera.toml`), 404);
  assert.equal(await status(`${bench.origin}/made/${bench.token}/build-sheet.pdf`), 403);
  assert.equal(await status(`${bench.origin}/made/build-sheet.pdf`), 403);
  writeFileSync(join(folder, 'report.json'), 'changed');
  assert.equal(await status(`${way}/report.json`), 404);
  // What somebody has changed is not written over.
  await page.getByRole('button', { name: 'Make everything' }).click();
  await page.getByText('was changed since this program made it').waitFor({ timeout: 60_000 });
  assert.equal(readFileSync(join(folder, 'report.json'), 'utf8'), 'changed');
  assert.deepEqual(bench.complaints, []);
});

test('a make that is stopped leaves nothing behind, and none of its processes', async (t) => {
  const bench = await opened(t, 'kestrel/kestrel-6x6.conversion.toml');
  const { page } = bench;
  await sheet(page, 'Make');
  await page.getByRole('button', { name: 'Make everything' }).click();
  await page.locator('.working', { hasText: /, [1-9]\d* s/ }).waitFor({ timeout: 60_000 });
  assert.equal(children(bench.program).length, 1);
  await page.getByRole('button', { name: 'Stop' }).click();
  await until('the process goes on', () => children(bench.program).length === 0);
  assert.deepEqual(readdirSync(join(bench.folder, 'kestrel')).filter((n) => n.includes('made')), []);
  // The page and the program are as they were.
  await sheet(page, 'Findings');
  await page.locator('.figures').waitFor();
  assert.deepEqual(bench.complaints, []);
});

test('a folder that is named is the one that is written', async (t) => {
  const words = [];
  const bench = await opened(t, 'bittern/bittern-paper.conversion.toml', {
    words,
    prepare: (folder) => words.push('-o', join(folder, 'elsewhere')),
  });
  const { page } = bench;
  await sheet(page, 'Make');
  await page.getByText(join(bench.folder, 'elsewhere')).waitFor();
  await page.getByRole('button', { name: 'Make everything' }).click();
  await page.getByRole('link', { name: 'build-sheet.pdf' }).waitFor({ timeout: 120_000 });
  assert.ok(existsSync(join(bench.folder, 'elsewhere/build-sheet.pdf')));
});

test('a newer text ends the study of the older one', async (t) => {
  const bench = await opened(t, 'kestrel/kestrel-6x6.conversion.toml');
  const { page } = bench;
  await sheet(page, 'Winding');
  await until('no study begins', () => children(bench.program).length === 1);
  const [before] = children(bench.program);
  // On another sheet it goes on.
  await sheet(page, 'Findings');
  await page.waitForTimeout(300);
  assert.deepEqual(children(bench.program), [before]);
  await bench.area.fill(`${bench.text()}# newer\n`);
  await until('the older study goes on', () => !children(bench.program).includes(before));
});

test('a recording is timed, and its speeds written at their place', async (t) => {
  const bench = await opened(t, 'heron/heron-120.conversion.toml', { bypassCSP: true });
  const { page } = bench;
  const camera = bench.text(join(bench.folder, 'heron/heron.camera.toml'));
  await sheet(page, 'Shutter');
  await page.getByLabel('marked speeds, in order').fill('1/25 s, 1/50 s, 1/100 s');
  await page.getByLabel('rise of the sensor').fill('20 us ± 5');
  await page.locator('input[type=file]').setInputFiles(join(bench.folder, 'heron/heron-shutter.wav'));
  const rows = page.getByRole('region', { name: 'Speeds of the recording' }).getByRole('row');
  await rows.nth(3).waitFor({ timeout: 60_000 });
  // As `backfit trace` prints them; README shows it.
  assert.match(await rows.nth(2).textContent(), /1\/50 s2.*± .*\+0\.32/);
  await readable(page, 'Shutter with a recording');
  const write = page.getByRole('button', { name: 'Write these speeds into the text' });
  await write.click();
  await page.getByText('The camera file holds these speeds').waitFor();
  const written = await bench.area.inputValue();
  assert.match(written, /effective = "24\.5 ms ± /);
  // Every line that stood there still does, but for the values of speeds that were there before.
  const lost = camera.split('\n').filter((line) => !written.includes(line));
  assert.ok(lost.every((line) => line.startsWith('effective')), lost.join('\n'));
  await page.getByRole('button', { name: 'Undo' }).click();
  await page.waitForFunction(() => !document.querySelector('.files [role=status]').textContent.includes('camera'));
  assert.deepEqual(bench.complaints, []);
});

test('what is no recording is told from one', async (t) => {
  const bench = await opened(t, 'kestrel/kestrel-4x5.conversion.toml');
  const { page } = bench;
  await sheet(page, 'Shutter');
  await page.locator('input[type=file]').setInputFiles({ name: 'odd.wav', mimeType: 'audio/wav', buffer: Buffer.from('RIFF and no more') });
  await page.getByText("'odd.wav' is no sound file").waitFor({ timeout: 60_000 });
  await page.locator('input[type=file]').setInputFiles({ name: 'long.wav', mimeType: 'audio/wav', buffer: Buffer.alloc(23_000_000) });
  await page.getByText('up to 22 MB are taken').waitFor();
  // Dropped anywhere on the page, from another sheet.
  await sheet(page, 'Findings');
  await page.evaluate(() => {
    const data = new DataTransfer();
    data.items.add(new File(['no numbers'], 'dropped.csv', { type: 'text/csv' }));
    document.body.dispatchEvent(new DragEvent('drop', { dataTransfer: data, bubbles: true, cancelable: true }));
  });
  await page.getByText('dropped.csv, line 1: there is no table of numbers').waitFor({ timeout: 60_000 });
});

test('what is not measured yet is asked for, with the picture', async (t) => {
  const bench = await opened(t, 'kestrel/kestrel-4x5.conversion.toml', { bypassCSP: true });
  const { page } = bench;
  await page.getByRole('tab', { name: 'kestrel.camera.toml' }).click();
  const camera = await bench.area.inputValue();
  // The seat's groove is surveyed no more.
  await bench.area.fill(camera.replace(/^depth = .*$/m, 'depth = ""'));
  await page.getByText('Measure, and write it into the camera file').waitFor();
  const picture = page.getByRole('img', { name: /marked: L seat\.groove\.depth/ });
  await picture.waitFor();
  assert.ok(await picture.evaluate((img) => img.naturalWidth > 300));
  await readable(page, 'Measure next');
  assert.deepEqual(bench.complaints, []);
});

test('light is followed for as long as asked, and not after it is stopped', async (t) => {
  const bench = await opened(t, 'kestrel/kestrel-4x5.conversion.toml', { bypassCSP: true });
  const { page } = bench;
  await sheet(page, 'Leaks');
  await page.getByRole('button', { name: 'Follow the light' }).click();
  await until('no process begins', () => children(bench.program).length === 1);
  await page.getByRole('button', { name: 'Stop' }).click();
  await until('the process goes on', () => children(bench.program).length === 0);
  // One that breaks off takes nobody along.
  await page.getByRole('button', { name: 'Follow the light' }).click();
  await until('no process begins', () => children(bench.program).length === 1);
  process.kill(children(bench.program)[0], 'SIGKILL');
  await page.getByText('The program broke this off').waitFor();
  await page.getByLabel('walk for about').selectOption('0.25');
  await page.getByRole('button', { name: 'Follow the light' }).click();
  await page.getByRole('img', { name: /Light on the film from behind/ }).waitFor({ timeout: 150_000 });
  await readable(page, 'Leaks');
  await bench.area.fill(`${bench.text()}# newer\n`);
  await page.getByText('This is of an earlier text.').waitFor();
  assert.deepEqual(bench.complaints, []);
});

test('the page goes on with a program that is started again', async (t) => {
  const port = 20_000 + Math.floor(Math.random() * 30_000);
  const bench = await opened(t, 'kestrel/kestrel-4x5.conversion.toml', { words: ['--port', String(port)] });
  const { page, area } = bench;
  const text = `${bench.text()}# not saved yet\n`;
  await area.fill(text);
  bench.program.kill('SIGINT');
  assert.equal(await bench.ended, 0);
  await page.getByText('The program has ended').waitFor();
  const again = await served(bench.path, ['--port', String(port)]);
  try {
    // Until its address is opened the page may ask nothing.
    await page.getByText('This page is of an earlier run').waitFor();
    await page.evaluate((hash) => (location.hash = hash), new URL(again.address).hash);
    await page.waitForFunction(() => !document.querySelector('[role=alert]'));
    assert.equal(await area.inputValue(), text);
    await page.keyboard.press('Control+s');
    await page.waitForFunction(() => document.querySelector('.button.chief').disabled);
    assert.equal(bench.text(), text);
  } finally {
    again.program.kill('SIGINT');
    await again.ended;
  }
});

test("leaks are judged by the plan's material until a speed is typed, and felt counts by its readings", async (t) => {
  const bench = await opened(t, 'kestrel/kestrel-paper.conversion.toml');
  const { page } = bench;
  await sheet(page, 'Leaks');
  const speed = page.getByLabel('speed, ISO or EI');
  await page.getByText('left empty: EI 4 paper, from [exposure]: graded enlarging paper as negative').waitFor();
  assert.equal(await speed.inputValue(), '4');
  const follow = () => page.getByRole('button', { name: 'Follow the light' }).click();
  const felt = page.getByRole('group', { name: 'felt by a light meter' });
  await felt.getByLabel('stops that the first').fill('9');
  await follow();
  await page.getByText('The felt needs readings of two pieces').waitFor({ timeout: 60_000 });
  // A form that is redrawn while somebody types keeps what was typed.
  await felt.getByLabel('stops that the second').fill('19');
  await page.locator('form', { has: felt }).evaluate((form) => form.requestSubmit());
  await page.getByText(/found 19: measure both anew/).waitFor({ timeout: 60_000 });
  await felt.getByLabel('stops that the second').fill('17');
  await page.getByLabel('felt beside it').check();
  await follow();
  await page.getByText(/^Judged by EI 4 paper, from \[exposure\]/).waitFor({ timeout: 60_000 });
  await readable(page, 'Leaks');
  await speed.fill('100');
  await follow();
  await page.getByText('Judged by ISO 100 film, as asked on the page.').waitFor({ timeout: 60_000 });
  await speed.fill('');
  await speed.press('Tab');
  assert.equal(await speed.inputValue(), '4');
  assert.deepEqual(bench.complaints, []);
});

test('of leaking light all is shown that the answer has, and what it lacks is left out', async (t) => {
  const bench = await opened(t, 'kestrel/kestrel-4x5.conversion.toml', { bypassCSP: true });
  const { page } = bench;
  const light = { converged: true, part: 2.4e-11, part_u: 1e-12, low_95: 2.2e-11, high_95: 2.6e-11, walks: 1000, effective_walks: 300 };
  const whole = {
    schema: 'backfit.leak/1',
    verdict: 'leaks',
    iso: 400,
    columns: 3,
    rows: 1,
    patches: [
      { x_mm: -20, y_mm: 0, light },
      { x_mm: 0, y_mm: 0, light: { converged: false, part: null, effective_walks: 12 } },
      { x_mm: 20, y_mm: 0, light: { converged: false, part: null, effective_walks: 0 } },
    ],
    worst_patch: 0,
    worst_light: light,
    stops: 35.3,
    minutes_to_fog: [
      { density_rise: 0.02, minutes: 1.8, minutes_u: 0.3 },
      { density_rise: 0.1, minutes: 7, minutes_u: 1 },
    ],
    ways: [{ share: 0.8, seams: 'seat seam, below', points_mm: [[0, -90, 4], [0, -60, 4], [0, -10, 8]] }],
    seams: [{ name: 'seat seam', side: 'below', gap_mm: 0.1, length_mm: 138, transmission: 2.4e-9, share: 0.8 }],
    not_counted: ["the holder's seam: felt shuts it"],
    remedies: [
      { what: 'groove and tongue 1 mm deeper', gain_stops: 2.2, light },
      { what: 'tape over the seam', gain_stops: null, light: { converged: false, part: null, effective_walks: 0 } },
    ],
    of_a_later_version: { any: 'thing' },
  };
  let leak = whole;
  await page.route('**/api/leak', (route) =>
    route.fulfill({
      contentType: 'text/event-stream',
      body: `event: answer\ndata: ${JSON.stringify({ messages: { messages: [] }, why_not: null, leak })}\n\n`,
    }),
  );
  const follow = async () => {
    await page.getByRole('button', { name: 'Follow the light' }).click();
    await page.locator('.leaf .verdict').waitFor();
  };
  await sheet(page, 'Leaks');
  await follow();
  await page.getByText('35.3 stops').waitFor();
  await page.getByRole('img', { name: /parts of full daylight.*2\.4·10⁻¹¹, not sure, dark/ }).waitFor();
  assert.match(await page.getByRole('region', { name: 'Ways of the light' }).textContent(), /seat seam, below.*80 %/);
  assert.match(await page.locator('.leaf').textContent(), /110 s.*7 min.*tape over the seamno light found/s);
  await readable(page, 'Leaks');
  // The ways stand among the parts as well.
  await sheet(page, 'Parts');
  await page.getByLabel('ways of leaking light').waitFor({ timeout: 60_000 });
  const picture = async () => {
    await page.waitForTimeout(500);
    return (await page.locator('canvas.model').screenshot()).toString('base64');
  };
  const drawn = await picture();
  await page.getByLabel('ways of leaking light').uncheck();
  assert.notEqual(await picture(), drawn);
  // Each member alone may be missing.
  await sheet(page, 'Leaks');
  for (const name of Object.keys(whole)) {
    const { [name]: _, ...rest } = whole;
    leak = rest;
    await follow();
    await page.waitForFunction(() => !document.querySelector('.working progress'));
  }
  leak = {};
  await follow();
  await page.getByText('no verdict').waitFor();
  assert.deepEqual(bench.complaints, []);
});

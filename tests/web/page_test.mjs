// SPDX-License-Identifier: MIT
// The page in Chromium: each sheet on each demo conversion, and what an owner does with the text.
import assert from 'node:assert/strict';
import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { after, test } from 'node:test';
import { browser, opened, sheet, sheets } from './opened.mjs';

after(() => browser.close());

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const conversions = readdirSync(process.env.EXAMPLES, { recursive: true })
  .map(String)
  .filter((name) => name.endsWith('.conversion.toml'))
  .sort();

for (const [i, conversion] of conversions.entries()) {
  test(`every sheet of ${conversion} can be read by everyone`, async (t) => {
    const colorScheme = i % 2 ? 'dark' : 'light';
    const bench = await opened(t, conversion, { bypassCSP: true, colorScheme });
    const { page } = bench;
    await page.evaluate(axe);
    for (const name of sheets) {
      await sheet(page, name);
      await page.waitForFunction(() => !document.querySelector('.leaf')?.textContent?.startsWith('Trying'));
      if (name === 'Make') await page.getByText('Nothing has been made there yet').waitFor();
      if (name === 'Parts') await page.waitForSelector('canvas.model', { timeout: 90_000 });
      for (const size of [{ width: 1280, height: 800 }, { width: 390, height: 844 }]) {
        await page.setViewportSize(size);
        const found = await page.evaluate(() => window.axe.run());
        assert.deepEqual(
          found.violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.html).slice(0, 3)}`),
          [],
          `${name} at ${size.width}`,
        );
        const wider = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
        assert.ok(wider <= 0, `${name} at ${size.width} is ${wider} px wider than the window`);
      }
    }
    assert.deepEqual(bench.complaints, []);
  });
}

test('a mistake is told as it is typed, mended and saved', async (t) => {
  const bench = await opened(t, 'kestrel/kestrel-4x5.conversion.toml');
  const { page, area } = bench;
  const before = bench.text();
  await area.fill(before.replace('holder_depth = "5.00 mm ± 0.10"', 'holder_depth = "5.00 mn ± 0.10"'));
  await page.getByText("'mn' is not a unit of length").waitFor();
  assert.equal(await page.locator('.text mark.error').textContent(), 'mn');
  assert.equal(bench.text(), before, 'nothing is saved unasked');
  await page.getByRole('button', { name: 'conversion file, line 9' }).click();
  assert.equal(await area.evaluate((a) => a.value.slice(a.selectionStart, a.selectionEnd)), 'mn');
  await page.keyboard.type('mm');
  await page.getByText('No mistakes in the text.').waitFor();
  await area.fill(before.replace('5.00 mm ± 0.10', '5.40 mm ± 0.10'));
  await page.keyboard.press('Control+s');
  await page.getByRole('status').getByText('saved', { exact: false }).waitFor();
  await page.waitForFunction(() => document.querySelector('.button.chief').disabled);
  assert.equal(bench.text(), before.replace('5.00 mm ± 0.10', '5.40 mm ± 0.10'));
  await page.getByRole('button', { name: 'Undo' }).click();
  await page.waitForFunction(() => !document.querySelector('.button.chief').disabled);
});

test('a dial turns its number in the text and no other byte', async (t) => {
  const bench = await opened(t, 'kestrel/kestrel-4x5.conversion.toml');
  const { page, area } = bench;
  const before = bench.text();
  await sheet(page, 'Frame');
  const dial = page.getByRole('slider', { name: 'holder depth' });
  await dial.fill('5.6');
  await page.waitForFunction(() => document.querySelector('textarea').value.includes('5.60 mm'));
  assert.equal(await area.inputValue(), before.replace('"5.00 mm ± 0.10"', '"5.60 mm ± 0.10"'));
  await dial.focus();
  await page.keyboard.press('ArrowRight');
  await page.waitForFunction(() => document.querySelector('textarea').value.includes('5.61 mm'));
  // Turns within a moment are one step back; on a slow machine these two are two.
  await page.keyboard.press('Control+z');
  await page.keyboard.press('Control+z');
  await page.waitForFunction(() => document.querySelector('textarea').value.includes('5.00 mm ± 0.10'));
  // The number at the cursor, turned by the keys alone.
  await area.evaluate((a) => {
    const at = a.value.indexOf('120.5');
    a.focus();
    a.setSelectionRange(at, at);
  });
  await page.locator('.text mark.dial', { hasText: '120.5' }).waitFor();
  await page.keyboard.press('Alt+ArrowUp');
  await page.waitForFunction(() => document.querySelector('textarea').value.includes('"120.6 mm ± 0.2"'));
  assert.equal(bench.text(), before);
});

test('what another editor writes is read, and never written over', async (t) => {
  const bench = await opened(t, 'kestrel/kestrel-4x5.conversion.toml');
  const { page, area } = bench;
  const before = bench.text();
  writeFileSync(bench.path, before.replace('f/9', 'f/18'));
  await page.waitForFunction(() => document.querySelector('textarea').value.includes('f/18'));
  await area.fill(before.replace('f/9', 'f/25'));
  writeFileSync(bench.path, before.replace('f/9', 'f/36'));
  await page.getByText('Another editor has changed').waitFor();
  await page.keyboard.press('Control+s');
  await page.waitForTimeout(300);
  assert.ok(bench.text().includes('f/36'));
  await page.getByRole('button', { name: 'Read theirs' }).click();
  assert.ok((await area.inputValue()).includes('f/36'));
  await page.getByRole('button', { name: 'Undo' }).click();
  assert.ok((await area.inputValue()).includes('f/25'));
  await page.keyboard.press('Control+s');
  await page.waitForFunction(() => document.querySelector('.button.chief').disabled);
  assert.ok(bench.text().includes('f/25'), 'seen and then saved over on purpose');
});

test('two tabs hold the same text', async (t) => {
  const bench = await opened(t, 'heron/heron-120.conversion.toml');
  const second = await bench.newPage();
  const text = `${bench.text()}# from the first tab\n`;
  await bench.area.fill(text);
  await bench.page.keyboard.press('Control+s');
  await second.waitForFunction(() => document.querySelector('textarea').value.includes('# from the first tab'));
});

test('the page says when the program has ended, and keeps the text', async (t) => {
  const bench = await opened(t, 'bittern/bittern-paper.conversion.toml');
  await bench.area.fill(`${bench.text()}# not saved yet\n`);
  bench.program.kill('SIGINT');
  assert.equal(await bench.ended, 0);
  await bench.page.getByText('The program has ended').waitFor();
  assert.ok((await bench.area.inputValue()).includes('# not saved yet'));
});

test('the keys reach every sheet', async (t) => {
  const bench = await opened(t, 'kestrel/kestrel-4x5.conversion.toml');
  const { page } = bench;
  for (const [i, name] of sheets.entries()) {
    await page.keyboard.press(`Alt+${(i + 1) % 10}`);
    assert.equal((await page.locator('.sheet [aria-selected=true]').textContent()).replace(' …', ''), name);
  }
  await page.locator('.sheet [aria-selected=true]').focus();
  await page.keyboard.press('ArrowRight');
  assert.equal(await page.evaluate(() => document.activeElement.textContent), 'Findings');
});

test('film is wound frame by frame', async (t) => {
  const bench = await opened(t, 'kestrel/kestrel-6x6.conversion.toml');
  const { page } = bench;
  await sheet(page, 'Winding');
  await page.waitForSelector('svg.section', { timeout: 120_000 });
  const winder = page.getByRole('slider', { name: 'wound to' });
  await winder.fill('12');
  await page.getByText('frame 12', { exact: false }).first().waitFor();
  // What it meets in the chamber is shown among its parts, with the sizes of the camera file.
  await sheet(page, 'Parts');
  await page.getByRole('row', { name: /latch of the back stays.* 18\.0 × 3\.0 × 5\.0 mm/ }).waitFor({ timeout: 120_000 });
  await page.getByRole('row', { name: /old roller comes out/ }).waitFor();
  assert.deepEqual(bench.complaints, []);
});

test('parts stand in the camera, apart and cut', async (t) => {
  const bench = await opened(t, 'kestrel/kestrel-4x5.conversion.toml');
  const { page } = bench;
  await sheet(page, 'Parts');
  await page.getByRole('row', { name: 'back plate' }).waitFor({ timeout: 60_000 });
  const picture = async () => {
    await page.waitForTimeout(400);
    return (await page.locator('canvas.model').screenshot()).toString('base64');
  };
  const first = await picture();
  await page.locator('canvas.model').focus();
  await page.keyboard.press('ArrowLeft');
  const turned = await picture();
  assert.notEqual(turned, first);
  await page.getByRole('slider', { name: 'cut' }).fill('0.5');
  const halved = await picture();
  assert.notEqual(halved, turned);
  await page.getByLabel('edges only').check();
  const edges = await picture();
  assert.notEqual(edges, halved);
  await page.getByRole('slider', { name: 'apart' }).fill('1');
  await page.locator('canvas.model').focus();
  await page.keyboard.press('Shift+ArrowLeft');
  assert.notEqual(await picture(), edges);
  assert.deepEqual(bench.complaints, []);
});

// Truth: Kestrel's files. The old gate lies 0.60 mm before the film, the bellows frame 6.0 mm.
test('distances are measured between faces and points, by mouse and by keys', async (t) => {
  const bench = await opened(t, 'kestrel/kestrel-4x5.conversion.toml');
  const { page } = bench;
  await sheet(page, 'Parts');
  await page.getByRole('row', { name: 'back plate' }).waitFor({ timeout: 60_000 });
  const says = page.getByRole('region', { name: 'Distances' }).getByRole('status');
  const option = async (box, beginning) => {
    const select = page.getByLabel(`${box} the face`);
    const all = await select.locator('option').allTextContents();
    await select.selectOption({ label: all.find((o) => o.startsWith(beginning)) });
  };
  await option('from', 'old gate');
  await option('to', 'bellows frame');
  assert.match(await says.textContent(), /^5\.40 mm along z from old gate.* to bellows frame.*nearer the lens/);
  await option('to', 'back plate: left');
  assert.match(await says.textContent(), /square to each other/);
  await page.getByRole('button', { name: 'Clear' }).click();
  // From behind, the plate's middle is a hole: the picture is shifted until the plate stands there.
  await page.getByLabel('points').check();
  const model = page.locator('canvas.model');
  await model.focus();
  const first = async () => (await says.textContent()).startsWith('First');
  for (let i = 0; i < 12 && !(await first()); ++i) {
    await page.keyboard.press('Shift+ArrowRight');
    await page.waitForTimeout(150);
    await page.keyboard.press('Enter');
  }
  assert.ok(await first(), await says.textContent());
  for (let i = 0; i < 4; ++i) await page.keyboard.press('Shift+ArrowUp');
  await page.waitForTimeout(300);
  await page.keyboard.press('Enter');
  assert.match(await says.textContent(), /^\d+\.\d\d mm from back plate, .* to back plate, .* mm along z\.$/);
  // A click on the same place gives a face.
  await page.getByLabel('faces').check();
  const box = await model.boundingBox();
  await page.mouse.click(box.x + box.width / 2, box.y + box.height / 2);
  await says.getByText('Now the other face').waitFor();
  assert.deepEqual(bench.complaints, []);
});

// As `backfit expose --ev 12 --subject 1000` prints it.
test('a meter reading is answered at every stop while it is turned', async (t) => {
  const bench = await opened(t, 'bittern/bittern-paper.conversion.toml');
  const { page } = bench;
  await sheet(page, 'Light');
  const meter = page.getByRole('region', { name: 'A meter reading' });
  await meter.getByLabel('subject, m').fill('1');
  await meter.getByRole('slider').fill('12');
  await meter.getByText('Subject at 1 m, extension +0.42 stop').waitFor();
  const says = async (stop) => meter.locator('.figures div', { has: page.getByText(stop, { exact: true }) }).locator('dd').textContent();
  assert.equal(await says('f/9'), '0.66 s');
  assert.equal(await says('f/6.3'), '(1/3 s)');
  await meter.getByRole('slider').focus();
  await page.keyboard.press('ArrowLeft');
  await page.waitForFunction(() => document.querySelector('section[aria-label="A meter reading"]').textContent.includes('11.75'));
  await page.waitForFunction(() => ![...document.querySelectorAll('.figures dd')].some((d) => d.textContent === '0.66 s'));
  assert.deepEqual(bench.complaints, []);
});

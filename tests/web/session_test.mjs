// SPDX-License-Identifier: MIT
// A whole session: from empty files to a folder of results, with mistakes, a second tab, another
// editor and a program that ends on the way.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { copyFileSync, existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { after, test } from 'node:test';
import { browser, opened, served, sheet } from './opened.mjs';

after(() => browser.close());

// Both files as `backfit new` gives them, side by side, the conversion naming the camera.
function begin(folder) {
  const made = (kind) => {
    execFileSync(process.env.BACKFIT, ['new', kind, '-o', join(folder, `new-${kind}`)], { stdio: 'ignore' });
    return join(folder, `new-${kind}`, `new.${kind}.toml`);
  };
  mkdirSync(join(folder, 'mine'));
  copyFileSync(made('camera'), join(folder, 'mine/new.camera.toml'));
  const plan = readFileSync(made('conversion'), 'utf8');
  assert.match(plan, /^camera = ""/m);
  writeFileSync(join(folder, 'mine/new.conversion.toml'), plan.replace('camera = ""', 'camera = "new.camera.toml"'));
}

test('a camera is surveyed, mended, matched and made', async (t) => {
  const port = 20_000 + Math.floor(Math.random() * 30_000);
  const bench = await opened(t, 'mine/new.conversion.toml', { prepare: begin, words: ['--port', String(port)] });
  const { page, area } = bench;
  const cameraFile = join(bench.folder, 'mine/new.camera.toml');
  const example = (name) => readFileSync(join(bench.folder, 'kestrel', name), 'utf8');

  // Nothing is filled in: what to measure is asked for, with the picture.
  await page.getByRole('img', { name: /marked: .*A gate\.width/ }).waitFor();
  const mistakes = page.locator('.remarks .sev.error');
  assert.ok((await mistakes.count()) > 10);

  // Filled in, with a slip of the unit and a misspelt key.
  await page.getByRole('tab', { name: /new\.camera\.toml/ }).click();
  const good = example('kestrel.camera.toml');
  const slips = good.replace(/^(before_film = "[\d.]+ )mm/m, '$1mn').replace(/^travel_forward/m, 'travel_forwrad');
  assert.notEqual(slips, good);
  await area.fill(slips);
  await page.getByRole('tab', { name: /new\.conversion\.toml/ }).click();
  await area.fill(example('kestrel-4x5.conversion.toml').replace('kestrel.camera.toml', 'new.camera.toml'));
  await page.getByText('2 mistakes in the text.').waitFor();
  for (const [found, needed] of [['mn', 'mm'], ['travel_forwrad', 'travel_forward']]) {
    await page.locator('.remarks li', { hasText: found }).getByRole('button').click();
    await page.waitForFunction((word) => {
      const a = document.querySelector('textarea');
      return a.value.slice(a.selectionStart, a.selectionEnd) === word;
    }, found);
    await page.keyboard.type(needed);
  }
  await page.getByText('No mistakes in the text.').waitFor();
  await page.locator('.leaf .figures').waitFor();
  await page.keyboard.press('Control+s');
  await page.waitForFunction(() => document.querySelector('.button.chief').disabled);
  assert.equal(readFileSync(cameraFile, 'utf8'), good);

  // A second tab has both texts; what it saves is read here.
  const second = await bench.newPage();
  const plan = await second.locator('textarea').inputValue();
  assert.match(plan, /method = "back on the seat"/);
  await second.locator('textarea').fill(plan.replace('aperture = "f/9"', 'aperture = "f/18"'));
  await second.keyboard.press('Control+s');
  await page.getByRole('tab', { name: /new\.conversion\.toml/ }).click();
  await page.waitForFunction(() => document.querySelector('textarea').value.includes('f/18'));
  await second.close();
  // So is what another editor writes.
  writeFileSync(bench.path, plan.replace('aperture = "f/9"', 'aperture = "f/12.5"'));
  await page.waitForFunction(() => document.querySelector('textarea').value.includes('f/12.5'));

  // Matched.
  await sheet(page, 'Films');
  await page.getByRole('row', { name: /4 × 5 in sheet film/ }).first().waitFor();

  // The program ends and comes back.
  bench.program.kill('SIGINT');
  await bench.ended;
  await page.getByText('The program has ended').waitFor();
  const again = await served(bench.path, ['--port', String(port)]);
  try {
    await page.evaluate((hash) => (location.hash = hash), new URL(again.address).hash);
    await page.waitForFunction(() => !document.querySelector('[role=alert]'));

    // Turned, saved and made in one go.
    await sheet(page, 'Make');
    await page.getByRole('slider', { name: 'holder depth' }).fill('5.2');
    await page.waitForFunction(() => document.querySelector('textarea').value.includes('5.20 mm'));
    await page.getByRole('button', { name: 'Save both files and make everything' }).click();
    await page.getByText('Made.', { exact: true }).waitFor({ timeout: 120_000 });
    await page.getByRole('link', { name: 'build-sheet.pdf' }).waitFor();
    assert.match(bench.text(), /5\.20 mm/);
    const report = JSON.parse(readFileSync(join(bench.folder, 'mine/new-made/report.json'), 'utf8'));
    assert.equal(report.focus.f_number, 12.5);
    assert.ok(existsSync(join(bench.folder, 'mine/new-made/parts/back-plate.stl')));
  } finally {
    again.program.kill('SIGINT');
    await again.ended;
  }
});

// SPDX-License-Identifier: MIT
// How long a turned dial takes to a new picture, measured in the page: event to frame drawn.
//   tests/web/run.py build/release/backfit build/release/web-tests bench/workbench_turns.mjs
import { mkdtempSync, rmSync, cpSync } from 'node:fs';
import { spawn } from 'node:child_process';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { browser } from './opened.mjs';

const folder = mkdtempSync(join(tmpdir(), 'backfit-turns-'));
cpSync(process.env.EXAMPLES, folder, { recursive: true });
const program = spawn(process.env.BACKFIT, ['open', join(folder, 'kestrel/kestrel-4x5.conversion.toml')]);
const address = await new Promise((found) => {
  program.stdout.on('data', (text) => found(String(text).match(/http:\S+/)?.[0]));
});
try {
  const page = await (await browser.newContext({ viewport: { width: 1280, height: 800 } })).newPage();
  await page.goto(address);
  await page.waitForSelector('.figures');
  for (const [sheet, dial, from, step] of [
    ['Findings', 'holder depth', 4, 0.02],
    ['Frame', 'holder depth', 4.5, 0.02],
    ['Frame', 'aperture', 9, 0.5],
    ['Focus', 'room behind infinity', 7, 0.1],
  ]) {
    await page.getByRole('tab', { name: sheet, exact: true }).click();
    await page.waitForTimeout(1200);
    await page.evaluate(() => performance.clearMeasures());
    for (let i = 0; i < 40; ++i) {
      await page.getByRole('slider', { name: dial }).fill(String(Number((from + (i % 20) * step).toFixed(2))));
      await page.waitForTimeout(120);
    }
    const ms = await page.evaluate(() => performance.getEntriesByName('turn').map((e) => e.duration).sort((a, b) => a - b));
    const at = (share) => `${ms[Math.floor(share * (ms.length - 1))].toFixed(0)} ms`;
    console.log(`${sheet}, ${dial}: median ${at(0.5)}, nineteen of twenty within ${at(0.95)}`);
  }
} finally {
  await browser.close();
  program.kill('SIGINT');
  rmSync(folder, { recursive: true });
}

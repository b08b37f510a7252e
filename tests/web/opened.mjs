// SPDX-License-Identifier: MIT
// What the page's tests share: a copy of the examples, the program serving one of them, a browser.
import { spawn } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from 'playwright-core';

export const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM,
  // As root in a container there is no sandbox to be had, and little shared memory; solids are drawn
  // without a graphics card.
  args: ['--no-sandbox', '--disable-dev-shm-usage', '--use-angle=swiftshader', '--enable-unsafe-swiftshader'],
});

// The program serving the conversion at `path`, its end, and the page's address.
export async function served(path, words = []) {
  const program = spawn(process.env.BACKFIT, ['open', path, ...words]);
  const ended = new Promise((done) => program.on('exit', (status) => done(status)));
  const address = await new Promise((found, failed) => {
    let said = '';
    program.stdout.on('data', (text) => {
      said += text;
      const url = said.match(/http:\S+/);
      if (url) found(url[0]);
    });
    program.stderr.on('data', (text) => (said += text));
    program.on('exit', () => failed(new Error(said)));
  });
  return { program, ended, address };
}

// Processes that the program has started and that still run.
export function children(program) {
  return readdirSync('/proc')
    .filter((n) => /^\d+$/.test(n))
    .filter((n) => {
      try {
        const [, state, parent] = readFileSync(`/proc/${n}/stat`, 'utf8').match(/\) (\S) (\d+)/);
        return Number(parent) === program.pid && state !== 'Z';
      } catch {
        return false; // gone meanwhile
      }
    })
    .map(Number);
}

// The program on a copy of the example, with an open page and what it complained of; all of it ends
// with the test `t`.
export async function opened(t, example, options = {}) {
  const folder = mkdtempSync(join(tmpdir(), 'backfit-page-'));
  cpSync(process.env.EXAMPLES, folder, { recursive: true });
  options.prepare?.(folder);
  const path = join(folder, example);
  const { program, ended, address } = await served(path, options.words);
  t.after(async () => {
    program.kill('SIGINT');
    await ended;
    rmSync(folder, { recursive: true });
  });
  const context = await browser.newContext({
    viewport: { width: 1280, height: 800 },
    bypassCSP: options.bypassCSP ?? false,
    colorScheme: options.colorScheme ?? 'light',
  });
  t.after(() => context.close());
  context.setDefaultTimeout(20_000);
  const complaints = [];
  const newPage = async () => {
    const page = await context.newPage();
    page.on('console', (m) => m.type() === 'error' && complaints.push(m.text()));
    page.on('pageerror', (e) => complaints.push(e.message));
    await page.goto(address);
    await page.waitForSelector('.leaf .figures, .remarks .error');
    return page;
  };
  const page = await newPage();
  return {
    address,
    origin: new URL(address).origin,
    token: new URL(address).hash.slice(1),
    folder,
    path,
    program,
    ended,
    page,
    newPage,
    complaints,
    text: (name = path) => readFileSync(name, 'utf8'),
    area: page.locator('textarea'),
  };
}

export const sheets = ['Findings', 'Frame', 'Focus', 'Films', 'Light', 'Shutter', 'Winding', 'Parts', 'Leaks', 'Make'];
export const sheet = (page, name) => page.getByRole('tab', { name, exact: true }).click();

// SPDX-License-Identifier: MIT
// Other sites and rude programs against the server: refused there, and nothing written.
import assert from 'node:assert/strict';
import { createServer, request } from 'node:http';
import { connect } from 'node:net';
import { after, test } from 'node:test';
import { browser, opened } from './opened.mjs';

after(() => browser.close());

// One raw request; node's own client would mend its head.
function raw(port, text) {
  return new Promise((done) => {
    let answer = '';
    const socket = connect(port, '127.0.0.1', () => socket.write(text));
    socket.on('data', (d) => (answer += d));
    socket.on('close', () => done(answer));
    socket.on('error', () => done(answer));
    socket.setTimeout(5000, () => socket.destroy());
  });
}
const status = (answer) => Number(answer.split(' ')[1] ?? 0);

test('another site in the same browser gets nothing', async (t) => {
  const bench = await opened(t, 'kestrel/kestrel-4x5.conversion.toml');
  const before = bench.text();
  const site = createServer((_, answer) => {
    answer.setHeader('Content-Type', 'text/html');
    answer.end('<!doctype html><title>elsewhere</title>');
  });
  await new Promise((up) => site.listen(0, '127.0.0.1', up));
  const context = await browser.newContext();
  const page = await context.newPage();
  // With the token leaked, which is more than any site knows.
  for (const host of ['127.0.0.1', 'localhost']) {
    await page.goto(`http://${host}:${site.address().port}/`);
    const seen = await page.evaluate(
      async ([origin, token]) => {
        const results = {};
        const attempt = async (name, path, init) => {
          results[name] = await fetch(origin + path, init).then(
            (r) => `${r.type} ${r.status}`,
            () => 'blocked',
          );
        };
        const body = JSON.stringify({ file: 'conversion', text: 'gone', seen: '' });
        await attempt('cors', '/api/files', { headers: { 'X-Backfit-Token': token } });
        await attempt('save', '/api/save', {
          method: 'POST',
          headers: { 'X-Backfit-Token': token, 'Content-Type': 'application/json' },
          body,
        });
        await attempt('simple', '/api/save', { method: 'POST', mode: 'no-cors', body });
        const load = (tag, from) =>
          new Promise((done) => {
            const e = document.createElement(tag);
            e.onload = () => done('loaded');
            e.onerror = () => done('blocked');
            e.src = origin + from;
            document.body.append(e);
          });
        results.script = await load('script', '/app.js');
        results.frame = await new Promise((done) => {
          const e = document.createElement('iframe');
          e.src = `${origin}/#${token}`;
          e.onload = () => {
            let title = 'hidden';
            try {
              title = e.contentDocument.title;
            } catch {}
            done(title);
          };
          document.body.append(e);
        });
        return results;
      },
      [bench.origin, bench.token],
    );
    assert.equal(seen.cors, 'blocked');
    assert.equal(seen.save, 'blocked');
    assert.equal(seen.script, 'blocked');
    assert.equal(seen.frame, 'hidden');
  }
  assert.equal(bench.text(), before);
  await context.close();
  site.close();
});

test('the server itself refuses what a browser should have kept back', async (t) => {
  const bench = await opened(t, 'kestrel/kestrel-4x5.conversion.toml');
  const port = Number(new URL(bench.origin).port);
  const head = (lines) => `${lines.join('\r\n')}\r\n\r\n`;
  const host = `Host: 127.0.0.1:${port}`;
  const token = `X-Backfit-Token: ${bench.token}`;
  const cases = [
    ['its own page', ['GET / HTTP/1.1', host, 'Connection: close'], 200],
    ['its own call', ['GET /api/files HTTP/1.1', host, token, 'Connection: close'], 200],
    ['a rebound name', ['GET /api/files HTTP/1.1', `Host: evil.example:${port}`, token], 403],
    ['no token', ['GET /api/files HTTP/1.1', host], 403],
    ['another origin', ['GET /api/files HTTP/1.1', host, token, 'Origin: http://evil.example'], 403],
    ['another port', ['GET /api/files HTTP/1.1', host, token, 'Sec-Fetch-Site: same-site'], 403],
    ['a preflight', ['OPTIONS /api/save HTTP/1.1', host, 'Origin: http://evil.example'], 403],
    ['a form', ['POST /api/save HTTP/1.1', host, token, 'Content-Type: text/plain', 'Content-Length: 2'], 415],
    ['a path upwards', ['GET /../../etc/passwd HTTP/1.1', host, 'Connection: close'], 404],
    ['a long head', ['GET / HTTP/1.1', host, `X: ${'x'.repeat(20_000)}`], 431],
    ['many short fields', ['GET / HTTP/1.1', host, ...Array(20_000).fill('a: b')], 431],
    ['a large body', ['POST /api/study HTTP/1.1', host, token, 'Content-Type: application/json', 'Content-Length: 99999999'], 413],
    ['a body as large as a recording', ['POST /api/study HTTP/1.1', host, token, 'Content-Type: application/json', 'Content-Length: 9999999'], 413],
    ['too large a recording', ['POST /api/trace HTTP/1.1', host, token, 'Content-Type: application/json', 'Content-Length: 34000000'], 413],
    ["results by the page's token", [`GET /made/${bench.token}/build-sheet.pdf HTTP/1.1`, host, token], 403],
    ['a result asked for by another site', ['GET /made/x/build-sheet.pdf HTTP/1.1', host, 'Sec-Fetch-Site: cross-site'], 403],
    ['no request at all', ['hello'], 400],
  ];
  for (const [name, lines, expected] of cases) assert.equal(status(await raw(port, head(lines))), expected, name);
  // Bad JSON, and files other than the two, are told from each other and harm nothing.
  const post = (path, body) =>
    new Promise((done) => {
      const r = request(
        { port, host: '127.0.0.1', path, method: 'POST', headers: { 'X-Backfit-Token': bench.token, 'Content-Type': 'application/json' } },
        (answer) => {
          answer.resume();
          answer.on('end', () => done(answer.statusCode));
        },
      );
      r.end(body);
    });
  assert.equal(await post('/api/study', '{"conversion": '), 400);
  assert.equal(await post('/api/study', '['.repeat(100_000)), 400);
  assert.equal(await post('/api/save', '{"file": "/etc/passwd", "text": "", "seen": ""}'), 400);
  assert.equal(await post('/api/save', '{"file": "camera", "text": "x", "seen": "nothing"}'), 409);
  assert.equal(await post('/api/nothing', '{"conversion": "", "camera": ""}'), 404);
  // Half-open clients and listeners keep nobody waiting.
  const idle = Array.from({ length: 40 }, () => connect(port, '127.0.0.1'));
  for (const s of idle) s.on('error', () => {});
  await new Promise((r) => setTimeout(r, 200));
  assert.equal(status(await raw(port, head(['GET / HTTP/1.1', host, 'Connection: close']))), 200);
  for (const s of idle) s.destroy();
});

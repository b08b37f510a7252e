// SPDX-License-Identifier: MIT
// Talks to the program that served this page.

// The token came in the address's fragment, which no server sees; kept for reloads of this tab.
function given(): string {
  const fragment = location.hash.slice(1);
  if (fragment) {
    sessionStorage.setItem('token', fragment);
    history.replaceState(null, '', location.pathname);
  }
  return fragment || sessionStorage.getItem('token') || '';
}
let token = given();

// Calls `then` when the address of a new run was opened in this tab: the page goes on with it.
export function anew(then: () => void) {
  addEventListener('hashchange', () => {
    if (!location.hash) return;
    token = given();
    then();
  });
}

export class Refused extends Error {
  constructor(
    readonly status: number,
    readonly answer: { error?: string; text?: string; stamp?: string },
  ) {
    super(answer.error ?? `status ${status}`);
  }
}

async function call(path: string, body: unknown, signal?: AbortSignal): Promise<Response> {
  const headers: Record<string, string> = { 'X-Backfit-Token': token };
  if (body !== undefined) headers['Content-Type'] = 'application/json';
  const answer = await fetch(path, {
    method: body === undefined ? 'GET' : 'POST',
    headers,
    body: body === undefined ? undefined : JSON.stringify(body),
    signal,
  });
  if (!answer.ok) throw new Refused(answer.status, await answer.json().catch(() => ({})));
  return answer;
}

export async function ask<T>(path: string, body?: unknown, signal?: AbortSignal): Promise<T> {
  return (await call(path, body, signal)).json();
}

// Calls `heard` with each event of a stream until it ends.
export async function listen(
  path: string,
  body: unknown,
  heard: (name: string, data: string) => void,
  signal?: AbortSignal,
): Promise<void> {
  const answer = await call(path, body, signal);
  const reader = answer.body!.pipeThrough(new TextDecoderStream()).getReader();
  let rest = '';
  for (;;) {
    const { done, value } = await reader.read();
    if (done) return;
    rest += value;
    for (let end = rest.indexOf('\n\n'); end >= 0; end = rest.indexOf('\n\n')) {
      const lines = rest.slice(0, end).split('\n');
      rest = rest.slice(end + 2);
      const name = lines.find((l) => l.startsWith('event: '))?.slice(7);
      const data = lines.filter((l) => l.startsWith('data: ')).map((l) => l.slice(6));
      if (name) heard(name, data.join('\n'));
    }
  }
}

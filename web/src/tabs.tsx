// SPDX-License-Identifier: MIT
// A row of tabs: arrows move along it, as its role promises.
import type { Signal } from '@preact/signals';

export interface Tab<T extends string> {
  id: T;
  name: string;
  mark?: string;
}

// Where the row is wider than the window, the chosen one is brought into it.
const shown = (e: HTMLElement | null) => e?.scrollIntoView({ block: 'nearest', inline: 'nearest' });

export function Tabs<T extends string>(p: { label: string; tabs: Tab<T>[]; chosen: Signal<T>; panel: string }) {
  const go = (e: KeyboardEvent) => {
    const at = p.tabs.findIndex((t) => t.id === p.chosen.value);
    const to = { ArrowRight: at + 1, ArrowLeft: at - 1, Home: 0, End: p.tabs.length - 1 }[e.key];
    if (to === undefined) return;
    e.preventDefault();
    const tab = p.tabs[(to + p.tabs.length) % p.tabs.length];
    p.chosen.value = tab.id;
    (e.currentTarget as HTMLElement).querySelector<HTMLElement>(`#tab-${tab.id}`)?.focus();
  };
  return (
    <div class="tabs" role="tablist" aria-label={p.label} onKeyDown={go}>
      {p.tabs.map((t) => (
        <button
          class="tab"
          role="tab"
          id={`tab-${t.id}`}
          key={t.id}
          aria-selected={t.id === p.chosen.value}
          aria-controls={p.panel}
          tabIndex={t.id === p.chosen.value ? 0 : -1}
          ref={t.id === p.chosen.value ? shown : undefined}
          onClick={() => (p.chosen.value = t.id)}
        >
          {t.name}
          {t.mark && <span aria-hidden="true">{t.mark}</span>}
        </button>
      ))}
    </div>
  );
}

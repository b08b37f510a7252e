// SPDX-License-Identifier: MIT
// A drawing that the program sent as SVG, shown as the picture it is.
import { useEffect, useState } from 'preact/hooks';

export function Drawn(p: { svg: string; alt: string; class: string }) {
  const [address, set] = useState('');
  useEffect(() => {
    const made = URL.createObjectURL(new Blob([p.svg], { type: 'image/svg+xml' }));
    set(made);
    return () => URL.revokeObjectURL(made);
  }, [p.svg]);
  return address ? <img class={p.class} src={address} alt={p.alt} /> : null;
}

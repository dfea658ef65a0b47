// The engine's pictures, each with its numbers behind it.
import { useEffect, useRef } from "preact/hooks";
import * as s from "./state";
import type { PictureOf } from "./types";

function Picture({ of }: { of: PictureOf }) {
  return (
    <figure class="card">
      <figcaption><h2>{of.title}</h2></figcaption>
      <div class="drawn" dangerouslySetInnerHTML={{ __html: of.svg }} />
      <details><summary>Numbers</summary>
        <div class="table" tabIndex={0} role="region" aria-label={of.table.caption}>
          <table><caption>{of.table.caption}</caption>
            <thead><tr>{of.table.head.map((h, i) => <th key={i} scope="col">{h || <span class="hidden">phase</span>}</th>)}</tr></thead>
            <tbody>{of.table.rows.map((row, r) => <tr key={r}>{row.map((cell, c) => <td key={c}>{cell}</td>)}</tr>)}</tbody>
          </table>
        </div>
      </details>
    </figure>
  );
}

export function Pictures() {
  const host = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (!host.current) return;
    const size = new ResizeObserver(([entry]) => {
      const now = Math.max(300, Math.min(900, Math.round(entry!.contentRect.width) - 24));
      if (now === s.width.peek()) return;
      s.width.value = now;
      s.judge();
    });
    size.observe(host.current);
    return () => size.disconnect();
  }, []);
  return <div ref={host} class="pictures">{s.page.value?.pictures.map((of) => <Picture key={of.id} of={of} />)}</div>;
}

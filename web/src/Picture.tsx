// One picture of the engine, what it shows in words, and its way out.
import { effect } from "@preact/signals";
import type { ComponentChildren } from "preact";
import { useEffect, useRef } from "preact/hooks";
import { picture, place } from "./desk";
import { giveCsv, givePng, giveSvg } from "./out";
import * as s from "./state";

/** What a mark of a picture says when it is chosen: "joint:4 time:77". */
export function pick(mark: string) {
  const line = s.theLine.peek();
  for (const word of mark.split(" ")) {
    const [key, value = ""] = word.split(":");
    const index = /^\d+$/.test(value) ? Number(value) : line?.joints.findIndex((j) => j.name === value) ?? -1;
    if (index < 0) continue;
    if (key === "joint") s.joint.value = index;
    if (key === "time") s.time.value = index;
    if (key === "line") s.line.value = index;
    if (key === "check") { s.chosenCheck.value = index; s.tab.value = "checks"; }
  }
}

function chosen(event: MouseEvent) {
  const mark = (event.target as Element).closest("[data-pick]")?.getAttribute("data-pick");
  if (mark) pick(mark);
}

const letters = () => parseFloat(getComputedStyle(document.documentElement).fontSize) / 16;

/** Draws into the host and says how wide it is and whether it is in sight. */
function draws(host: HTMLElement, id: string) {
  let seen = false;
  const say = () => place(id, Math.round(host.clientWidth / letters()), seen);
  const size = new ResizeObserver(say);
  const sight = new IntersectionObserver((list) => { seen = list.some((e) => e.isIntersecting); say(); },
    { rootMargin: "120px" });
  size.observe(host);
  sight.observe(host);
  const done = effect(() => {
    const svg = picture(id).value;
    if (svg) host.innerHTML = svg;
  });
  return () => { done(); size.disconnect(); sight.disconnect(); place(id, 0, false); };
}

export function Picture({ id, hint, after }: { id: string; hint?: string; after?: ComponentChildren }) {
  const host = useRef<HTMLDivElement>(null);
  const title = s.facts.value?.pictures.find((p) => p.id === id)?.title;
  useEffect(() => (title && host.current ? draws(host.current, id) : undefined), [id, title !== undefined]);
  if (!title) return null;
  const predicted = s.look.value?.predicted ?? false;
  const phase = [s.stale.value && "of the last good text", predicted && "prediction"].filter(Boolean).join(", ");
  return (
    <figure class={`picture of-${id}`} id={`picture-${id}`}>
      <figcaption>
        <h2>{title}</h2>
        {phase && <span class="tag">{phase}</span>}
        <span class="out" role="group" aria-label={`${title}: out of the page`}>
          <button type="button" onClick={() => void giveSvg(id)}>SVG</button>
          <button type="button" onClick={() => void givePng(id)}>PNG</button>
          <button type="button" onClick={() => void giveCsv(id)}>CSV</button>
        </span>
      </figcaption>
      <div class={`drawn ${predicted ? "predicted" : ""}`} ref={host} onClick={chosen} />
      {hint && <p class="hint">{hint}</p>}
      {after}
    </figure>
  );
}

/** Line and joint by name, for keys and for those who do not see the map. */
export function Place() {
  const facts = s.facts.value, line = s.theLine.value;
  if (!facts || !line) return null;
  return (
    <div class="place" role="group" aria-label="Girder line and joint">
      <label>Girder line
        <select id="line" value={s.line.value} onChange={(e) => { s.line.value = Number(e.currentTarget.value); }}>
          {facts.lines.map((l, i) => <option key={i} value={i}>{l.name}</option>)}
        </select>
      </label>
      <label>Joint
        <select id="joint" value={s.joint.value} onChange={(e) => { s.joint.value = Number(e.currentTarget.value); }}>
          {line.joints.map((j, i) => <option key={i} value={i}>{j.name}</option>)}
        </select>
      </label>
    </div>
  );
}


// The working side: what is checked, the file's text, its handles, its revisions.
import { useEffect, useRef } from "preact/hooks";
import { Checks } from "./Checks";
import { goTo, mountEditor } from "./editor";
import { Handles } from "./Handles";
import { Revisions } from "./Revisions";
import * as s from "./state";

const tabs: { id: s.Tab; name: string }[] = [
  { id: "checks", name: "Checks" }, { id: "handles", name: "Handles" },
  { id: "text", name: "Text" }, { id: "revisions", name: "Revisions" },
];

function turn(event: KeyboardEvent) {
  const by = event.key === "ArrowRight" ? 1 : event.key === "ArrowLeft" ? -1 : 0;
  if (!by) return;
  event.preventDefault();
  const at = tabs.findIndex((t) => t.id === s.tab.peek());
  const next = tabs[(at + by + tabs.length) % tabs.length]!;
  s.tab.value = next.id;
  document.getElementById(`tab-${next.id}`)?.focus();
}

function Faults() {
  const faults = s.faults.value;
  if (!faults.length) return <p class="fine">{s.reading.value ? "Reading …" : "The text reads without error."}</p>;
  return (
    <ul class="faults" aria-label="Errors of the text">
      {faults.map((f, i) => (
        <li key={i}>
          <button type="button" onClick={() => { s.tab.value = "text"; goTo(f.line, f.column); }}>
            {f.line ? `line ${f.line}` : "file"}</button> {f.text}
          {f.suggestion && <> Perhaps <code>{f.suggestion}</code>.</>}
        </li>
      ))}
    </ul>
  );
}

function TextPanel() {
  const host = useRef<HTMLDivElement>(null);
  useEffect(() => mountEditor(host.current!), []);
  return <><div class="editor" ref={host} /><Faults /></>;
}

export function Side() {
  const n = s.faults.value.length, open = s.checks.value?.count.fail ?? 0;
  const counts: Partial<Record<s.Tab, string>> = { text: n ? `${n}` : "", checks: open ? `${open}` : "" };
  return (
    <aside class="side" aria-label="Checks and file"><div class="bench">
      <div class="tabs" role="tablist" aria-label="Checks and file" onKeyDown={turn}>
        {tabs.map(({ id, name }) => (
          <button key={id} id={`tab-${id}`} type="button" role="tab" aria-selected={s.tab.value === id}
            aria-controls={`panel-${id}`} tabIndex={s.tab.value === id ? 0 : -1} onClick={() => { s.tab.value = id; }}>
            {name}{counts[id] && <span class="many" aria-label={id === "text" ? "errors" : "fail"}> {counts[id]}</span>}
          </button>
        ))}
      </div>
      {tabs.map(({ id }) => (
        <div key={id} id={`panel-${id}`} class={`panel ${id}`} role="tabpanel" aria-labelledby={`tab-${id}`} hidden={s.tab.value !== id}>
          {id === "text" ? <TextPanel /> : id === "handles" ? <Handles /> : id === "checks" ? <Checks /> : <Revisions />}
        </div>
      ))}
    </div></aside>
  );
}

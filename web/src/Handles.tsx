// What is moved most, by hand: each writes its value into the text, comments and layout kept.
import { signal } from "@preact/signals";
import { Refused, setValue } from "./api";
import { replaceText } from "./editor";
import { nudge } from "./nudge";
import { placeGaps } from "./gaps";
import * as s from "./state";
import { Typed } from "./Typed";

interface Handle { path: string; name: string; kind?: string[] }

const groups: { name: string; handles: (paths: string[]) => Handle[] }[] = [
  { name: "Spans and deck", handles: (paths) => [
    ...paths.filter((p) => /^spans\[\d+\]\.length$/.test(p)).map((path) => ({ path, name: `span ${/\d+/.exec(path)![0]}` })),
    { path: "girders.spacing", name: "girders apart" }, { path: "girders.overhang", name: "deck edge beyond" },
    { path: "deck.thickness", name: "deck thickness" }, { path: "deck.haunch", name: "haunch" }] },
  { name: "Panels and gap", handles: (paths) => [
    { path: "panels.length", name: "panel length" }, { path: "panels.anchor_length", name: "anchor panel" },
    { path: "panels.gap", name: "gap, width" },
    ...paths.filter((p) => /^runs\[\d+\]\.gap_at$/.test(p)).map((path) => ({ path, name: `gap of run ${/\d+/.exec(path)![0]}, from the left end` }))] },
  { name: "Days", handles: () => [
    { path: "days.phase_1_cast", name: "panels cast, phase 1" }, { path: "days.phase_2_cast", name: "panels cast, phase 2" },
    { path: "days.panels_set", name: "panels set" }, { path: "days.anchors", name: "anchors grouted" },
    { path: "days.jacking", name: "jacking" }, { path: "days.release", name: "jacks released" },
    { path: "days.haunch", name: "haunches grouted" }, { path: "days.opening", name: "opening" }] },
  { name: "Exposure", handles: () => [
    { path: "climate.humidity", name: "humidity" },
    { path: "climate.gradient_zone", name: "gradient zone", kind: ["1", "2", "3", "4"] },
    { path: "climate.asphalt", name: "asphalt", kind: ["yes", "no"] }] },
];

const refused = signal<{ path: string; text: string } | null>(null);
let last: Promise<void> = Promise.resolve(); // one after the other, each on the text the one before left

export function setHandle(path: string, value: string) {
  last = last.then(async () => {
    try {
      for (let again = 0; again < 5; again++) {
        const before = s.text.peek(), after = await setValue(before, path, value);
        if (before !== s.text.peek()) continue; // typed meanwhile
        replaceText(after);
        refused.value = null;
        return;
      }
    } catch (error) {
      refused.value = { path, text: error instanceof Refused ? error.message : String(error) };
    }
  });
}

function Row({ handle, value, origin }: { handle: Handle; value: string; origin: string }) {
  const { path, name, kind } = handle, id = `handle-${path}`;
  const fault = refused.value?.path === path ? refused.value.text
    : s.faults.value.find((f) => f.key?.split("|").includes(path))?.text;
  const by = (n: 1 | -1, big = false) => { const next = nudge(value, n, big); if (next) setHandle(path, next); };
  return (
    <div class={`handle ${origin}`}>
      <label for={id}>{name}<small>{origin === "given" ? "" : origin}</small></label>
      {kind ? (
        <select id={id} value={value} onChange={(e) => setHandle(path, e.currentTarget.value)}>
          {kind.map((k) => <option key={k}>{k}</option>)}
        </select>
      ) : (
        <span class="stepper">
          <button type="button" aria-label={`${name}: less`} onClick={(e) => by(-1, e.shiftKey)}>−</button>
          <Typed id={id} value={value} fault={fault} step={by} take={(next) => setHandle(path, next)} />
          <button type="button" aria-label={`${name}: more`} onClick={(e) => by(1, e.shiftKey)}>+</button>
        </span>
      )}
      {fault && <p class="fault">{fault}</p>}
    </div>
  );
}

export function Handles() {
  const values = new Map((s.facts.value?.values ?? []).map((v) => [v.path, v]));
  const paths = [...values.keys()];
  if (!paths.length) return <p class="fine">The handles follow the bridge.</p>;
  const gaps = paths.some((p) => p.startsWith("runs["));
  return (
    <>
      <p class="fine">Each handle writes its value into the text; comments and layout stay. Arrows step, with shift tenfold.</p>
      {groups.map((group) => (
        <fieldset key={group.name}>
          <legend>{group.name}</legend>
          {group.handles(paths).filter((h) => values.has(h.path)).map((h) => {
            const v = values.get(h.path)!;
            return <Row key={h.path} handle={h} value={v.shown} origin={v.origin} />;
          })}
          {group.name === "Panels and gap" && !gaps &&
            <button type="button" id="place-gaps" onClick={placeGaps}>Place the gaps by hand</button>}
        </fieldset>
      ))}
    </>
  );
}

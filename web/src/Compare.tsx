// A revision beside the bridge as it is now: pictures, numbers, checks, text.
import { useEffect, useRef, useState } from "preact/hooks";
import { readTree, runChecks } from "./api";
import { Changes } from "./Changes";
import { Engine } from "./engine";
import * as s from "./state";
import type { Ask, CheckList, Facts, Look, Told } from "./types";
import { count, force, margin, movement, needed, stress, type System } from "./words";

interface Half { facts: Facts; look: Look; pictures: Record<string, string>; checks: CheckList | null }
const shownKinds = ["bridge", "window", "deck"];

const asks = (engine: Engine, ask: Ask) =>
  new Promise<Told>((done) => engine.ask(ask.what, ask, done));

/** A bridge at a thrust (its own need where that is null), by an engine of its own. */
async function run(text: string, thrust_N: number | null, width: number): Promise<Half> {
  const engine = new Engine();
  try {
    const opened = await asks(engine, { what: "open", tree: await readTree(text), units: s.units.peek() });
    if (!opened.facts) throw new Error(opened.faults?.[0]?.text ?? "the text does not read");
    const facts = opened.facts, at = thrust_N ?? facts.thrust_N;
    const line = facts.governing_line, last = facts.lines[line]!.times.length - 1;
    const views = shownKinds.map((id) => ({ id, kind: facts.pictures.findIndex((p) => p.id === id), line,
      time: last, joint: 0, width })).filter((v) => v.kind >= 0);
    const told = await asks(engine, { what: "look", thrust_N: at, full: true, views });
    if (!told.seen) throw new Error(told.faults?.[0]?.text ?? "no answer");
    return { facts, ...told.seen, checks: await runChecks(text, at).catch(() => null) };
  } finally {
    engine.end();
  }
}

const windowOf = (facts: Facts, u: System) => facts.need_N != null && facts.most_N != null
  ? (facts.most_N >= facts.need_N ? force(facts.most_N - facts.need_N, u) : `lacks ${force(facts.need_N - facts.most_N, u)}`) : "none";

const rows: [string, (half: Half, u: System) => string][] = [
  ["thrust shown", (h, u) => force(h.look.thrust_N, u)],
  ["needed", (h, u) => needed(h.facts.need_N, u)],
  ["where", (h) => h.facts.need_where ?? "none"],
  ["at most", (h, u) => force(h.facts.most_N, u)],
  ["by", (h) => h.facts.most_name ?? "none"],
  ["window", (h, u) => windowOf(h.facts, u)],
  ["worst joint", (h) => (h.look.worst ? `${h.look.worst.name}, ${h.look.worst.when}` : "none")],
  ["its margin", (h, u) => spare(h.look, u)],
  ["average at jacking", (h, u) => stress(-h.look.average_Pa, u)],
  ["gap opens by", (h, u) => movement(h.look.gap_movement_m, u)],
  ["checks that fail", (h) => (h.checks ? count(h.checks.count.fail, "check") : "not run")],
  ["not proven", (h) => (h.checks ? count(h.checks.count.unproven, "check") : "not run")],
  ["worst check", (h) => worstCheck(h)],
];

function spare(look: Look, u: System): string {
  if (!look.worst) return "none";
  const { lacks, size } = margin(look, look.worst.margin_Pa, u);
  return lacks ? `lacks ${size}` : size;
}

function worstCheck(half: Half): string {
  if (!half.checks) return "not run";
  const worst = [...half.checks.checks].filter((c) => c.state !== "told" && c.ratio_1 != null)
    .sort((a, b) => b.ratio_1! - a.ratio_1!)[0];
  return worst ? `${worst.name} ${worst.ratio_1!.toFixed(2)}, ${worst.where}` : "none";
}

function Numbers({ halves, names }: { halves: [Half, Half]; names: [string, string] }) {
  const u = s.system.value;
  return (
    <table class="numbers">
      <caption>Numbers of both</caption>
      <thead><tr><th scope="col">what</th><th scope="col">{names[0]}</th><th scope="col">{names[1]}</th></tr></thead>
      <tbody>{rows.map(([name, value]) => {
        const a = value(halves[0], u), b = value(halves[1], u);
        return <tr key={name} class={a === b ? "" : "differs"}><th scope="row">{name}{a === b ? "" : <span class="hidden"> (differs)</span>}</th><td>{a}</td><td>{b}</td></tr>;
      })}</tbody>
    </table>
  );
}

/** The same picture twice on a page: its names must not be. */
const own = (svg: string, mark: string) =>
  svg.replace(/\b(id|aria-labelledby|aria-describedby)="([^"]*)"/g, (_, key: string, ids: string) =>
    `${key}="${ids.split(" ").map((id) => `${mark}-${id}`).join(" ")}"`).replace(/url\(#/g, `url(#${mark}-`);

function Pictures({ half, mark, name }: { half: Half; mark: string; name: string }) {
  return (
    <div class="half"><h3>{name}</h3>
      {shownKinds.map((id) => <div key={id} class="drawn" dangerouslySetInnerHTML={{ __html: own(half.pictures[id] ?? "", mark) }} />)}
    </div>
  );
}

export function Compare() {
  const dialog = useRef<HTMLDialogElement>(null);
  const revision = s.comparing.value;
  const [halves, show] = useState<[Half, Half] | null>(null);
  const [fault, say] = useState("");
  const [same, equal] = useState(false);
  useEffect(() => {
    if (!revision) return;
    let here = true;
    dialog.current!.showModal();
    show(null);
    say("");
    const width = Math.round(Math.min(900, Math.max(320, dialog.current!.clientWidth / (innerWidth < 900 ? 1 : 2) - 40)));
    const at = same ? s.thrust_N.peek() : null;
    Promise.all([run(revision.text ?? "", at, width), run(s.goodText.peek(), at, width)])
      .then((both) => { if (here) show(both); }, (error) => { if (here) say(error instanceof Error ? error.message : String(error)); });
    return () => { here = false; };
  }, [revision, same]);
  if (!revision) return null;
  const names: [string, string] = [revision.note || `revision ${revision.id}`, s.stale.value ? "now, without the errors" : "now"];
  return (
    <dialog class="compare" ref={dialog} aria-labelledby="compare-title" onClose={() => { s.comparing.value = null; }}>
      <header><h2 id="compare-title">{names[0]} beside {names[1]}</h2>
        <label><input type="checkbox" checked={same} onChange={(e) => equal(e.currentTarget.checked)} /> both at the thrust shown</label>
        <button type="button" onClick={() => dialog.current!.close()}>Close</button></header>
      {fault && <p class="trouble" role="alert">{fault}</p>}
      {!halves && !fault && <p class="fine" role="status">Both are run …</p>}
      {halves && <><Numbers halves={halves} names={names} />
        <div class="halves"><Pictures half={halves[0]} mark="before" name={names[0]} /><Pictures half={halves[1]} mark="now" name={names[1]} /></div></>}
      <h3>The text</h3>
      <Changes before={revision.text ?? ""} after={s.goodText.value} names={names} />
    </dialog>
  );
}

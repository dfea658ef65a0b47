// Every check, the worst first; a choice shows where on the bridge.
import { computed, signal } from "@preact/signals";
import { timeOf } from "./desk";
import * as s from "./state";
import type { Check } from "./types";
import { force, measured } from "./words";

const order = { fail: 0, unproven: 1, pass: 2, told: 3 };
const name = { fail: "fails", unproven: "not proven", pass: "passes", told: "told" };
const glyph = { fail: "✕", unproven: "?", pass: "✓", told: "i" };
const only = signal<"all" | Check["state"]>("all");

const sorted = computed(() =>
  (s.checks.value?.checks ?? []).map((check, index) => ({ check, index })).sort((a, b) =>
    order[a.check.state] - order[b.check.state] || (b.check.ratio_1 ?? 0) - (a.check.ratio_1 ?? 0)));

function choose(check: Check, index: number) {
  s.chosenCheck.value = s.chosenCheck.peek() === index ? -1 : index;
  const facts = s.facts.peek();
  if (!facts) return;
  const line = check.line_index ?? facts.lines.findIndex((l) => l.name === check.line);
  if (line >= 0) s.line.value = line;
  const joints = facts.lines[s.line.peek()]!.joints;
  const x_m = check.station_x_m ?? check.x_m;
  const named = joints.findIndex((j) => check.where.split(/[ ,]/)[0] === j.name); // J100 is not J10
  if (named >= 0) s.joint.value = named;
  else if (x_m != null)
    s.joint.value = joints.reduce((best, j, i) => (Math.abs(j.x_m - x_m) < Math.abs(joints[best]!.x_m - x_m) ? i : best), 0);
  const times = facts.lines[s.line.peek()]!;
  const day = /^day ([\d.]+)$/.exec(check.when);
  const moment = times.moments.find((m) => m.label === check.when);
  if (day) s.time.value = timeOf(s.line.peek(), Number(day[1]));
  else if (moment) s.time.value = moment.time;
}

function Detail({ check }: { check: Check }) {
  const u = s.system.value;
  return (
    <div class="detail">
      <p>{check.title}</p>
      {check.why && <p>{check.why}</p>}
      <p>{check.demand != null && `demand ${measured(check.demand, check.unit, u)}`}
        {check.capacity != null && `, against ${measured(check.capacity, check.unit, u)}`}</p>
      {check.clause && <p class="clause">{check.clause}</p>}
    </div>
  );
}

function Row({ check, index }: { check: Check; index: number }) {
  const open = s.chosenCheck.value === index;
  const ratio = check.ratio_1;
  return (
    <li class={check.state}>
      <button type="button" aria-expanded={open} onClick={() => choose(check, index)}>
        <span class="state"><span aria-hidden="true">{glyph[check.state]}</span><span class="hidden">{name[check.state]}</span></span>
        <span class="what">{check.name}<small>{[check.line, check.where, check.when].filter(Boolean).join(", ")}</small></span>
        <span class="ratio">{ratio == null ? "" : ratio.toFixed(2)}</span>
        {ratio != null && <span class="bar" aria-hidden="true"><span style={{ width: `${Math.min(100, ratio * 66.7)}%` }} /></span>}
      </button>
      {open && <Detail check={check} />}
    </li>
  );
}

export function Checks() {
  const list = s.checks.value;
  if (!list) return <p class="fine">The checks follow the full run.</p>;
  const rows = sorted.value.filter(({ check }) => only.value === "all" || check.state === only.value);
  const before = s.checkedText.value !== s.goodText.value ? " (of the text before this one)"
    : Math.abs(list.thrust_whole_N - s.thrust_N.value) < 1 ? "" : " (the full run before this thrust)";
  return (
    <>
      <p class="fine">At {force(list.thrust_whole_N, s.system.value)}
        {before}; demand over capacity, the worst first.</p>
      <div class="filter" role="group" aria-label="Which checks">
        {(["all", "fail", "unproven", "pass", "told"] as const).map((state) => (
          <button key={state} type="button" aria-pressed={only.value === state} onClick={() => { only.value = state; }}>
            {state === "all" ? `all ${list.checks.length}` : `${glyph[state]} ${name[state]} ${list.count[state]}`}</button>
        ))}
      </div>
      <ol class="rows">{rows.map(({ check, index }) => <Row key={index} check={check} index={index} />)}</ol>
      {list.not_checked && list.not_checked.length > 0 && only.value === "all" &&
        <details><summary>Not checked: {list.not_checked.length}</summary><ul>{list.not_checked.map((t, i) => <li key={i}>{t}</li>)}</ul></details>}
    </>
  );
}

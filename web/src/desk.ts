// What is looked at, to pictures of it. Two engines hold the same bridge: `predictor` answers every
// move at once from two runs a line; `runner` runs fully as soon as the hand rests.
import { batch, effect, signal, untracked, type Signal } from "@preact/signals";
import { readTree, Refused, runChecks } from "./api";
import { Engine } from "./engine";
import * as s from "./state";
import type { Facts, Fault, Told, View } from "./types";

const rest_ms = 120; // a pause of the hand before the full run
const checks_ms = 200; // and after it, before the checks

const predictor = new Engine(), runner = new Engine();
let asked = 0; // which tree was asked for last
let open = 0; // which tree the predictor holds
let runnerOpen = 0;
let resting = 0;
let serial = 0, drawn = 0; // answers that come late do not go back
let full: { open: number; thrust_N: number } | null = null; // what the runner has run

export const pictures: Record<string, Signal<string>> = {};
export const picture = (id: string) => (pictures[id] ??= signal(""));
const widths = new Map<string, number>();
const inSight = new Set<string>();

/** A picture on the page says how wide it is, and whether it is seen: only those are drawn. */
export function place(id: string, width: number, seen: boolean) {
  const before = inSight.has(id) && widths.get(id) === width;
  if (width > 0) widths.set(id, width);
  if (seen) inSight.add(id);
  else inSight.delete(id);
  if (seen && !before) drawSoon();
}

// Pictures that come into sight together are asked for together.
let soon = 0;
function drawSoon(after_ms = 0, force = false) {
  clearTimeout(soon);
  soon = window.setTimeout(() => draw(force), after_ms);
}

export function viewOf(id: string): View | null {
  const kind = untracked(() => s.facts.value?.pictures.findIndex((p) => p.id === id)) ?? -1;
  if (kind < 0) return null;
  return { id, kind, line: s.line.peek(), time: s.time.peek(), joint: s.joint.peek(),
           width: widths.get(id) ?? 960 };
}

const views = () => [...inSight].map(viewOf).filter((v): v is View => v !== null);

function show(told: Told, number: number) {
  if (number < drawn) return;
  if (told.faults) {
    s.trouble.value = told.faults[0]?.text ?? "the engine gave no answer";
    return;
  }
  drawn = number;
  batch(() => {
    s.trouble.value = "";
    s.look.value = told.seen!.look;
    for (const [id, svg] of Object.entries(told.seen!.pictures)) if (svg) picture(id).value = svg;
  });
}

// Pictures out of sight follow when all rests: whoever prints or scrolls finds none of before.
const unseen_ms = 400;
let unseen = 0;
function drawUnseen(thrust_N: number, of: number) {
  clearTimeout(unseen);
  unseen = window.setTimeout(() => {
    if (of !== open || !runHolds(thrust_N) || thrust_N !== s.thrust_N.peek()) return;
    const views = [...widths.keys()].filter((id) => !inSight.has(id)).map(viewOf).filter((v): v is View => v !== null);
    const number = ++serial;
    if (views.length)
      runner.ask("unseen", { what: "look", thrust_N, full: true, views }, (told) => {
        if (of === open && thrust_N === s.thrust_N.peek()) show(told, number);
      });
  }, unseen_ms);
}

const runHolds = (thrust_N: number) => full !== null && full.open === open && full.thrust_N === thrust_N;

function askRunner(thrust_N: number) {
  const number = ++serial, of = open;
  if (runnerOpen !== of) return;
  runner.ask("look", { what: "look", thrust_N, full: true, views: views() }, (told) => {
    if (of !== open || thrust_N !== s.thrust_N.peek()) return;
    if (told.seen) full = { open: of, thrust_N };
    const first = !lookedAt.has(of);
    show(told, number);
    if (told.seen && first) lookAtWorst(of);
    if (told.seen) drawUnseen(thrust_N, of);
    if (told.seen) askChecks(thrust_N, of);
  });
}

let checksOf = "", checking = 0;
function askChecks(thrust_N: number, of: number) {
  const key = `${of} ${thrust_N}`;
  clearTimeout(checking);
  if (checksOf !== key) checking = window.setTimeout(() => askChecksNow(key, thrust_N, of), checks_ms);
}

async function askChecksNow(key: string, thrust_N: number, of: number) {
  const text = s.goodText.peek(), list = await runChecks(text, thrust_N).catch(() => null);
  if (!list || of !== open || thrust_N !== s.thrust_N.peek()) return;
  checksOf = key;
  batch(() => { s.checks.value = list; s.checkedText.value = text; });
}

export function draw(force = false) {
  if (!s.facts.peek() || !open) return;
  // The very first answer waits for the pictures to be placed, unless none is in sight.
  if (!force && !inSight.size && !s.look.peek()) {
    drawSoon(60, true);
    return;
  }
  const thrust_N = s.thrust_N.peek(), of = open, number = ++serial;
  clearTimeout(resting);
  if (s.thrust_N.peek() !== full?.thrust_N) clearTimeout(checking);
  if (runHolds(thrust_N)) {
    askRunner(thrust_N);
    return;
  }
  predictor.ask("look", { what: "look", thrust_N, full: false, views: views() }, (told) => {
    if (of === open && !runHolds(s.thrust_N.peek())) show(told, number);
  });
  resting = window.setTimeout(() => askRunner(thrust_N), rest_ms);
}

// A new bridge is first seen at the joint that governs, unless a link said otherwise.
const lookedAt = new Set<number>();
export const keepPlace = signal(false);
function lookAtWorst(of: number) {
  lookedAt.add(of);
  const worst = s.look.peek()?.worst;
  if (of !== 1 || keepPlace.peek() || !worst) return;
  batch(() => { s.line.value = worst.line; s.joint.value = worst.joint; s.time.value = worst.time; });
}

export function timeOf(line: number, day: number): number {
  const times = s.facts.peek()?.lines[line]?.times ?? [];
  let best = 0;
  times.forEach((t, i) => { if (Math.abs(t.day - day) < Math.abs(times[best]!.day - day)) best = i; });
  return best;
}

const within = (value: number, length: number) => Math.max(0, Math.min(value, length - 1));

/** Before anything is run: the end of life of the joint that governs. */
function startPlace(facts: Facts) {
  const line = facts.lines[facts.governing_line]!;
  s.line.value = facts.governing_line;
  s.joint.value = Math.max(0, line.joint);
  s.time.value = line.times.length - 1;
}

function take(facts: Facts, text: string, newest: boolean) {
  batch(() => {
    s.facts.value = facts;
    s.goodText.value = text;
    if (newest) s.faults.value = [];
    s.chosenCheck.value = -1;
    if (!s.moved.value) s.thrust_N.value = facts.thrust_N;
    if (!keepPlace.peek() && !lookedAt.size) startPlace(facts);
    s.line.value = within(s.line.value, facts.lines.length);
  });
}

/** With no bridge to show yet, the text and its errors are what there is to see. */
function refuse(faults: Fault[]) {
  s.faults.value = faults;
  if (!s.facts.peek()) s.tab.value = "text";
}

/** Reads a text: its faults, or its bridge in both engines. The last good bridge stays until then. */
export async function read(text: string, coming = readTree(text)) {
  const number = ++asked;
  s.reading.value = true;
  try {
    const tree = await coming;
    if (number === asked) openBoth(tree, text, number);
  } catch (error) {
    if (number !== asked) return;
    s.reading.value = false;
    if (error instanceof Refused && error.status < 500) refuse(error.faults);
    else s.trouble.value = `the server does not answer: ${String(error)}`;
  }
}

function openBoth(tree: Uint8Array, text: string, number: number) {
  const ask = { what: "open" as const, tree, units: s.units.peek() };
  predictor.ask("open", ask, (told) => {
    const newest = number === asked;
    if (newest) s.reading.value = false;
    if (!told.facts) {
      if (told.broken) s.trouble.value = told.faults?.[0]?.text ?? "";
      else if (newest) refuse(told.faults ?? []);
      return;
    }
    // Typed on meanwhile or not: this bridge is the one the predictor holds now.
    open = number;
    checksOf = "";
    take(told.facts, text, newest);
    draw();
    // Behind the first picture: on a small machine two openings at once make both late.
    runner.ask("open", ask, (told) => {
      if (!told.facts) {
        s.trouble.value = `no full run: ${told.faults?.[0]?.text ?? "the engine gave no answer"}`;
        return;
      }
      runnerOpen = number;
      if (open === number) draw();
    });
  });
}

/** CSV of the data behind a picture. */
export function table(id: string): Promise<string> {
  const view = viewOf(id);
  return new Promise((done, fail) => {
    if (!view) return fail(new Error("no such picture"));
    runner.ask("table", { what: "table", thrust_N: s.thrust_N.peek(), view },
      (told) => (told.text !== undefined && told.status < 2 ? done(told.text) : fail(new Error("no data"))));
  });
}

export function startDrawing() {
  // Lines of other units have other joints and times; a choice beyond their end is none.
  effect(() => {
    const line = s.theLine.value;
    if (!line) return;
    batch(() => {
      s.time.value = within(s.time.value, line.times.length);
      s.joint.value = within(s.joint.value, line.joints.length);
    });
  });
  effect(() => {
    void [s.thrust_N.value, s.line.value, s.time.value, s.joint.value];
    draw();
  });
  let before = s.units.peek();
  effect(() => {
    if (s.units.value === before) return;
    before = s.units.value;
    if (s.goodText.peek()) void read(s.text.peek());
  });
}

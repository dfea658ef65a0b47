// What the page knows: the log as the server told it, what waits on this device, and what the engine says of both.
import { batch, computed, signal } from "@preact/signals";
import { bodyOf, dayOf, pageOf, planRecord, Wrong } from "./engine";
import * as keep from "./keep";
import { unitQuery } from "./net";
import type { Call, Day, Job, LogRecord, Page, Said, Verdict, Waiting, Words } from "./types";

export const job = signal<Job | null>(null);
export const day = signal<Day | null>(null);
export const records = signal<LogRecord[]>([]);
export const waiting = signal<Waiting[]>([]);
export const said = signal<Map<string, Said>>(new Map());
export const page = signal<Page | null>(null);
export const width = signal(360);
export const who = signal("");
export const trouble = signal(""); // of this device itself
export const log = signal<"unknown" | "none" | "open">("unknown");
export const role = signal<"reader" | "writer">("writer");
export const file = signal("");
export const kept = signal<boolean | null>(null); // the browser promised not to clear the store; null: not asked yet

export const mine = computed(() => waiting.value.filter((w) => w.job === job.value?.job));
export const open = computed(() => mine.value.filter((w) => w.state === "waiting"));
export const refused = computed(() => mine.value.filter((w) => w.state === "refused"));
export const strange = computed(() => waiting.value.filter((w) => w.job !== job.value?.job));
export const sentCount = computed(() => [...said.value.values()].filter((s) => s.number).length);

const key = unitQuery || "1";
const order: Call[] = ["go on", "read again", "hold", "stop"];
export const graver = (a: Call, b: Call) => (order.indexOf(a) >= order.indexOf(b) ? a : b);

// ---- what the engine is given ----

export interface Row {
  id: string;
  number: number | null; // null: only on this device
  waiting?: Waiting;
  words: Words;
  struck: { why: string; who: string; sent: boolean } | null;
  log: { call: Call; reason: string } | null; // what the log said of it
}

const parsed = (body: string) => JSON.parse(body) as Record<string, unknown>;

/** Records, then what waits, with numbers as if it had been sent now. */
function judged(): LogRecord[] {
  const list = [...records.value];
  const number = new Map(list.map((r) => [r.id, r.number]));
  let next = list.reduce((most, r) => Math.max(most, r.number), job.value?.next ?? 0);
  for (const item of open.value) {
    if (number.has(item.id)) continue;
    next++;
    if (item.kind === "reading") {
      number.set(item.id, next);
      list.push({ number: next, id: item.id, kind: "reading", at: item.at, body: item.body });
    } else if (item.of && number.has(item.of)) {
      list.push({ number: next, id: item.id, kind: "strike", at: item.at,
        body: JSON.stringify({ strikes: number.get(item.of), why: item.words.why, who: item.words.who }) });
    }
  }
  return list.filter((r) => r.kind === "reading" || r.kind === "strike");
}

export function judge() {
  const of = job.value;
  if (!of) { page.value = null; return; }
  try {
    page.value = pageOf([planRecord(of.plan), ...judged()], width.value);
  } catch (error) {
    page.value = null;
    trouble.value = `The readings cannot be judged on this device: ${(error as Error).message}`;
  }
}

const words = (body: string): Words => {
  const { pressure, move, ...rest } = parsed(body) as unknown as Words & { pressure: string[]; move: string[] };
  const all: Words = { ...rest };
  pressure.forEach((p, i) => { all[`pressure ${i + 1}`] = p; });
  move.forEach((m, i) => { all[`move ${i + 1}`] = m; });
  return all;
};

/** The readings in their order, each with what became of it. */
export const rows = computed<Row[]>(() => {
  const list: Row[] = [], of = new Map<number, Row>(), by = new Map<string, Row>();
  const add = (row: Row) => { list.push(row); by.set(row.id, row); if (row.number) of.set(row.number, row); };
  for (const r of records.value) {
    const body = parsed(r.body);
    if (r.kind === "reading") add({ id: r.id, number: r.number, words: words(r.body), struck: null, log: null });
    const strikes = r.kind === "strike" ? of.get(Number(body.strikes)) : undefined;
    if (strikes && !strikes.struck) strikes.struck = { why: String(body.why), who: String(body.who), sent: true };
    const about = r.kind === "verdict" ? of.get(Number(body.of)) : undefined;
    if (about) about.log = { call: body.call as Call, reason: String(body.reason) };
  }
  for (const item of open.value) {
    if (item.kind === "reading" && !by.has(item.id))
      add({ id: item.id, number: null, waiting: item, words: words(item.body), struck: null, log: null });
    const strikes = item.kind === "strike" && item.of ? by.get(item.of) : undefined;
    if (strikes && !strikes.struck) strikes.struck = { why: item.words.why ?? "", who: item.words.who ?? "", sent: false };
  }
  return list;
});

export const last = computed(() => rows.value.filter((r) => !r.struck).at(-1) ?? null);

export interface Told {
  here: Verdict;                               // by all that this device knows now
  log: { call: Call; reason: string } | null;  // the log's, where it is another
  first: Call | null;                          // what this device said when it kept the reading, where it is another
  refused: Call | null;                        // of a reading that the server refused, where it is graver: it was read all the same
  call: Call;                                  // the gravest of all that was said of it, and of those refused
}

export const verdict = computed<Told | null>(() => {
  const here = page.value?.verdict, row = last.value;
  if (!here || !row) return null;
  const first = said.value.get(row.id), told = row.log ?? first?.log ?? null;
  const log = told && told.call !== here.call ? told : null;
  const seen = graver(graver(here.call, log?.call ?? here.call), first?.call ?? here.call);
  const call = refused.value.reduce((most, item) => {
    const of = item.kind === "reading" ? said.value.get(item.id) : undefined;
    return of ? graver(most, of.call) : most;
  }, seen);
  return { here, log, call, refused: call === seen ? null : call, first: first && first.call !== here.call ? first.call : null };
});

// ---- what is kept ----

const told = typeof BroadcastChannel === "undefined" ? null : new BroadcastChannel("clench-site");
if (told) told.onmessage = () => { void load(); };

async function show(of: Job | null) {
  const [list, said_] = of ? await Promise.all([keep.records(of.job), keep.said(of.job)]) : [[], []];
  const all = await keep.waiting();
  batch(() => {
    if (of?.plan !== job.value?.plan) day.value = of ? dayOf(of.plan) : null;
    job.value = of;
    if (of) { role.value = of.role; file.value = of.file; log.value = "open"; }
    records.value = list.sort((a, b) => a.number - b.number);
    said.value = new Map(said_.map((s) => [s.id, s]));
    waiting.value = all;
  });
  judge();
}

/** From the device's store: also what another page of this device changed. */
export async function load() {
  await show((await keep.job(key)) ?? null);
}

export async function changed() {
  await load();
  told?.postMessage("");
}

/** What the server told. Another job is another log: what was kept for the one before stays apart. */
export async function take(plan: string, name: string, answer: { file: string; role: "reader" | "writer"; next: number; records: LogRecord[] }, upTo: number) {
  const now: Job = { key, job: name, plan, file: answer.file, role: answer.role, next: upTo };
  await keep.take(now, answer.records.filter((r) => r.kind !== "bridge" && r.kind !== "plan"));
  await changed();
}

const newId = () => [...crypto.getRandomValues(new Uint8Array(16))].map((b) => b.toString(16).padStart(2, "0")).join("");

/** Keeps a reading on the disk of this device, then judges. Wrong: what was typed needs a correction. */
export async function keepReading(typed: Words): Promise<void> {
  const of = job.value;
  if (!of) throw new Wrong("", "no log is open");
  const body = bodyOf(of.plan, typed);
  const item: Waiting = { job: of.job, id: newId(), kind: "reading", at: new Date().toISOString(), words: typed, body, state: "waiting" };
  await keep.add(item);
  try { // it is kept: what fails from here on must not have it typed again
    await changed();
    const here = page.value?.verdict;
    if (here) {
      const value: Said = { job: of.job, id: item.id, call: here.call, reason: here.reason };
      await keep.say(value);
      said.value = new Map(said.value).set(item.id, value);
    }
  } catch (error) {
    trouble.value = `The reading is kept on this device; what it says could not be: ${(error as Error).message}. Open the page again.`;
  }
}

export async function keepStrike(row: Row, why: string, by: string): Promise<void> {
  const of = job.value;
  if (!of) return;
  await keep.add({ job: of.job, id: newId(), kind: "strike", at: new Date().toISOString(), words: { why, who: by }, of: row.id, body: "", state: "waiting" });
  await changed();
}

export async function giveUp(item: Waiting) {
  await keep.drop(item.order!);
  await changed();
}

export async function setWho(name: string) {
  who.value = name;
  await keep.setWord("who", name);
}

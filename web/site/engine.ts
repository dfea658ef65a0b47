// The log's engine in the page: the C of `clench site`, judged at once and without a network.
import type { Day, LogRecord, Page, Words } from "./types";

interface Door {
  memory: WebAssembly.Memory;
  _initialize?(): void;
  clench_room(bytes: number): number;
  clench_text(): number;
  clench_length(): number;
  clench_day(bytes: number): number;
  clench_page(bytes: number, width_px: number): number;
  clench_body(bytes: number): number;
}

/** What a person has to correct: which value, and why. */
export class Wrong extends Error {
  constructor(readonly key: string, text: string) { super(text); }
}

let door: Door;
const refuse = (name: string) => () => { throw new Error(`the engine called ${name}`); };

export async function startEngine() {
  const module = await WebAssembly.compileStreaming(fetch("site.wasm"));
  const wasi: Record<string, () => never> = {};
  for (const { module: from, name } of WebAssembly.Module.imports(module))
    if (from === "wasi_snapshot_preview1") wasi[name] = refuse(name);
  door = (await WebAssembly.instantiate(module, { wasi_snapshot_preview1: wasi })).exports as unknown as Door;
  door._initialize?.();
}

function give(what: unknown): number {
  const bytes = new TextEncoder().encode(JSON.stringify(what));
  const at = door.clench_room(bytes.length);
  new Uint8Array(door.memory.buffer, at, bytes.length).set(bytes);
  return bytes.length;
}

function heard(status: number): string {
  const text = new TextDecoder().decode(new Uint8Array(door.memory.buffer, door.clench_text(), door.clench_length()));
  if (status === 0) return text;
  const said = JSON.parse(text) as { key: string | null; text: string };
  throw new Wrong(said.key ?? "", said.text);
}

export const planRecord = (body: string): LogRecord => ({ number: 0, id: "plan", kind: "plan", at: "", body });
export const dayOf = (plan: string): Day =>
  JSON.parse(heard(door.clench_day(give({ records: [planRecord(plan)] }))));
export const pageOf = (records: LogRecord[], width_px: number): Page =>
  JSON.parse(heard(door.clench_page(give({ records }), width_px)));
/** Words as typed to the record's body; else Wrong. */
export const bodyOf = (plan: string, words: Words): string =>
  heard(door.clench_body(give({ records: [planRecord(plan)], words })));

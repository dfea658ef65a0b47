// One engine. It answers in the order it is asked; the page keeps the queue short.
import type { Ask, Fault, Look, Told, View } from "./types";

interface Door {
  memory: WebAssembly.Memory;
  _initialize?(): void;
  clench_room(bytes: number): number;
  clench_text(): number;
  clench_length(): number;
  clench_open(bytes: number, units: number): number;
  clench_look(thrust_N: number, full: number): number;
  clench_picture(kind: number, line: number, time: number, joint: number, width_px: number): number;
  clench_table(kind: number, line: number, time: number, joint: number): number;
  clench_json(): number;
}

let door: Door;
let good: { tree: Uint8Array; units: number } | null = null;
let shown: { thrust_N: number; full: boolean } | null = null;
let look: Look;

// The engine asks the machine for nothing but, out of memory, an end.
const refuse = (name: string) => () => { throw new Error(`the engine called ${name}`); };

async function start(module: WebAssembly.Module) {
  const wasi: Record<string, () => never> = {};
  for (const { module: from, name } of WebAssembly.Module.imports(module))
    if (from === "wasi_snapshot_preview1") wasi[name] = refuse(name);
  const instance = await WebAssembly.instantiate(module, { wasi_snapshot_preview1: wasi });
  door = instance.exports as unknown as Door;
  door._initialize?.();
}

const decoder = new TextDecoder();
const text = () =>
  decoder.decode(new Uint8Array(door.memory.buffer, door.clench_text(), door.clench_length()));

function openTree(tree: Uint8Array, units: number): Told {
  shown = null;
  const at = door.clench_room(tree.length);
  new Uint8Array(door.memory.buffer, at, tree.length).set(tree);
  const status = door.clench_open(tree.length, units);
  const said = JSON.parse(text());
  if (status >= 2) return { status, faults: said.errors as Fault[] };
  return { status, facts: said };
}

/** A tree that does not open leaves the one before it in place. */
function open(tree: Uint8Array, units: number): Told {
  const told = openTree(tree, units);
  if (told.facts) good = { tree, units };
  else if (good) openTree(good.tree, good.units);
  return told;
}

function see(thrust_N: number, full: boolean): Told | null {
  if (shown && shown.thrust_N === thrust_N && (shown.full || !full)) return null;
  const status = door.clench_look(thrust_N, full ? 1 : 0);
  const said = JSON.parse(text());
  if (status >= 2) {
    shown = null;
    return { status, faults: said.errors as Fault[] };
  }
  look = said;
  shown = { thrust_N, full };
  return null;
}

function picture(view: View): string {
  const status = door.clench_picture(view.kind, view.line, view.time, view.joint, view.width);
  return status >= 2 ? "" : text();
}

function answer(ask: Ask): Told {
  if (ask.what === "open") return open(ask.tree, ask.units);
  const failed = see(ask.thrust_N, ask.what !== "look" || ask.full);
  if (failed) return failed;
  if (ask.what === "look") {
    const pictures: Record<string, string> = {};
    for (const view of ask.views) pictures[view.id] = picture(view);
    return { status: 0, seen: { look, pictures } };
  }
  const v = ask.what === "table" ? ask.view : null;
  const status = v ? door.clench_table(v.kind, v.line, v.time, v.joint) : door.clench_json();
  return { status, text: text() };
}

let ready: Promise<void>;
addEventListener("message", async (event: MessageEvent) => {
  const { module, id, ask } = event.data as { module?: WebAssembly.Module; id: number; ask: Ask };
  if (module) {
    ready = start(module);
    return;
  }
  await ready;
  try {
    postMessage({ id, told: answer(ask) });
  } catch (error) {
    postMessage({ id, broken: String(error) });
  }
});

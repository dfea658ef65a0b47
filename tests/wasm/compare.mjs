// compare.mjs WASM PACKED NATIVE.json: the same answer from both builds of the engine? Numbers may
// differ in the last digits where the two mathematics libraries do.
import { readFileSync } from "node:fs";
import { performance } from "node:perf_hooks";

const [wasm, packed, native] = process.argv.slice(2);
// A small part of a sum knows no more digits than the sum: the same share of what is usual of its unit.
const relative = 1e-9, usual = { Pa: 1e4, N: 1e4, m: 1 };

// The engine asks the machine for nothing but, out of memory, a message and an end.
const refuse = (name) => () => { throw new Error(`the engine called ${name}`); };
const names = ["fd_close", "fd_seek", "fd_write", "fd_fdstat_get", "fd_read", "proc_exit",
  "environ_get", "environ_sizes_get", "clock_time_get", "args_get", "args_sizes_get",
  "random_get", "sched_yield", "fd_prestat_get", "fd_prestat_dir_name", "path_open"];
const wasi = Object.fromEntries(names.map((name) => [name, refuse(name)]));

const { instance } = await WebAssembly.instantiate(readFileSync(wasm), { wasi_snapshot_preview1: wasi });
const door = instance.exports;
door._initialize?.();

function ask(tree, given, units, wanted) {
  const at = door.clench_room(tree.length);
  new Uint8Array(door.memory.buffer, at, tree.length).set(tree);
  const status = door.clench_thrust(tree.length, given, units, wanted);
  const text = new Uint8Array(door.memory.buffer, door.clench_text(), door.clench_length());
  return { status, text: new TextDecoder().decode(text) };
}

let checks = 0;
const problems = [];
function same(path, a, b) {
  if (typeof a === "number" && typeof b === "number") {
    checks++;
    const size = Math.max(Math.abs(a), Math.abs(b), usual[path.split("_").pop()] ?? 1e-3);
    if (!(Math.abs(a - b) <= relative * size))
      problems.push(`${path}: ${a} native, ${b} in WebAssembly`);
  } else if (a && b && typeof a === "object" && typeof b === "object") {
    for (const key of new Set([...Object.keys(a), ...Object.keys(b)])) same(`${path}.${key}`, a[key], b[key]);
  } else if (path !== ".file") {
    checks++;
    if (a !== b) problems.push(`${path}: ${a} native, ${b} in WebAssembly`);
  }
}

const tree = readFileSync(packed);
const began = performance.now();
const answer = ask(tree, 0, 0, 0);
const first = performance.now() - began;
same("", JSON.parse(readFileSync(native, "utf8")), JSON.parse(answer.text));
if (ask(tree, 0, 0, 1).text.indexOf("<svg") < 0) problems.push("the page has no figure");
const broken = ask(tree.subarray(0, tree.length - 3), 0, 0, 0);
if (broken.status !== 2 || !JSON.parse(broken.text).errors.length)
  problems.push(`a cut tree: status ${broken.status}`);
for (const problem of problems.slice(0, 10)) console.log(problem);
console.log(`${packed}: ${checks} values compared, ${problems.length} differ, first answer after ${first.toFixed(0)} ms`);
process.exit(problems.length ? 1 : 0);

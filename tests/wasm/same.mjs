// The engine in Node, and whether two answers say the same: numbers may differ in the last digits where the
// two mathematics libraries do.
import { readFileSync } from "node:fs";

// A small part of a sum knows no more digits than the sum: the same share of what is usual of its unit.
// affine_error_1 is what is left of a ratio near 1.
const relative = 1e-9, usual = { Pa: 1e4, N: 1e4, m: 1 };

export const problems = [];
export const seen = { checks: 0 };

export function same(path, a, b) {
  if (typeof a === "number" && typeof b === "number") {
    seen.checks++;
    const size = Math.max(Math.abs(a), Math.abs(b), path.endsWith("affine_error_1") ? 1 : usual[path.split("_").pop()] ?? 1e-3);
    if (!(Math.abs(a - b) <= relative * size))
      problems.push(`${path}: ${a} native, ${b} in WebAssembly`);
  } else if (a && b && typeof a === "object" && typeof b === "object") {
    for (const key of new Set([...Object.keys(a), ...Object.keys(b)])) same(`${path}.${key}`, a[key], b[key]);
  } else if (path !== ".file") {
    seen.checks++;
    if (a !== b) problems.push(`${path}: ${a} native, ${b} in WebAssembly`);
  }
}

// The engine asks the machine for nothing but, out of memory, a message and an end.
const refuse = (name) => () => { throw new Error(`the engine called ${name}`); };
const names = ["fd_close", "fd_seek", "fd_write", "fd_fdstat_get", "fd_read", "proc_exit",
  "environ_get", "environ_sizes_get", "clock_time_get", "args_get", "args_sizes_get",
  "random_get", "sched_yield", "fd_prestat_get", "fd_prestat_dir_name", "path_open"];

/** The door of a module, and what its last call wrote. */
export async function open(wasm) {
  const wasi = Object.fromEntries(names.map((name) => [name, refuse(name)]));
  const { instance } = await WebAssembly.instantiate(readFileSync(wasm), { wasi_snapshot_preview1: wasi });
  const door = instance.exports;
  door._initialize?.();
  const text = () => new TextDecoder().decode(
    new Uint8Array(door.memory.buffer, door.clench_text(), door.clench_length()));
  const give = (bytes) => {
    const at = door.clench_room(bytes.length);
    new Uint8Array(door.memory.buffer, at, bytes.length).set(bytes);
    return bytes.length;
  };
  return { door, text, give };
}

// compare.mjs WASM PACKED NATIVE.json: the same answer from both builds of the engine? Numbers may
// differ in the last digits where the two mathematics libraries do.
import { readFileSync } from "node:fs";
import { performance } from "node:perf_hooks";

const [wasm, packed, native] = process.argv.slice(2);
// A small part of a sum knows no more digits than the sum: the same share of what is usual of its unit.
// affine_error_1 is what is left of a ratio near 1.
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

const text = () => new TextDecoder().decode(
  new Uint8Array(door.memory.buffer, door.clench_text(), door.clench_length()));

function open(tree, units) {
  const at = door.clench_room(tree.length);
  new Uint8Array(door.memory.buffer, at, tree.length).set(tree);
  return door.clench_open(tree.length, units);
}

let checks = 0;
const problems = [];
function same(path, a, b) {
  if (typeof a === "number" && typeof b === "number") {
    checks++;
    const size = Math.max(Math.abs(a), Math.abs(b), path.endsWith("affine_error_1") ? 1 : usual[path.split("_").pop()] ?? 1e-3);
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
const opened = open(tree, 0);
const first = performance.now() - began;
if (opened !== 0) problems.push(`status ${opened}: ${text()}`);
const facts = JSON.parse(text());
const expected = JSON.parse(readFileSync(native, "utf8"));
door.clench_json();
same("", expected, JSON.parse(text()));
same(".facts.need_N", expected.need_whole_N, facts.need_N);
same(".facts.most_N", expected.most_whole_N, facts.most_N);

// Pictures of a prediction and of a run, at the first and the last time of every line.
for (const full of [0, 1]) {
  if (door.clench_look(0.93 * facts.thrust_N, full) !== 0) problems.push(`look: ${text()}`);
  if (JSON.parse(text()).predicted !== (full === 0)) problems.push("predicted is not what was asked for");
  facts.lines.forEach((line, l) => facts.pictures.forEach((picture, kind) => {
    for (const time of [0, line.times.length - 1]) {
      if (door.clench_picture(kind, l, time, -1, 720) !== 0 || !text().startsWith("<svg") ||
          /NaN|Infinity|undefined/.test(text()))
        problems.push(`${picture.id} of ${line.name} at time ${time}: ${text().slice(0, 200)}`);
      if (door.clench_table(kind, l, time, -1) !== 0) problems.push(`${picture.id}: ${text()}`);
      checks += 2;
    }
  }));
}
// Processor time, median: a predicted look with every picture of the governing line, and a full look.
function median(times, work) {
  const spent = [];
  for (let i = 0; i < times; i++) {
    const before = process.cpuUsage();
    work(i);
    const used = process.cpuUsage(before);
    spent.push((used.user + used.system) / 1000);
  }
  return spent.sort((a, b) => a - b)[times >> 1];
}
const governs = facts.governing_line, last = facts.lines[governs].times.length - 1;
const seen = median(40, (i) => {
  door.clench_look((0.8 + 0.01 * i) * facts.thrust_N, 0);
  facts.pictures.forEach((_, kind) => { door.clench_picture(kind, governs, last - (i % 20), -1, 1200); text(); });
});
const ran = median(9, (i) => door.clench_look((0.9 + 0.02 * i) * facts.thrust_N, 1));

// The worst joint by a prediction and by a run: the same joint, nearly the same margin.
let off = 0;
for (const part of [0.7, 0.9, 1.1, 1.3]) {
  const [guess, run] = [0, 1].map((full) => {
    door.clench_look(part * facts.thrust_N, full);
    return JSON.parse(text());
  });
  off = Math.max(off, Math.abs(guess.worst.margin_Pa - run.worst.margin_Pa) / run.average_Pa);
  if (guess.met !== run.met || Math.abs(guess.open_count - run.open_count) > 1)
    problems.push(`predicted at ${part} of the need: ${guess.sentence} run: ${run.sentence}`);
}
if (!(off < 0.01)) problems.push(`the worst margin is predicted ${off} of the average stress off`);

if (door.clench_picture(0, facts.lines.length, 0, -1, 720) !== 2) problems.push("a line too many is drawn");
if (door.clench_look(-1, 1) !== 2) problems.push("a thrust below nothing is run");

const broken = open(tree.subarray(0, tree.length - 3), 0);
if (broken !== 2 || !JSON.parse(text()).errors.length) problems.push(`a cut tree: status ${broken}`);
if (door.clench_look(1e6, 0) !== 2) problems.push("a desk without a bridge is looked at");
for (const problem of problems.slice(0, 10)) console.log(problem);
console.log(`${packed}: ${checks} values compared, ${problems.length} differ; first answer after ${first.toFixed(0)} ms, ` +
  `a look with all pictures ${seen.toFixed(1)} ms, a run ${ran.toFixed(0)} ms; predicted within ${(100 * off).toFixed(2)} % of the average stress`);
process.exit(problems.length ? 1 : 0);

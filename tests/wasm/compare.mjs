// compare.mjs WASM PACKED NATIVE.json: the same answer from both builds of the engine?
import { readFileSync } from "node:fs";
import { performance } from "node:perf_hooks";
import { open as openDoor, problems, same, seen as compared } from "./same.mjs";

const [wasm, packed, native] = process.argv.slice(2);
const { door, text, give } = await openDoor(wasm);

const open = (tree, units) => door.clench_open(give(tree), units);

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
      compared.checks += 2;
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
console.log(`${packed}: ${compared.checks} values compared, ${problems.length} differ; first answer after ${first.toFixed(0)} ms, ` +
  `a look with all pictures ${seen.toFixed(1)} ms, a run ${ran.toFixed(0)} ms; predicted within ${(100 * off).toFixed(2)} % of the average stress`);
process.exit(problems.length ? 1 : 0);

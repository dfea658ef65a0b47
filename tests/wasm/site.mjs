// site.mjs WASM DAY: what the page on site says after each reading of a day, and what the native build says.
import { readFileSync } from "node:fs";
import { open, problems, same, seen } from "./same.mjs";

const [wasm, file] = process.argv.slice(2);
const { door, text, give } = await open(wasm);
const { records, day, pages } = JSON.parse(readFileSync(file, "utf8"));
const ask = (what) => give(new TextEncoder().encode(JSON.stringify(what)));
const heard = (status) => {
  if (status !== 0) problems.push(`status ${status}: ${text().slice(0, 200)}`);
  return JSON.parse(text());
};

same("day", JSON.parse(day), heard(door.clench_day(ask({ records: records.slice(0, 1) }))));
const calls = new Set(), spent = [];
for (let count = 2; count <= records.length; count++) {
  const began = performance.now();
  const page = heard(door.clench_page(ask({ records: records.slice(0, count) }), 360));
  spent.push(performance.now() - began);
  const native = JSON.parse(pages[count - 2]);
  same(`after ${count}`, native, page);
  calls.add(native.verdict.call);
}
if (calls.size < 2) problems.push(`all verdicts are '${[...calls]}': the day proves little`);

// Words as typed become the very body that the native build writes.
const reading = records.find((record) => record.kind === "reading" && record.number > 2);
const { pressure, move, ...rest } = JSON.parse(reading.body);
const words = { ...rest };
pressure.forEach((p, i) => { words[`pressure ${i + 1}`] = p; });
move.forEach((m, i) => { words[`move ${i + 1}`] = m; });
const body = () => door.clench_body(ask({ records: records.slice(0, 1), words }));
if (body() !== 0) problems.push(`words: ${text()}`);
same("body", reading.body, text());
words["move 2"] = "1,234 in";
if (body() !== 2 || JSON.parse(text()).key !== "move 2") problems.push(`a comma: ${text()}`);
if (door.clench_page(ask({ records: [] }), 360) !== 2) problems.push("no records are a page");
if (door.clench_page(give(new TextEncoder().encode("{")), 360) !== 2) problems.push("half a JSON is a page");

for (const problem of problems.slice(0, 10)) console.log(problem);
spent.sort((a, b) => a - b);
console.log(`${file}: ${pages.length} readings and strikes, ${seen.checks} values compared, ${problems.length} differ; ` +
  `verdicts: ${[...calls].join(", ")}; ${spent[spent.length >> 1].toFixed(1)} ms each, at most ${spent.at(-1).toFixed(1)} ms`);
process.exit(problems.length ? 1 : 0);

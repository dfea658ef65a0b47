// Runs every test of the page in one browser.
import { openBrowser } from "./kit.mjs";
import * as look from "./look.mjs";
import * as edit from "./edit.mjs";
import * as keep from "./keep.mjs";
import * as reach from "./reach.mjs";
import * as site from "./site.mjs";

const wanted = process.argv.slice(2);
const tests = [look, edit, keep, reach, site].flatMap((group) => Object.entries(group));
const browser = await openBrowser();
let good = 0, bad = 0;
for (const [name, test] of tests) {
  if (wanted.length && !wanted.some((word) => name.includes(word))) continue;
  const began = performance.now();
  try {
    await test(browser);
    good++;
    console.log(`ok      ${name} (${((performance.now() - began) / 1000).toFixed(1)} s)`);
  } catch (error) {
    bad++;
    console.log(`FAILED  ${name}: ${error.message.split("\n").slice(0, 6).join("\n        ")}`);
  }
}
await browser.close();
console.log(`${good} passed, ${bad} failed`);
process.exit(bad || !good ? 1 : 0);

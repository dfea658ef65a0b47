// Times are the page's own clock. A move counts from the input event to the frame after the new
// picture stands in the page; the first picture from the start of the command.
import { copyFileSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { openBrowser, serve } from "../tests/web/kit.mjs";

const example = process.argv[2], moves = 120, starts = 7;
const at = (sorted, share) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))];
const row = (what, aim, figures) => console.log(`${what.padEnd(44)} ${aim.padEnd(10)} ${figures}`);
const folder = mkdtempSync(join(tmpdir(), "clench-bench-")), file = join(folder, "bridge.yaml");
copyFileSync(example, file);
const browser = await openBrowser();

async function firstPicture() {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 } }); // an empty cache
  await context.addInitScript(() => {
    window.seen = {};
    const note = (name, there) => { if (there && !window.seen[name]) requestAnimationFrame(() => { window.seen[name] ??= Date.now(); }); };
    new MutationObserver(() => {
      note("picture", document.querySelector("#picture-bridge svg"));
      note("full", document.querySelector('#answer[data-phase="full"]'));
    }).observe(document, { childList: true, subtree: true, attributes: true });
  });
  const began = Date.now();
  const { child, url } = await serve(file);
  const page = await context.newPage();
  await page.goto(url, { waitUntil: "commit" });
  await page.waitForFunction(() => window.seen.picture && window.seen.full);
  const seen = await page.evaluate(() => window.seen);
  const picture = seen.picture - began, full = seen.full - began;
  child.removeAllListeners("exit");
  child.kill("SIGTERM");
  await context.close();
  return { picture, full };
}

async function weight(page, url) {
  const seen = [];
  const session = await page.context().newCDPSession(page);
  await session.send("Network.enable");
  const urls = new Map();
  session.on("Network.responseReceived", ({ requestId, response }) => urls.set(requestId, response.url));
  session.on("Network.loadingFinished", ({ requestId, encodedDataLength }) => seen.push([urls.get(requestId), encodedDataLength]));
  await page.goto(url);
  await page.waitForSelector('#answer[data-phase="full"]');
  return seen.filter(([from]) => from && !from.includes("/api/"));
}

/** One move a hand makes, from its event to the frame that shows the picture. */
const move = (page, step) => page.evaluate((step) => new Promise((done) => {
  const input = document.querySelector("#thrust"), drawn = document.querySelector("#picture-bridge .drawn");
  const seen = new MutationObserver(() => { seen.disconnect(); requestAnimationFrame(() => setTimeout(() => done(performance.now() - began))); });
  seen.observe(drawn, { childList: true });
  const began = performance.now();
  input.value = String(Number(input.value) + step * Number(input.step));
  input.dispatchEvent(new Event("input", { bubbles: true }));
}), step);

const firsts = [];
for (let i = 0; i < starts; i++) firsts.push(await firstPicture());
const { child, url } = await serve(file);
const context = await browser.newContext({ viewport: { width: 1280, height: 900 } });
const page = await context.newPage();
const parts = await weight(page, url);
await page.waitForTimeout(1000); // the checks are there
const times = [];
for (let i = 0; i < moves; i++) {
  times.push(await move(page, i % 40 < 20 ? 7 : -7));
  await page.waitForTimeout(30 + 23 * (i % 5)); // a hand now faster, now slower: some full runs begin between
}
times.sort((a, b) => a - b);
const pictures = firsts.map((f) => f.picture).sort((a, b) => a - b), fulls = firsts.map((f) => f.full).sort((a, b) => a - b);
const size = await page.evaluate(() => document.querySelectorAll(".drawn svg").length);
row("what", "aim", "measured");
row("page, as it goes over the wire", "300 kB", `${(parts.reduce((sum, [, n]) => sum + n, 0) / 1000).toFixed(1)} kB: ${parts.map(([from, n]) => `${from.split("/").pop() || "index.html"} ${(n / 1000).toFixed(1)}`).join(", ")}`);
row(`command to first picture, ${starts} starts`, "1 s", `median ${at(pictures, 0.5).toFixed(0)} ms, most ${pictures.at(-1).toFixed(0)} ms`);
row("command to full run shown", "", `median ${at(fulls, 0.5).toFixed(0)} ms, most ${fulls.at(-1).toFixed(0)} ms`);
row(`slider to new picture, ${moves} moves`, "95 %: 50 ms", `median ${at(times, 0.5).toFixed(1)} ms, 95 % ${at(times, 0.95).toFixed(1)} ms, most ${times.at(-1).toFixed(1)} ms (${size} pictures in sight)`);
child.removeAllListeners("exit");
child.kill("SIGTERM");
await browser.close();
rmSync(folder, { recursive: true, force: true });

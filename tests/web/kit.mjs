// What the browser tests share: the browser, a served copy of a bridge, numbers as they are printed.
import { execFile, spawn } from "node:child_process";
import { copyFileSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";

export const program = process.env.CLENCH;
const room = createRequire(join(process.env.CLENCH_WEB_TESTS, "package.json"));
const { chromium } = room("playwright-core");
export const axeSource = room("axe-core").source;

// Off the network, and without the sandbox that root cannot have.
const flags = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
  "--disable-background-networking", "--disable-component-update", "--disable-sync"];
export const openBrowser = (more = []) =>
  chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: [...flags, ...more] });

/** `clench serve` on a file; the address is its first line. */
export function serve(file, port = "0", more = []) {
  const child = spawn(program, ["serve", file, "--port", port, "--no-browser", ...more], { stdio: ["ignore", "pipe", "inherit"] });
  return new Promise((done, fail) => {
    let said = "";
    child.stdout.on("data", (bytes) => {
      said += bytes;
      if (said.includes("\n")) done({ child, url: said.split("\n")[0].trim() });
    });
    child.on("exit", (code) => fail(new Error(`clench serve ended with ${code}`)));
  });
}

/** A copy of an example in a folder of its own (null: no file yet), served, in a fresh page. */
export async function withBridge(browser, work, { example = "causeway", options = {}, hash = "" } = {}) {
  const folder = mkdtempSync(join(tmpdir(), "clench-page-")), file = join(folder, "bridge.yaml");
  if (example) copyFileSync(`examples/${example}.yaml`, file);
  const { child, url } = await serve(file);
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, acceptDownloads: true, ...options });
  const faults = [];
  const open = async (at = url + hash) => {
    const page = await context.newPage();
    page.setDefaultTimeout(20000);
    page.on("pageerror", (error) => faults.push(`page: ${error.message}`));
    page.on("console", (said) => {
      if (said.type() === "error" && !/Failed to load resource/.test(said.text())) faults.push(`console: ${said.text()}`);
    });
    await page.goto(at);
    return page;
  };
  try {
    const page = await open();
    if (example) await settled(page);
    await work({ page, file, folder, url, open, child, context });
    if (faults.length) throw new Error(faults.join("; "));
  } finally {
    await context.close();
    child.kill("SIGTERM");
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The full run is shown, and the checks of it. */
export async function settled(page) {
  await page.waitForSelector('#answer[data-phase="full"]');
}

const run = (words) => new Promise((done, fail) =>
  execFile(program, words, { maxBuffer: 1 << 26 }, (error, out, err) =>
    (error && ![1, 5].includes(error.code) ? fail(new Error(err || String(error))) : done(out))));

/** What the command line says of a text or file. */
export const answerOf = async (file, thrust_N) =>
  JSON.parse(await run(["thrust", file, "--json", ...(thrust_N ? ["--thrust", `${thrust_N} N`] : [])]));
export const checksOf = async (file, thrust_N) =>
  JSON.parse(await run(["checks", file, "--json", ...(thrust_N ? ["--thrust", `${thrust_N} N`] : [])]));
export async function answerOfText(folder, text, thrust_N) {
  const file = join(folder, "asked.yaml");
  writeFileSync(file, text);
  return answerOf(file, thrust_N);
}

export function check(right, words) {
  if (!right) throw new Error(words);
}
export function same(seen, expected, words) {
  check(seen === expected, `${words}: ${JSON.stringify(seen)}, expected ${JSON.stringify(expected)}`);
}

const unit = { kip: 4448.2216152605, kN: 1000, psi: 6894.757293168361, MPa: 1e6, in: 0.0254, mm: 0.001 };
/** A printed quantity is the value, to half of its last digit. */
export function printed(text, value_SI, words) {
  const [, number, name, sense] = /^(-?[\d.]+) (\w+)(?: (compression|tension))?/.exec(text) ?? [];
  check(number !== undefined, `${words}: '${text}' is no quantity`);
  const half = 0.5 * 10 ** -(number.split(".")[1]?.length ?? 0);
  const value = value_SI / unit[name], size = sense ? Math.abs(value) : value;
  check(Math.abs(Number(number) - size) <= half * (1 + 1e-6), `${words}: '${text}' on the page, ${size} ${name} of the command line`);
  if (sense && Number(number) !== 0) same(sense, value < 0 ? "compression" : "tension", words);
}

export const words = (page, selector) => page.locator(selector).innerText();
/** A range input moved as a hand does: the value, then the event. */
export const slide = (page, selector, value) => page.locator(selector).evaluate((input, value) => {
  input.value = String(value);
  input.dispatchEvent(new Event("input", { bubbles: true }));
}, value);

// The page on site, on a telephone: judged at once, kept first, sent once and in order; without a network too.
import { execFileSync } from "node:child_process";
import { createHash, X509Certificate } from "node:crypto";
import { copyFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { axeSource, check, openBrowser, program, same, serve, words } from "./kit.mjs";

const phone = { viewport: { width: 390, height: 844 }, isMobile: true, hasTouch: true };
const dials = "gap -18 ft, gap 0 ft, gap 18 ft, slip left, slip right";
const clench = (...words) => execFileSync(program, words, { encoding: "utf8", maxBuffer: 1 << 26 });
const logOf = (file) => JSON.parse(clench("site", "export", file, "--json"));

/** A bridge with its log open, served, in a telephone. `restart` puts the server back where it was. */
async function withSite(browser, work, { points = dials } = {}) {
  const folder = mkdtempSync(join(tmpdir(), "clench-site-")), file = join(folder, "bridge.yaml");
  copyFileSync("examples/steel-continuous.yaml", file);
  if (points) try { clench("site", "open", file, "--points", points); } catch (error) { check(error.status === 5, String(error)); }
  let { child, url } = await serve(file);
  const port = new URL(url).port, faults = [], contexts = [];
  const device = async () => {
    const context = await browser.newContext({ ...phone, acceptDownloads: true });
    contexts.push(context);
    return context;
  };
  const open = async (context) => {
    const page = await context.newPage();
    page.setDefaultTimeout(15000);
    page.on("pageerror", (error) => faults.push(`page: ${error.message}`));
    await page.goto(`${url}site`);
    return page;
  };
  const server = {
    kill: () => new Promise((done) => { child.on("exit", done); child.kill("SIGKILL"); }),
    restart: async () => { ({ child } = await serve(file, port)); },
  };
  try {
    const context = await device(), page = await open(context);
    if (points) await page.waitForSelector("#keep");
    await work({ page, context, file, device, open, server, url });
    if (faults.length) throw new Error(faults.join("; "));
  } finally {
    for (const context of contexts) await context.close();
    child.kill("SIGTERM");
    rmSync(folder, { recursive: true, force: true });
  }
}

const call = (page) => page.locator("#verdict").getAttribute("data-call");
const counts = (page) => words(page, "#counts");
const settled = (page, text) => page.waitForFunction((text) => document.querySelector("#counts")?.textContent === text, text);
const connected = (page) => page.waitForSelector('#status[data-net="up"]');
const keptAndSent = (kept, sent) => `Kept on this device: ${kept}, sent: ${sent}.`;
/** The files lie on the device: from here on the page opens without a network. */
const ready = (page) => page.evaluate(() => navigator.serviceWorker.ready.then(() => {}));

/** Fills the form and presses; `gap` times what is expected of the step. */
async function keep(page, { step = 0, phase = "pump", gap = 1, pressure = 1, fields = {} } = {}) {
  await page.locator("#step").selectOption(String(step));
  await page.locator(`.phases input[value=${phase}]`).check({ force: true });
  const [, psi, inches] = /read ([\d.]+) psi.*opened by ([\d.]+) in/.exec(await words(page, "#expected")) ?? [0, 0, 0];
  const typed = { "pressure-1": String(psi * pressure), deck: "61", girder: "60", "move-4": "0", "move-5": "0" };
  for (const i of [1, 2, 3]) typed[`move-${i}`] = (inches * gap).toFixed(3);
  for (const [id, value] of Object.entries({ ...typed, who: "A. B.", ...fields })) await page.locator(`#${id}`).fill(value);
  const before = await page.locator(".readings li").count();
  await page.locator("#keep").click();
  await page.waitForFunction((before) => document.querySelectorAll(".readings li").length > before, before);
}

export const a_reading_on_site_is_judged_as_the_command_line_does = (browser) => withSite(browser, async ({ page, file }) => {
  await keep(page);
  same(await call(page), "go on", "zero reading");
  await keep(page, { step: 1 });
  same(await call(page), "go on", "by the plan");
  await keep(page, { step: 2, gap: 1.6 });
  same(await call(page), "read again", "far off");
  await settled(page, keptAndSent(0, 3));
  await keep(page, { step: 2, gap: 1.6 });
  same(await call(page), "hold", "far off twice");
  await settled(page, keptAndSent(0, 4));
  const log = logOf(file).readings;
  same(JSON.stringify(log.map((r) => r.said)), JSON.stringify(["go on", "go on", "read again", "hold"]), "said by the log");
  const findings = log[3].verdict_now.findings.map((f) => f.words);
  same(JSON.stringify(await page.locator("#reason li").allInnerTexts()), JSON.stringify(findings), "findings");
  check((await page.locator("#picture-none, .drawn svg").count()) === 1, "one picture without a hold");
  await keep(page, { step: 2, phase: "held" });
  await page.waitForFunction(() => document.querySelectorAll(".drawn svg").length === 2);
  check(await page.locator("#both, #first").count() === 0, "device and log disagree");
  const took = await page.evaluate(() => performance.getEntriesByName("verdict").map((e) => Math.round(e.duration)));
  console.log(`        from the press to the verdict: ${took.join(", ")} ms`);
});

export const readings_without_a_network_arrive_once_and_in_order = (browser) => withSite(browser, async ({ page, context, file }) => {
  await keep(page);
  await settled(page, keptAndSent(0, 1));
  await ready(page);
  await context.setOffline(true);
  for (const step of [1, 2, 3]) await keep(page, { step });
  same(await call(page), "go on", "judged without a network");
  await page.waitForSelector('#status[data-net="down"]');
  same(await counts(page), keptAndSent(3, 1), "without a network");
  await page.locator("#move-1").fill("1.234");
  await page.waitForTimeout(500);
  await page.reload();
  await page.waitForSelector("#keep");
  same(await counts(page), keptAndSent(3, 1), "opened again without a network");
  same(await page.locator(".readings li").count(), 4, "readings");
  same(await page.locator("#move-1").inputValue(), "1.234", "half typed");
  await page.locator("#move-1").fill("");
  await keep(page, { step: 3, phase: "held" });
  const ids = (await page.locator(".readings li").evaluateAll((list) => list.map((li) => li.dataset.id))).reverse();
  await context.setOffline(false);
  await settled(page, keptAndSent(0, 5));
  const log = logOf(file).readings;
  same(JSON.stringify(log.map((r) => r.id)), JSON.stringify(ids), "once and in order");
  same(log.map((r) => r.phase).join(), "pump,pump,pump,pump,held", "phases");
});

export const a_server_that_dies_is_waited_for = (browser) => withSite(browser, async ({ page, file, server }) => {
  await keep(page);
  await settled(page, keptAndSent(0, 1));
  await server.kill();
  await keep(page, { step: 1 });
  await keep(page, { step: 2 });
  await page.waitForSelector('#status[data-net="down"]');
  await server.restart();
  await settled(page, keptAndSent(0, 3));
  same(logOf(file).readings.map((r) => r.step).join(), "0,1,2", "steps");
});

export const an_answer_that_is_lost_adds_nothing = (browser) => withSite(browser, async ({ page, context, file }) => {
  await keep(page);
  await settled(page, keptAndSent(0, 1));
  let lost = 0;
  await context.route("**/api/site/readings", async (route) => {
    if (lost++ > 0) return route.continue();
    await route.fetch();
    return route.abort();
  });
  await keep(page, { step: 1 });
  await keep(page, { step: 2 });
  await settled(page, keptAndSent(0, 3));
  check(lost >= 3, `${lost} requests`);
  same(logOf(file).readings.length, 3, "readings");
});

export const two_devices_see_each_other = (browser) => withSite(browser, async ({ page, file, device, open }) => {
  const context = await device(), other = await open(context);
  await keep(page);
  await other.waitForFunction(() => document.querySelectorAll(".readings li").length === 1);
  await ready(other);
  await context.setOffline(true);
  await other.reload(); // ends the question that waits for records
  await other.waitForSelector("#keep");
  await keep(page, { step: 1, gap: 2.2 }); // first by the clock too: times that go back are another finding
  await settled(page, keptAndSent(0, 2));
  await keep(other, { step: 1, gap: 2.2, fields: { who: "C. D." } });
  same(await call(other), "read again", "alone");
  await context.setOffline(false);
  await settled(other, keptAndSent(0, 1));
  await other.waitForSelector("#first");
  same(await call(other), "hold", "with the reading of the other device");
  check(/said read again/.test(await words(other, "#first")), await words(other, "#first"));
  await page.waitForFunction(() => document.querySelectorAll(".readings li").length === 3);
  same(await call(page), "hold", "on the first device");
  same(logOf(file).readings.map((r) => r.who).join(), "A. B.,A. B.,C. D.", "order of the log");
});

/** Sent late, behind a reading of a later time, the log can judge it no further: what was said first counts on. */
export const a_hold_that_arrives_late_stays_a_hold = (browser) => withSite(browser, async ({ page, device, open }) => {
  const context = await device(), other = await open(context);
  await keep(page);
  await other.waitForFunction(() => document.querySelectorAll(".readings li").length === 1);
  await ready(other);
  await context.setOffline(true);
  await other.reload();
  await other.waitForSelector("#keep");
  await keep(other, { step: 1, gap: 2.2, fields: { who: "C. D." } });
  await keep(other, { step: 1, gap: 2.2, fields: { who: "C. D." } });
  same(await call(other), "hold", "alone");
  await page.waitForTimeout(1100); // times are kept to the second
  await keep(page, { step: 1 });
  await settled(page, keptAndSent(0, 2));
  await context.setOffline(false);
  await settled(other, keptAndSent(0, 2));
  await other.waitForFunction(() => document.querySelectorAll(".readings li").length === 4);
  same(await call(other), "hold", "on the device that kept it");
  check(/said hold/.test(await words(other, "#first")), await words(other, "#first"));
});

export const a_refused_reading_is_shown_and_holds_up_no_other = (browser) => withSite(browser, async ({ page, context, file }) => {
  await keep(page);
  await settled(page, keptAndSent(0, 1));
  let refused = 0;
  await context.route("**/api/site/readings", (route) => (refused++ > 0 ? route.continue() : route.fulfill({ status: 400,
    json: { errors: [{ key: "deck", text: "61 is refused for this test" }] } })));
  await keep(page, { step: 1, gap: 1.6 });
  await page.waitForSelector("#refused");
  check(/deck: 61 is refused/.test(await words(page, "#refused")), await words(page, "#refused"));
  await keep(page, { step: 2 });
  await settled(page, keptAndSent(0, 2));
  same(logOf(file).readings.map((r) => r.step).join(), "0,2", "steps in the log");
  same(await call(page), "read again", "what the refused one said counts on");
  check(/refused said read again/.test(await words(page, "#held")), await words(page, "#held"));
  await page.locator("#refused button", { hasText: "form" }).click();
  same(await page.locator("#step").inputValue(), "1", "step of the refused one");
  check((await page.locator("#pressure-1").inputValue()).endsWith("psi"), "its words");
  await page.locator("#refused button", { hasText: "away" }).click();
  await page.waitForFunction(() => !document.querySelector("#refused"));
  same(await call(page), "go on", "settled");
});

export const a_strike_asks_why_and_who = (browser) => withSite(browser, async ({ page, file }) => {
  await keep(page);
  await keep(page, { step: 1, gap: 2.4 });
  await settled(page, keptAndSent(0, 2));
  await page.locator(".readings li .strike").first().click();
  await page.locator("#strike-do").click();
  check(/says why/.test(await words(page, "dialog")), "an empty strike");
  await page.locator("#strike-why").fill("wrong dial");
  await page.locator("#strike-do").click();
  await page.waitForSelector(".readings li.struck");
  check(/struck by A\. B\.: wrong dial/.test(await words(page, ".readings li.struck")), "words of the strike");
  same(await call(page), "go on", "the reading before");
  await settled(page, keptAndSent(0, 2));
  const log = logOf(file).readings;
  same(log[1].struck_because, "wrong dial", "why");
  same(log[1].struck_who, "A. B.", "who");
});

export const words_that_are_none_are_told_at_their_field = (browser) => withSite(browser, async ({ page, file }) => {
  await keep(page, { fields: { "move-1": "0,25", "move-2": "6.35 mm", "move-3": ".25" } });
  await settled(page, keptAndSent(0, 1));
  const read = logOf(file).readings[0];
  for (const i of [0, 1, 2]) check(Math.abs(read.move_m[i] - 0.00635) < 1e-9, `dial ${i + 1}: ${read.move_m[i]} m`);
  await page.locator("#step").selectOption("1");
  await page.locator("#move-1").fill("1,234");
  await page.locator("#keep").click();
  await page.waitForSelector("#move-1[aria-invalid]");
  same(await page.evaluate(() => document.activeElement.id), "move-1", "focus");
  same(await counts(page), keptAndSent(0, 1), "nothing is kept");
  await page.locator("#who").fill(" ");
  await page.locator("#keep").click();
  await page.waitForSelector("#who[aria-invalid]");
});

export const the_log_is_opened_on_site = (browser) => withSite(browser, async ({ page, file }) => {
  await page.locator("#points").fill("gap 400 ft");
  await page.locator("form button").click();
  await page.waitForFunction(() => /is no dial/.test(document.querySelector(".fault")?.textContent ?? ""));
  await page.locator("#points").fill(dials);
  await page.locator("form button").click();
  await page.waitForSelector("#keep");
  same(logOf(file).readings.length, 0, "readings");
}, { points: null });

export const the_page_on_site_has_no_axe_violations = (browser) => withSite(browser, async ({ page }) => {
  await connected(page);
  const violations = async (what) => {
    await page.evaluate(axeSource);
    const found = await page.evaluate(() => axe.run());
    check(found.violations.length === 0, `${what}: ${found.violations.map((v) => `${v.id}: ${v.nodes[0].html.slice(0, 120)}`).join("; ")}`);
  };
  await violations("at the start");
  await keep(page);
  await keep(page, { step: 1, phase: "held" });
  await violations("go on");
  await keep(page, { step: 2, gap: 1.7 });
  await violations("read again");
  await keep(page, { step: 2, gap: 1.7 });
  await violations("hold");
  await keep(page, { step: 3, fields: { "pressure-1": "9900" } });
  same(await call(page), "stop", "beyond the jacks");
  await page.locator("summary").first().click();
  await violations("stop");
  await page.locator(".strike").first().click();
  await violations("strike");
});

/** 56 px for gloves, nothing wider than the screen; also at 360 px, and the letters twice as large. */
export const targets_on_site_are_large_and_fit = (browser) => withSite(browser, async ({ page }) => {
  await keep(page);
  await keep(page, { step: 1 });
  for (const [width, size] of [[390, 17], [360, 17], [390, 34], [820, 17]]) {
    await page.setViewportSize({ width, height: 844 });
    await page.evaluate((size) => { document.documentElement.style.fontSize = `${size}px`; }, size);
    const small = await page.evaluate(() => [...document.querySelectorAll("button, select, input:not([type=radio]), .phases label, summary")]
      .map((e) => ({ name: e.id || e.textContent, ...e.getBoundingClientRect().toJSON() }))
      .filter((r) => r.width < 56 || r.height < 56).map((r) => `${r.name}: ${r.width} x ${r.height}`));
    same(small.join("; "), "", `targets below 56 px at ${width} px`);
    const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    check(over <= 0, `${over} px beyond the screen at ${width} px, letters ${size} px`);
  }
});

export const what_the_server_says_is_in_no_cache = (browser) => withSite(browser, async ({ page }) => {
  await keep(page);
  await settled(page, keptAndSent(0, 1));
  await ready(page);
  const kept = await page.evaluate(async () => {
    const all = [];
    for (const name of await caches.keys())
      for (const request of await (await caches.open(name)).keys()) all.push(new URL(request.url).pathname);
    return all.sort().join(" ");
  });
  same(kept, "/picture.css /site /site.css /site.js /site.wasm", "files kept");
});

const freePort = () => new Promise((done) => {
  const probe = createServer().listen(0, "127.0.0.1", () => { const { port } = probe.address(); probe.close(() => done(String(port))); });
});

/** As on the site's network: another name, a certificate of its own, tokens. Chromium trusts that one key. */
export const over_https_with_a_token_it_works_without_a_network_too = async () => {
  const folder = mkdtempSync(join(tmpdir(), "clench-https-")), file = join(folder, "bridge.yaml"), name = "bridge.example";
  const certificate = join(folder, "cert.pem"), key = join(folder, "key.pem"), tokens = join(folder, "tokens");
  const writer = "w".repeat(40), reader = "r".repeat(40);
  copyFileSync("examples/steel-continuous.yaml", file);
  try { clench("site", "open", file, "--points", dials); } catch (error) { check(error.status === 5, String(error)); }
  execFileSync("openssl", ["req", "-x509", "-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:prime256v1", "-nodes", "-days", "2",
    "-subj", `/CN=${name}`, "-addext", `subjectAltName=DNS:${name}`, "-keyout", key, "-out", certificate], { stdio: "ignore" });
  writeFileSync(tokens, `writer ${writer}\nreader ${reader}\n`, { mode: 0o600 });
  const spki = createHash("sha256").update(new X509Certificate(readFileSync(certificate)).publicKey
    .export({ type: "spki", format: "der" })).digest("base64");
  const { child, url } = await serve(file, await freePort(), ["--listen", "127.0.0.1", "--name", name, "--certificate", certificate,
    "--key", key, "--tokens", tokens]);
  const at = `https://${name}:${new URL(url).port}/`;
  const browser = await openBrowser([`--ignore-certificate-errors-spki-list=${spki}`, `--host-resolver-rules=MAP ${name} 127.0.0.1`]);
  try {
    const context = await browser.newContext(phone), page = await context.newPage();
    page.setDefaultTimeout(15000);
    await page.goto(`${at}site#token=${writer}`);
    await page.waitForSelector("#keep");
    same(page.url(), `${at}site`, "the token leaves the address");
    await keep(page);
    await settled(page, keptAndSent(0, 1));
    await ready(page);
    await context.setOffline(true);
    await keep(page, { step: 1 });
    await page.reload();
    await page.waitForSelector("#keep");
    same(await counts(page), keptAndSent(1, 1), "opened again without a network");
    await context.setOffline(false);
    await settled(page, keptAndSent(0, 2));
    same(logOf(file).readings.map((r) => r.step).join(), "0,1", "steps in the log");
    const looks = await (await browser.newContext(phone)).newPage();
    looks.setDefaultTimeout(15000);
    await looks.goto(`${at}site#token=${reader}`);
    await looks.waitForFunction(() => document.querySelectorAll(".readings li").length === 2);
    const stranger = await (await browser.newContext(phone)).newPage();
    await stranger.goto(`${at}site`);
    await stranger.waitForTimeout(1000);
    same(await stranger.locator(".readings li").count(), 0, "readings without a token");
  } finally {
    await browser.close();
    child.kill("SIGTERM");
    rmSync(folder, { recursive: true, force: true });
  }
};

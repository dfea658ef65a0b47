// Keeping: revisions side by side, what leaves the page, the first bridge.
import { existsSync, readFileSync } from "node:fs";
import { answerOf, check, printed, same, settled, slide, withBridge, words } from "./kit.mjs";

export const a_revision_is_kept_and_compared = (browser) => withBridge(browser, async ({ page }) => {
  const before = await words(page, "#n-need");
  await page.locator("#tab-revisions").click();
  await page.locator("#note").fill("as drawn");
  await page.locator("#keep").click();
  await page.waitForSelector(".revisions li");
  check(/as drawn/.test(await words(page, ".revisions li")), "the note");
  await page.locator("#tab-handles").click();
  await page.locator('[id="handle-girders.spacing"]').fill("8 ft");
  await page.locator('[id="handle-girders.spacing"]').press("Enter");
  await page.waitForFunction((before) => document.querySelector("#n-need").textContent !== before, before);
  await settled(page);
  const after = await words(page, "#n-need");
  await page.locator("#tab-revisions").click();
  await page.locator(".revisions .compare").click();
  await page.waitForSelector("dialog .numbers");
  const row = await page.locator("dialog .numbers tr", { hasText: /^needed/ }).locator("td").allInnerTexts();
  same(JSON.stringify(row), JSON.stringify([before, after]), "needed, both");
  check((await page.locator("dialog .numbers tr.differs").count()) >= 3, "differences are not marked");
  same(await page.locator("dialog .half svg").count(), 6, "pictures");
  const ids = await page.evaluate(() => [...document.querySelectorAll("[id]")].map((e) => e.id));
  same(ids.length, new Set(ids).size, "ids that are there once");
  const text = await words(page, "dialog .changes");
  check(text.includes("−   spacing: 8 ft 6 in") && text.includes("+   spacing: 8 ft"), `differences of the text: ${text}`);
  await page.keyboard.press("Escape");
  await page.waitForFunction(() => !document.querySelector("dialog"));
  await page.locator(".revisions button", { hasText: "Bring back" }).click();
  await page.waitForFunction((before) => document.querySelector("#n-need").textContent === before, before);
});

async function given(page, press) {
  const [download] = await Promise.all([page.waitForEvent("download"), press()]);
  return { name: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
}

export const pictures_and_data_leave_the_page = (browser) => withBridge(browser, async ({ page }) => {
  for (const id of ["bridge", "deck", "map", "joint", "split", "window", "plan"]) {
    const figure = page.locator(`#picture-${id}`);
    await figure.scrollIntoViewIfNeeded();
    await page.waitForSelector(`#picture-${id} svg`);
    const svg = await given(page, () => figure.getByRole("button", { name: "SVG" }).click());
    same(svg.name, `bridge-${id}.svg`, "name");
    const text = svg.bytes.toString();
    check(text.startsWith("<svg") && text.includes("<style>") && text.includes("--paper"), `${id}: a picture that stands alone`);
    const png = await given(page, () => figure.getByRole("button", { name: "PNG" }).click());
    same(png.bytes.subarray(1, 4).toString(), "PNG", `${id}: PNG`);
    check(png.bytes.readUInt32BE(16) > 600 && png.bytes.length > 4000, `${id}: PNG of ${png.bytes.readUInt32BE(16)} dots, ${png.bytes.length} bytes`);
    const csv = (await given(page, () => figure.getByRole("button", { name: "CSV" }).click())).bytes.toString();
    const lines = csv.trim().split(/\r?\n/);
    check(lines.length >= 2 && lines[0].includes(","), `${id}: CSV '${csv.slice(0, 80)}'`);
  }
});

export const an_svg_alone_draws_in_colour = (browser) => withBridge(browser, async ({ page, context }) => {
  const svg = await given(page, () => page.locator("#picture-bridge").getByRole("button", { name: "SVG" }).click());
  const alone = await context.newPage();
  await alone.setContent(svg.bytes.toString());
  const fill = await alone.evaluate(() => getComputedStyle(document.querySelector("svg .panel, svg .anchor")).fill);
  check(fill !== "rgb(0, 0, 0)", `a panel is ${fill}`);
});

export const the_package_is_a_pdf = (browser) => withBridge(browser, async ({ page }) => {
  const pdf = await given(page, () => page.locator("#package").click());
  same(pdf.bytes.subarray(0, 5).toString(), "%PDF-", "package");
  same(pdf.name, "bridge.pdf", "name");
  await page.locator("#tab-text").click();
  await page.locator(".cm-content").click();
  await page.locator(".cm-content").press("Control+Home");
  await page.keyboard.type("colour: 3\n");
  await page.waitForSelector(".faults");
  await given(page, () => page.locator("#package").click());
  await page.waitForFunction(() => /of the last text without errors: given/.test(document.querySelector("#news").textContent));
});

export const nothing_is_saved_of_nothing = (browser) => withBridge(browser, async ({ page, file }) => {
  await page.waitForFunction(() => document.querySelector("#file-state")?.textContent === "not yet written");
  await page.keyboard.press("Control+s");
  await page.waitForFunction(() => /nothing to save/.test(document.querySelector("#news").textContent));
  check(!existsSync(file), "a file was written");
}, { example: null });

export const a_link_opens_the_same_view = (browser) => withBridge(browser, async ({ page, open, url, file }) => {
  await page.locator("#line").selectOption({ index: 1 });
  await page.locator("#joint").selectOption({ index: 2 });
  await page.locator("#thrust-number").fill("1300");
  await page.locator("#thrust-number").press("Enter");
  await slide(page, "#time", 9);
  await settled(page);
  await page.locator("#link").click();
  const link = page.url();
  check(link.startsWith(`${url}#`), `link ${link}`);
  const other = await open(link);
  await settled(other);
  for (const id of ["#line", "#joint", "#time"]) same(await other.locator(id).inputValue(), await page.locator(id).inputValue(), id);
  same(await words(other, "#n-thrust"), "1300 kip", "thrust");
  same(await words(other, "#n-margin"), await words(page, "#n-margin"), "margin");
  printed(await words(other, "#n-need"), (await answerOf(file)).need_whole_N, "need");
});

export const a_newcomer_gets_a_first_bridge = (browser) => withBridge(browser, async ({ page, file }) => {
  await page.waitForSelector("#first-make");
  await page.locator("#first-spans").fill("80 ft, 100 furlong");
  await page.locator("#first-make").click();
  await page.waitForSelector(".first .fault");
  await page.locator("#first-spans").fill("80 ft, 100 ft");
  await page.locator("#first-girder").selectOption("plate girder");
  await page.locator("#first-make").click();
  await settled(page);
  check(!existsSync(file), "written before saving");
  await page.locator("#save").click();
  await page.waitForFunction(() => document.querySelector("#file-state").textContent === "saved");
  printed(await words(page, "#n-need"), (await answerOf(file)).need_whole_N, "need");
}, { example: null });

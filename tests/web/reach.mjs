// Reach: every size, keys alone, readers of the screen, both papers.
import { axeSource, check, same, settled, withBridge, words } from "./kit.mjs";

const sizes = [[360, 740], [768, 1024], [1280, 900], [3840, 2160]];
export const every_size_holds_the_page = async (browser) => {
  for (const [width, height] of sizes)
    await withBridge(browser, async ({ page }) => {
      const wide = await page.evaluate(() => document.documentElement.scrollWidth);
      check(wide <= width, `${width}: the page is ${wide} wide`);
      await page.locator("#tab-text").click();
      check((await page.locator(".cm-content").boundingBox()).height > 100, `${width}: no room for the text`);
      await page.locator("#thrust").scrollIntoViewIfNeeded();
      const slider = await page.locator("#thrust").boundingBox();
      check(slider.width > 0.4 * Math.min(width, 800), `${width}: slider ${slider.width}`);
      await page.mouse.click(slider.x + 0.8 * slider.width, slider.y + slider.height / 2);
      await settled(page);
      for (const id of ["tab-checks", "tab-handles", "tab-revisions"]) {
        await page.locator(`#${id}`).click();
        const wider = await page.evaluate(() => document.documentElement.scrollWidth);
        check(wider <= width, `${width}, ${id}: the page is ${wider} wide`);
      }
    }, { options: { viewport: { width, height }, hasTouch: width < 1000 } });
};

export const a_finger_finds_its_target = (browser) => withBridge(browser, async ({ page }) => {
  const small = await page.locator("button:visible, select:visible, input:visible").evaluateAll((list) =>
    list.filter((e) => e.getBoundingClientRect().height < 24).map((e) => e.outerHTML.slice(0, 80)));
  same(small.length, 0, `targets below 24 px: ${small.join("; ")}`);
}, { options: { viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true } });

export const keys_alone_reach_everything = (browser) => withBridge(browser, async ({ page }) => {
  const seen = new Set();
  const at = () => page.evaluate(() => document.activeElement?.id || document.activeElement?.textContent?.slice(0, 20) || "");
  await page.keyboard.press("Tab");
  same(await at(), "To the answer", "first stop");
  for (let i = 0; i < 80 && !seen.has("tab-checks"); i++) {
    await page.keyboard.press("Tab");
    const id = await at();
    seen.add(id);
    if (id === "thrust") {
      const before = await page.locator("#n-thrust").innerText();
      for (let k = 0; k < 8; k++) await page.keyboard.press("ArrowRight");
      await page.waitForFunction((before) => document.querySelector("#n-thrust").textContent !== before, before);
      const ring = await page.evaluate(() => getComputedStyle(document.activeElement).outlineStyle);
      same(ring, "solid", "ring of the focus");
    }
    if (id === "time") {
      await page.keyboard.press("Home");
      same(await page.locator("#time").inputValue(), "0", "moment");
    }
  }
  for (const id of ["package", "link", "units", "theme", "thrust-number", "thrust", "to-need", "play", "time", "stage", "line", "joint", "tab-checks"])
    check(seen.has(id), `${id} is not reached: ${[...seen].join(", ")}`);
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("ArrowRight");
  same(await at(), "tab-text", "tab by arrows");
  await page.keyboard.press("Tab");
  await page.keyboard.type("x");
  await page.waitForFunction(() => document.querySelector("#file-state").textContent === "changes not saved");
  await page.keyboard.press("Tab");
  check((await page.evaluate(() => document.activeElement?.className)) !== "editor", "the editor holds the keyboard");
});

async function violations(page, where) {
  await page.evaluate(axeSource);
  const found = await page.evaluate(() => window.axe.run(document, { resultTypes: ["violations"] }));
  const serious = found.violations.filter((v) => ["serious", "critical"].includes(v.impact));
  check(!serious.length, `${where}: ${serious.map((v) => `${v.id} at ${v.nodes.slice(0, 3).map((n) => n.target.join(" ")).join(", ")}: ${v.nodes[0].failureSummary}`).join("; ")}`);
}

async function throughTheStates(page, paper) {
  for (const id of ["deck", "map", "joint", "split", "window", "plan"]) {
    await page.locator(`#picture-${id}`).scrollIntoViewIfNeeded();
    await page.waitForSelector(`#picture-${id} svg`);
  }
  for (const tab of ["checks", "handles", "revisions", "text"]) {
    await page.locator(`#tab-${tab}`).click();
    await violations(page, `${paper}, ${tab}`);
  }
  await page.locator(".cm-content").click();
  await page.keyboard.press("Control+Home");
  await page.keyboard.type("colour: 3\n");
  await page.waitForSelector(".fault-mark");
  await violations(page, `${paper}, an error`);
  for (let i = 0; i < 10; i++) await page.keyboard.press("Control+z");
  await settled(page);
  await page.locator("#tab-revisions").click();
  await page.locator("#keep").click();
  await page.locator(".revisions .compare").first().click();
  await page.waitForSelector("dialog .numbers");
  await violations(page, `${paper}, compared`);
}

export const no_serious_violation_on_light_paper = (browser) =>
  withBridge(browser, ({ page }) => throughTheStates(page, "light"), { options: { colorScheme: "light", bypassCSP: true } });
export const no_serious_violation_on_dark_paper = (browser) =>
  withBridge(browser, ({ page }) => throughTheStates(page, "dark"), { options: { colorScheme: "dark", bypassCSP: true } });
export const no_serious_violation_at_the_start = (browser) => withBridge(browser, async ({ page }) => {
  await page.waitForSelector("#first-make");
  await violations(page, "start");
}, { example: null, options: { bypassCSP: true } });

export const the_paper_is_chosen_and_kept = (browser) => withBridge(browser, async ({ page }) => {
  const paper = () => page.evaluate(() => getComputedStyle(document.body).backgroundColor);
  const light = await paper();
  await page.locator("#theme").selectOption("dark");
  const dark = await paper();
  check(dark !== light, "the paper stays");
  await page.reload();
  await settled(page);
  same(await paper(), dark, "paper after a new start");
  check((await words(page, "#sentence")).length > 20, "the sentence");
}, { options: { colorScheme: "light" } });

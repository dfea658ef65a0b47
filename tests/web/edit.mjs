// Editing: the text, its errors, its handles; undo and redo; saving; changes from elsewhere.
import { readFileSync, writeFileSync } from "node:fs";
import { answerOf, answerOfText, check, printed, same, settled, withBridge, words } from "./kit.mjs";

const shownLines = (page) => page.locator(".cm-line").allInnerTexts();
const need = (page) => words(page, "#n-need");
const needIs = (page, text) => page.waitForFunction((text) => document.querySelector("#n-need")?.textContent === text, text);
const needIsNot = (page, text) => page.waitForFunction((text) => document.querySelector("#n-need")?.textContent !== text, text);

async function typeAtTop(page, text) {
  await page.locator("#tab-text").click();
  await page.locator(".cm-content").click();
  await page.keyboard.press("Control+Home");
  await page.keyboard.type(text);
}

export const an_error_is_underlined_at_its_place_and_mended = (browser) => withBridge(browser, async ({ page }) => {
  const before = await need(page), picture = await page.locator("#picture-bridge .drawn").innerHTML();
  await typeAtTop(page, "colour: 3\n");
  await page.waitForSelector(".fault-mark");
  check("colour: 3".includes(await words(page, ".fault-mark")), "the mark stands elsewhere");
  check(/^line 1\b/.test(await words(page, ".faults li")), "the list does not name line 1");
  check(/colour/.test(await words(page, ".faults li")), "the list does not name the key");
  same(await page.locator("#answer").getAttribute("data-phase"), "stale", "phase");
  check(/last good text/.test(await words(page, "#phase")), "not said that the picture is of the last good text");
  same(await need(page), before, "need of the last good text");
  same(await page.locator("#picture-bridge .drawn").innerHTML(), picture, "picture of the last good text");
  await page.locator("#thrust").press("ArrowUp"); // the last good bridge still follows the hand
  await page.waitForFunction((before) => document.querySelector("#picture-bridge .drawn").innerHTML !== before, picture);
  for (let i = 0; i < 10; i++) await page.locator(".cm-content").press("Control+z");
  await page.waitForFunction(() => !document.querySelector(".faults"));
  await settled(page);
  same(await page.locator(".fault-mark").count(), 0, "marks left");
});

export const a_prediction_is_marked_beside_errors_too = (browser) => withBridge(browser, async ({ page }) => {
  await typeAtTop(page, "colour: 3\n");
  await page.waitForSelector(".fault-mark");
  const marked = page.evaluate(() => new Promise((done) => {
    const look = () => {
      if (!document.querySelector("#answer.predicted")) return requestAnimationFrame(look);
      const drawn = document.querySelector("#picture-bridge .drawn");
      done([document.querySelector("#picture-bridge .tag").textContent, getComputedStyle(drawn).outlineStyle,
        document.querySelector("#phase").textContent]);
    };
    look();
  }));
  await page.locator("#thrust").press("PageUp");
  const [tag, outline, phase] = await marked;
  same(`${tag}; ${outline}`, "of the last good text, prediction; dashed", "mark of a prediction");
  check(/last good text.*A prediction/.test(phase), `phase: ${phase}`);
});

/** The engine opens the first change while the second, with an error, is read. */
export const an_error_right_behind_a_change_leaves_the_changed_bridge = (browser) => withBridge(browser, async ({ page, file, folder }) => {
  await page.locator("#tab-handles").click();
  const set = async (path, value) => {
    await page.locator(`[id="handle-${path}"]`).fill(value);
    await page.locator(`[id="handle-${path}"]`).press("Enter");
  };
  const before = await need(page), asked = page.waitForRequest("**/api/tree");
  let release;
  const held = new Promise((done) => { release = done; });
  await page.route("**/api/tree", async (route) => { await held; await route.continue(); }, { times: 1 });
  await set("deck.thickness", "9 in");
  await asked;
  const written = page.waitForResponse("**/api/set");
  await set("climate.humidity", "900 %");
  await written;
  await page.waitForTimeout(80); // the page reads 180 ms behind the last change
  release();
  await page.waitForSelector('#answer[data-phase="stale"]');
  const text = readFileSync(file, "utf8").replace("thickness: 8.5 in", "thickness: 9 in");
  await needIsNot(page, before);
  printed(await need(page), (await answerOfText(folder, text)).need_whole_N, "need of the last good text");
});

export const a_file_with_errors_opens_at_them = (browser) => withBridge(browser, async ({ file, open }) => {
  writeFileSync(file, readFileSync(file, "utf8").replace("thickness: 8.5 in", "thickness: 8.5 psy"));
  const page = await open();
  await page.waitForSelector(".fault-mark");
  check(/psy/.test(await words(page, ".faults li")), "the unit is not named");
  await page.waitForSelector(".loading");
  const line = page.locator(".cm-line", { hasText: "8.5 psy" });
  await line.click();
  await page.keyboard.press("End");
  const text = await line.innerText();
  for (let i = text.length; i > text.indexOf("psy") + 3; i--) await page.keyboard.press("ArrowLeft");
  for (let i = 0; i < 3; i++) await page.keyboard.press("Backspace");
  await page.keyboard.type("in");
  await settled(page);
});

export const a_fault_of_the_yaml_is_shown_too = (browser) => withBridge(browser, async ({ page }) => {
  await typeAtTop(page, "title: [\n");
  await page.waitForSelector(".faults li");
  await page.waitForSelector(".fault-mark");
});

export const a_bridge_the_engine_refuses_leaves_the_last_one = (browser) => withBridge(browser, async ({ page, file }) => {
  const before = await need(page);
  await page.locator("#tab-handles").click();
  await page.locator('[id="handle-panels.gap"]').fill("19 ft");
  await page.locator('[id="handle-panels.gap"]').press("Enter");
  await page.locator('[id="handle-panels.anchor_length"]').fill("39 ft");
  await page.locator('[id="handle-panels.anchor_length"]').press("Enter");
  await page.waitForSelector('#answer[data-phase="stale"]');
  same(await need(page), before, "need of the last good text");
  await page.getByRole("button", { name: "Undo" }).click();
  await page.getByRole("button", { name: "Undo" }).click();
  await settled(page);
  await needIs(page, before);
  printed(await need(page), (await answerOf(file)).need_whole_N, "need");
});

export const a_handle_writes_the_text_and_keeps_comments = (browser) => withBridge(browser, async ({ page, file, folder }) => {
  const before = await need(page), text = readFileSync(file, "utf8");
  await page.locator("#tab-handles").click();
  const field = page.locator('[id="handle-deck.thickness"]');
  same(await field.inputValue(), "8.5 in", "thickness");
  await field.fill("9.5 in");
  await field.press("Enter");
  await needIsNot(page, before);
  await settled(page);
  const expected = text.replace("thickness: 8.5 in", "thickness: 9.5 in");
  printed(await need(page), (await answerOfText(folder, expected)).need_whole_N, "need");
  await page.locator("#tab-text").click();
  check((await shownLines(page)).some((l) => /thickness: 9\.5 in\s+# half an inch/.test(l)), "the line or its comment");
  await page.getByRole("button", { name: "Undo" }).click();
  await needIs(page, before);
  await page.getByRole("button", { name: "Redo" }).click();
  await needIsNot(page, before);
  await page.locator("#save").click();
  await page.waitForFunction(() => document.querySelector("#file-state").textContent === "saved");
  same(readFileSync(file, "utf8"), expected, "file");
});

export const what_is_being_typed_stays = (browser) => withBridge(browser, async ({ page }) => {
  await page.locator("#thrust-number").fill("1300");
  await page.locator("#time").evaluate((input) => { input.value = "5"; input.dispatchEvent(new Event("input", { bubbles: true })); });
  await page.waitForTimeout(400);
  same(await page.locator("#thrust-number").inputValue(), "1300", "typed");
  await page.locator("#thrust-number").press("Escape");
  same(await page.locator("#thrust-number").inputValue(), (await words(page, "#n-need")).replace(" kip", ""), "given up");
  await page.locator("#tab-handles").click();
  const field = page.locator('[id="handle-deck.thickness"]');
  await field.fill("9.25 in");
  await page.locator("#thrust").press("PageUp");
  await settled(page);
  same(await page.locator("#n-thrust").count(), 1, "thrust");
  await page.waitForFunction(() => document.getElementById("handle-deck.thickness").value === "9.25 in");
});

export const a_change_in_pieces_is_taken_whole = (browser) => withBridge(browser, async ({ page, file }) => {
  const text = readFileSync(file, "utf8"), before = await need(page);
  writeFileSync(file, "");
  await page.waitForTimeout(60);
  writeFileSync(file, text.replace("spacing: 8 ft 6 in", "spacing: 7 ft 6 in"));
  await needIsNot(page, before);
  await page.getByRole("button", { name: "Undo" }).click();
  await needIs(page, before);
});

export const handles_step_and_span_gap_age_and_exposure_are_there = (browser) => withBridge(browser, async ({ page }) => {
  await page.locator("#tab-handles").click();
  for (const path of ["spans[4].length", "girders.spacing", "deck.thickness", "panels.gap", "days.panels_set", "climate.humidity", "climate.asphalt"])
    check(await page.locator(`[id="handle-${path}"]`).isVisible(), `no handle of ${path}`);
  await page.locator('[id="handle-girders.spacing"]').press("ArrowUp");
  await page.waitForFunction(() => document.getElementById("handle-girders.spacing").value === "8 ft 7 in");
  await page.locator("#place-gaps").click();
  await page.waitForSelector('[id="handle-runs[2].gap_at"]');
  same(await page.locator('[id="handle-runs[2].gap_at"]').inputValue(), "141 ft", "gap of the second run");
  const before = await need(page);
  await page.locator('[id="handle-runs[1].gap_at"]').fill("40 ft");
  await page.locator('[id="handle-runs[1].gap_at"]').press("Enter");
  await needIsNot(page, before);
});

export const a_refused_value_is_told_at_its_handle = (browser) => withBridge(browser, async ({ page }) => {
  await page.locator("#tab-handles").click();
  const field = page.locator('[id="handle-deck.thickness"]');
  await field.fill("9 parsecs");
  await field.press("Enter");
  await page.waitForSelector(".handle .fault");
  check(/parsecs/.test(await words(page, ".handle .fault")), "the message does not name the unit");
  same(await page.locator("#answer").getAttribute("data-phase"), "stale", "phase");
});

export const nothing_is_written_before_saving = (browser) => withBridge(browser, async ({ page, file }) => {
  const text = readFileSync(file, "utf8");
  await typeAtTop(page, "# tried\n");
  await page.waitForFunction(() => document.querySelector("#file-state").textContent === "changes not saved");
  await page.waitForTimeout(600);
  same(readFileSync(file, "utf8"), text, "file before saving");
  await page.keyboard.press("Control+s");
  await page.waitForFunction(() => document.querySelector("#file-state").textContent === "saved");
  same(readFileSync(file, "utf8"), `# tried\n${text}`, "file after saving");
});

export const a_change_outside_is_taken_in = (browser) => withBridge(browser, async ({ page, file }) => {
  const before = await need(page);
  writeFileSync(file, readFileSync(file, "utf8").replace("spacing: 8 ft 6 in", "spacing: 7 ft 6 in"));
  await needIsNot(page, before);
  await settled(page);
  printed(await need(page), (await answerOf(file)).need_whole_N, "need");
  same(await words(page, "#file-state"), "saved", "state");
  check(/outside/.test(await page.locator("#news").textContent()), "not told");
  await page.getByRole("button", { name: "Undo" }).click();
  await needIs(page, before);
});

async function bothChanged({ page, file, open }) {
  const other = await open();
  await settled(other);
  await typeAtTop(page, "# mine\n");
  await typeAtTop(other, "# theirs\n");
  await other.keyboard.press("Control+s");
  await page.waitForSelector(".conflict");
  const onDisk = readFileSync(file, "utf8");
  check(onDisk.startsWith("# theirs\n"), "the other tab's text is on the disk");
  return { other, onDisk };
}

export const two_tabs_choose_mine = (browser) => withBridge(browser, async (all) => {
  const { other } = await bothChanged(all);
  await all.page.locator("#see-both").click();
  const seen = await words(all.page, ".conflict .changes");
  check(seen.includes("− # theirs") && seen.includes("+ # mine"), `both are not seen: ${seen}`);
  await all.page.keyboard.press("Control+s"); // a save does not win silently
  await all.page.waitForTimeout(300);
  check(readFileSync(all.file, "utf8").startsWith("# theirs\n"), "saved over the other's text");
  await all.page.locator("#keep-mine").click();
  await all.page.waitForFunction(() => !document.querySelector(".conflict"));
  check(readFileSync(all.file, "utf8").startsWith("# mine\n"), "mine is not written");
  await other.waitForFunction(() => /# mine/.test(document.querySelector(".editor").shadowRoot.querySelector(".cm-line").textContent));
});

export const two_tabs_choose_theirs = (browser) => withBridge(browser, async (all) => {
  const { onDisk } = await bothChanged(all);
  await all.page.locator("#take-theirs").click();
  await all.page.waitForFunction(() => !document.querySelector(".conflict"));
  same((await shownLines(all.page))[0], "# theirs", "first line");
  same(readFileSync(all.file, "utf8"), onDisk, "file");
  await all.page.locator(".cm-content").press("Control+z");
  same((await shownLines(all.page))[0], "# mine", "first line after undo");
});

export const a_server_that_ends_is_told_and_the_text_kept = (browser) => withBridge(browser, async ({ page, child }) => {
  await typeAtTop(page, "# kept\n");
  child.removeAllListeners("exit");
  child.kill("SIGTERM");
  await page.waitForSelector(".trouble");
  check(/does not answer/.test(await words(page, ".trouble")), "not told");
  same((await shownLines(page))[0], "# kept", "first line");
});

// Looking: the answer, the thrust, the moment, the joint, the checks.
import { readFileSync, writeFileSync } from "node:fs";
import { answerOf, check, checksOf, printed, same, settled, slide, withBridge, words } from "./kit.mjs";

/** The joint with the least to spare under the rules that count, from the checks of the joints. */
function worstOf(answer, checks) {
  const counting = new Set(answer.lines.flatMap((line) => line.rules.filter((rule) => rule.counts).map((rule) => `joints: ${rule.name}`)));
  const rows = checks.checks.filter((c) => counting.has(c.name));
  check(rows.length >= 2, "the command line names no joints");
  return rows.map((c) => ({ margin_Pa: c.capacity - c.demand, joint: c.where.slice(0, 3) }))
    .reduce((a, b) => (b.margin_Pa < a.margin_Pa ? b : a));
}

async function sameNumbers(page, file, thrust_N) {
  const answer = await answerOf(file, thrust_N), worst = worstOf(answer, await checksOf(file, thrust_N));
  printed(await words(page, "#n-thrust"), answer.thrust_whole_N, "thrust");
  printed(await words(page, "#n-need"), answer.need_whole_N, "need");
  printed(await words(page, "#n-most"), answer.most_whole_N, "most");
  printed(await words(page, "#n-margin"), Math.abs(worst.margin_Pa), "margin");
  const line = answer.lines.find((l) => l.name === answer.governing_line);
  printed(await words(page, "#n-gap"), line.gap_movement_m, "movement of the gap");
  printed(await words(page, "#n-anchor"), line.anchor_force_N, "force at an anchor");
  const lead = await page.locator("#n-margin + .note").innerText();
  check(lead.startsWith(`${worst.joint},`), `the worst joint is ${worst.joint}, not ${lead}`);
}

export const opens_with_the_answer = (browser) => withBridge(browser, async ({ page, file }) => {
  await sameNumbers(page, file);
  check((await words(page, "#sentence")).length > 20, "no sentence");
  same(await words(page, "#file-state"), "saved", "state of the file");
  same(await page.title(), "Saltmarrow Causeway, deck replacement – clench", "title");
  for (const id of ["bridge", "deck", "map", "joint", "split", "window", "plan"]) {
    await page.locator(`#picture-${id}`).scrollIntoViewIfNeeded();
    await page.waitForSelector(`#picture-${id} svg`);
  }
});

export const every_example_gives_the_numbers_of_the_command_line = async (browser) => {
  for (const example of ["two-span-metric", "steel-continuous"])
    await withBridge(browser, async ({ page, file }) => sameNumbers(page, file), { example });
};

export const a_moved_thrust_is_predicted_then_run = (browser) => withBridge(browser, async ({ page, file }) => {
  await page.evaluate(() => {
    window.phases = [];
    new MutationObserver(() => window.phases.push(document.querySelector("#answer").dataset.phase + ": " +
      document.querySelector("#phase").textContent)).observe(document.querySelector("#answer"), { attributes: true, subtree: true, childList: true, characterData: true });
  });
  for (const share of [0.55, 1.3]) {
    const thrust_N = await page.locator("#thrust").evaluate((input, share) => {
      const at = Number(input.min) + Math.round((share * 4.6e6 - Number(input.min)) / Number(input.step)) * Number(input.step);
      input.value = String(at);
      input.dispatchEvent(new Event("input", { bubbles: true }));
      return Number(input.value);
    }, share);
    await page.waitForFunction(() => window.phases.some((p) => p.startsWith("predicted: A prediction")));
    await settled(page);
    await sameNumbers(page, file, thrust_N);
    await page.evaluate(() => { window.phases = []; });
  }
  await page.locator("#to-need").click();
  await settled(page);
  await sameNumbers(page, file);
});

export const a_prediction_is_marked_by_words_and_by_line = (browser) => withBridge(browser, async ({ page }) => {
  const marked = page.evaluate(() => new Promise((done) => {
    const look = () => {
      if (document.querySelector("#answer").dataset.phase !== "predicted") return requestAnimationFrame(look);
      const drawn = document.querySelector("#picture-bridge .drawn");
      done([document.querySelector("#picture-bridge .tag").textContent, getComputedStyle(drawn).outlineStyle]);
    };
    look();
  }));
  await page.locator("#thrust").press("PageUp");
  same(JSON.stringify(await marked), '["prediction","dashed"]', "mark of a prediction");
  await settled(page);
  same(await page.locator("#picture-bridge .tag").count(), 0, "tags after the full run");
});

export const a_thrust_too_small_says_what_opens = (browser) => withBridge(browser, async ({ page }) => {
  const closed = await words(page, "#sentence");
  await page.locator("#thrust-number").fill("400");
  await page.locator("#thrust-number").press("Enter");
  await settled(page);
  same(await page.locator("#answer").getAttribute("data-joints"), "open", "joints");
  check(/J\d\d/.test(await words(page, "#sentence")), "the sentence names no joint");
  check((await words(page, "#sentence")) !== closed, "the sentence stays");
  await page.waitForFunction((closed) => document.querySelector("#spoken").textContent.length > 20 &&
    !document.querySelector("#spoken").textContent.startsWith(closed), closed);
});

export const a_line_of_another_unit_shows_joints_of_its_own = (browser) => withBridge(browser, async ({ file, open }) => {
  writeFileSync(file, readFileSync(file, "utf8").replace("length: 94 ft", "length: 82 ft"));
  const page = await open();
  await settled(page);
  await page.locator("#picture-joint").scrollIntoViewIfNeeded(); // only what is in sight is drawn
  const counts = [];
  for (let i = await page.locator("#line option").count() - 1; i >= 0; i--) {
    await page.locator("#line").selectOption({ index: i });
    await page.waitForFunction(() => document.querySelector("#picture-joint .drawn").textContent
      .includes(`Joint ${document.querySelector("#joint").selectedOptions[0]?.text} through its life`));
    counts.push(await page.locator("#joint option").count());
    await page.locator("#joint").selectOption({ index: counts.at(-1) - 1 });
  }
  check(counts.some((count, i) => count < counts[i - 1]), `joints of the lines: ${counts}: nothing was tried`);
});

export const a_typed_thrust_is_not_guessed_at = (browser) => withBridge(browser, async ({ page }) => {
  const before = await words(page, "#n-thrust"), field = page.locator("#thrust-number");
  for (const typed of ["1,300", "1300 kN", "13x"]) {
    await field.fill(typed);
    await field.press("Enter");
    await page.waitForFunction((typed) => document.querySelector("#news").textContent.includes(`"${typed}" is not a thrust`), typed);
    same(await words(page, "#n-thrust"), before, typed);
    await field.press("Escape");
  }
  await field.fill("1300 kip");
  await field.press("Enter");
  await settled(page);
  same(await words(page, "#n-thrust"), "1300 kip", "with its unit");
  await field.fill("90000");
  await field.press("Enter");
  await settled(page);
  const most = await words(page, "#n-thrust");
  check((await words(page, "#news")).includes(`90000 kip is beyond the scale: ${most} is shown`), await words(page, "#news"));
});

export const pictures_out_of_sight_follow_at_rest = (browser) => withBridge(browser, async ({ page }) => {
  await page.locator("#picture-window").scrollIntoViewIfNeeded();
  await page.waitForSelector("#picture-window svg");
  const before = await page.locator("#picture-window .drawn").innerHTML();
  await page.locator("#picture-bridge").scrollIntoViewIfNeeded();
  const inSight = await page.locator("#picture-window").evaluate((e) => e.getBoundingClientRect().top < innerHeight + 120);
  check(!inSight, "the window is in sight: nothing was tried");
  await page.locator("#thrust-number").fill("1300");
  await page.locator("#thrust-number").press("Enter");
  await page.waitForFunction((before) => document.querySelector("#picture-window .drawn").innerHTML !== before, before);
}, { options: { viewport: { width: 600, height: 500 } } });

export const an_engine_that_does_not_come_is_told = (browser) => withBridge(browser, async ({ context, url }) => {
  const page = await context.newPage();
  await page.route("**/clench.wasm", (route) => route.abort());
  await page.goto(url);
  await page.waitForFunction(() => /No bridge can be drawn: the engine stopped: it was not loaded/.test(document.querySelector(".loading")?.textContent));
});

export const the_moment_is_scrubbed_and_played = (browser) => withBridge(browser, async ({ page }) => {
  const bridge = () => page.locator("#picture-bridge .drawn").innerHTML();
  await slide(page, "#time", 0);
  const first = await words(page, "#when");
  await page.waitForTimeout(200);
  const before = await bridge();
  await slide(page, "#time", await page.locator("#time").getAttribute("max"));
  await page.waitForFunction((before) => document.querySelector("#picture-bridge .drawn").innerHTML !== before, before);
  check((await words(page, "#when")) !== first, "the label stays");
  const stages = await page.locator("#stage option").allInnerTexts();
  check(stages.length >= 6, `only ${stages.length} stages`);
  await slide(page, "#time", 0);
  await page.locator("#play").click();
  await page.waitForFunction(() => Number(document.querySelector("#time").value) > 4);
  await page.locator("#play").click();
  const stopped = await page.locator("#time").inputValue();
  await page.waitForTimeout(400);
  same(await page.locator("#time").inputValue(), stopped, "moment after stop");
});

export const without_motion_play_goes_from_stage_to_stage = (browser) => withBridge(browser, async ({ page }) => {
  await slide(page, "#time", 0);
  const stages = await page.locator("#stage option").evaluateAll((list) => list.map((o) => o.value));
  await page.locator("#play").click();
  await page.waitForFunction(() => Number(document.querySelector("#time").value) > 0);
  check(stages.includes(await page.locator("#time").inputValue()), "not at a stage");
}, { options: { reducedMotion: "reduce" } });

export const a_cell_of_the_map_shows_its_joint = (browser) => withBridge(browser, async ({ page }) => {
  const map = page.locator("#picture-map");
  await map.scrollIntoViewIfNeeded();
  await page.waitForSelector("#picture-map [data-pick]");
  await page.locator("#picture-joint").scrollIntoViewIfNeeded();
  await page.waitForSelector("#picture-joint svg");
  const before = await page.locator("#joint").inputValue();
  const cells = map.locator("[data-pick]");
  const at = await cells.evaluateAll((list, before) => list.findIndex((c) => {
    const joint = /joint:(\d+)/.exec(c.dataset.pick)?.[1];
    return joint !== undefined && joint !== before && c.getBoundingClientRect().width > 2;
  }), before);
  check(at >= 0, "no cell of another joint");
  const mark = await cells.nth(at).getAttribute("data-pick");
  await cells.nth(at).dispatchEvent("click");
  same(await page.locator("#joint").inputValue(), /joint:(\d+)/.exec(mark)[1], "joint");
  const time = /time:(\d+)/.exec(mark)?.[1];
  if (time) same(await page.locator("#time").inputValue(), time, "moment");
  const name = await page.locator("#joint option:checked").innerText();
  await page.waitForFunction((name) => document.querySelector("#picture-joint .drawn").textContent.includes(name), name);
});

export const checks_stand_worst_first_and_lead_to_the_bridge = (browser) => withBridge(browser, async ({ page, file }) => {
  await page.waitForSelector(".rows li");
  const expected = await checksOf(file);
  const ratios = await page.locator(".rows li.fail .ratio").allInnerTexts();
  const sorted = expected.checks.filter((c) => c.state === "fail").map((c) => c.ratio_1).sort((a, b) => b - a);
  same(JSON.stringify(ratios), JSON.stringify(sorted.map((r) => r.toFixed(2))), "ratios of what fails");
  same(await page.locator(".rows li").count(), expected.checks.length, "rows");
  const row = page.locator(".rows li", { hasText: /J0\d/ }).first();
  const joint = /J\d\d/.exec(await row.innerText())[0];
  await row.locator("button").click();
  same(await page.locator("#joint option:checked").innerText(), joint, "joint of the check");
  check(await row.locator(".detail").isVisible(), "no detail");
});

export const units_follow_the_choice = (browser) => withBridge(browser, async ({ page, file }) => {
  await page.locator("#units").selectOption("2");
  await page.waitForFunction(() => document.querySelector("#n-need").textContent.endsWith("kN"));
  await settled(page);
  await sameNumbers(page, file);
});

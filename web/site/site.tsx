// The page on site: type a reading, hear at once whether to go on, with or without a network.
import { signal } from "@preact/signals";
import { render } from "preact";
import { startEngine } from "./engine";
import { Form } from "./Form";
import * as keep from "./keep";
import { Log } from "./Log";
import { openLog, startToken } from "./net";
import { Pictures } from "./Pictures";
import * as s from "./state";
import { Alarms, Foot, Status } from "./Status";
import { listen, net } from "./sync";
import * as t from "./typed";
import { Verdict } from "./Verdict";

const newer = signal(false);
const openFault = signal("");

function Start() {
  const read = (form: HTMLFormElement) => String(new FormData(form).get("points") ?? "").trim();
  return (
    <form class="card" onSubmit={(e) => {
      e.preventDefault();
      openFault.value = "";
      const points = read(e.currentTarget);
      void openLog(points).catch((error) => { openFault.value = (error as Error).message; });
    }}>
      <h2>No log is open for {s.file.value || "this bridge"}</h2>
      {s.role.value === "reader" ? <p>This device may look. Who may write opens the log.</p> : <>
        <p>Opening it keeps the plan as it is now. Name the dials, and where they stand; the middle of the deck is 0, right is positive.</p>
        <label for="points">Dials</label>
        <input id="points" name="points" type="text" autocomplete="off" placeholder="gap -18 ft, gap 0 ft, gap 18 ft, slip left, slip right" aria-describedby="points-hint" />
        <small id="points-hint">For example: gap -18 ft, gap 0 ft, gap 18 ft, slip left, slip right, rise 1. Empty: the gap at the outer jacks and between.</small>
        <p class="fault" role="alert">{openFault}</p>
        <div class="press"><button class="chief">Open the log</button></div></>}
    </form>
  );
}

function Site() {
  const day = s.day.value;
  return (
    <>
      <header>
        <h1>{day?.name ?? "Readings of the day"}</h1>
        {day && <p class="unit-of">{day.unit}</p>}
        <Status />
        {day && <p class="zone">{day.cautions[0]} Lock as you go. Advice only.</p>}
      </header>
      <main>
        <Alarms />
        {newer.value && <p class="alarm">A newer page is there. <button type="button" onClick={() => location.reload()}>Load it</button></p>}
        {day ? <>
          <div class="columns">
            <div><Verdict /><Form /></div>
            <div><Pictures /></div>
          </div>
          <Log /></>
          : s.log.value === "none" ? <Start />
          : <p class="loading">{net.value.state === "down" ? "This device has no plan yet. It needs the server once." : "Reading the plan …"}</p>}
      </main>
      <Foot />
    </>
  );
}

/** Files of the page for later without a network; promised to stay, as far as the browser promises. */
async function stay() {
  s.kept.value = (await navigator.storage?.persist?.()) ?? false;
  if (!("serviceWorker" in navigator)) return;
  const had = navigator.serviceWorker.controller !== null;
  navigator.serviceWorker.addEventListener("controllerchange", () => { if (had) newer.value = true; });
  await navigator.serviceWorker.register("site-worker.js", { scope: "site" });
}

async function start() {
  try {
    await startToken(); // first: the token leaves the address whatever else fails
    await startEngine();
    s.who.value = (await keep.word("who")) ?? "";
    await s.load();
    await t.restore();
  } catch (error) {
    s.trouble.value = `This browser cannot keep readings: ${(error as Error).message}. Write on paper.`;
  }
  render(<Site />, document.getElementById("page")!);
  void stay().catch(() => { s.trouble.value = "This page will not open without a network: the browser refused to keep it (its certificate, or private browsing)."; });
  void listen();
}

void start();

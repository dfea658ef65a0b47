// The moment that is looked at: from the girders' first day to the end of life.
import { signal } from "@preact/signals";
import * as s from "./state";

const playing = signal(false);
let timer = 0;
const calm = () => matchMedia("(prefers-reduced-motion: reduce)").matches;

const stop = () => { playing.value = false; clearTimeout(timer); };
/** Every moment in turn; where motion is unwelcome, from stage to stage, slowly. */
function step() {
  const line = s.theLine.peek();
  if (!line) return stop();
  const now = s.time.peek();
  const next = calm() ? line.moments.find((m) => m.time > now)?.time ?? line.times.length : now + 1;
  if (next >= line.times.length) return stop();
  s.time.value = next;
  timer = window.setTimeout(step, calm() ? 1600 : 110);
}
function play() {
  if (playing.peek()) return stop();
  playing.value = true;
  if (s.time.peek() >= s.theLine.peek()!.times.length - 1) s.time.value = 0;
  timer = window.setTimeout(step, 150);
}

function stage(by: 1 | -1) {
  stop();
  const moments = s.theLine.peek()!.moments, now = s.time.peek();
  const next = by > 0 ? moments.find((m) => m.time > now) : [...moments].reverse().find((m) => m.time < now);
  if (next) s.time.value = next.time;
}

export function Moment() {
  const line = s.theLine.value;
  if (!line) return null;
  const last = line.times.length - 1, now = Math.min(s.time.value, last);
  const label = line.times[now]?.label ?? "";
  return (
    <div class="moment" role="group" aria-label="Stage and time">
      <div class="row">
        <button type="button" class="key" aria-label="Stage before" onClick={() => stage(-1)}>◂</button>
        <button type="button" class="key play" id="play" aria-pressed={playing.value} onClick={play}>
          {playing.value ? "Stop" : "Play"}</button>
        <button type="button" class="key" aria-label="Next stage" onClick={() => stage(1)}>▸</button>
        <output for="time" id="when">{label}</output>
        <select id="stage" aria-label="Go to a stage" value={[...line.moments].reverse().find((m) => m.time <= now)?.time ?? 0}
          onChange={(e) => { stop(); s.time.value = Number(e.currentTarget.value); }}>
          {line.moments.map((m) => <option key={m.time} value={m.time}>{m.label}</option>)}
        </select>
      </div>
      <div class="days">
        <div class="marks" aria-hidden="true">
          {line.moments.map((m) => <span key={m.time} class={m.time <= now ? "past" : ""}
            style={{ left: `${(100 * m.time) / Math.max(1, last)}%` }} />)}
        </div>
        <input id="time" type="range" min={0} max={last} step={1} value={now} aria-label="Moment"
          aria-valuetext={label} onInput={(e) => { stop(); s.time.value = e.currentTarget.valueAsNumber; }} />
      </div>
    </div>
  );
}

// The reading as it is typed: large targets, what each should read beside it, the value before under it.
import { Wrong } from "./engine";
import * as s from "./state";
import { send } from "./sync";
import * as t from "./typed";
import type { Band, Day } from "./types";

const phases: Record<string, [string, string]> = {
  pump: ["Pump", "on the way up, or force reached"],
  held: ["Held", "valves shut"],
  back: ["Back", "on the way down"],
  nuts: ["Nuts", "jacks stand on their nuts"],
  reset: ["Dials set", "anew, pump still"],
};

const span = (band: Band | undefined) =>
  !band?.expected ? "" : band.low && band.high ? `${band.expected} (${band.low} to ${band.high})`
    : band.high ? `${band.expected}, alarm above ${band.high}` : band.expected;

function Steps({ day }: { day: Day }) {
  const at = t.step.value, step = day.steps[at - 1];
  return (
    <div class="steps" role="group" aria-label="Step of the plan">
      <button type="button" id="step-down" disabled={at === 0} onClick={() => t.setStep(at - 1)} aria-label="Step before">−</button>
      <label class="which">
        <span class="hidden">Step</span>
        <select id="step" value={at} onChange={(e) => t.setStep(Number(e.currentTarget.value))}>
          <option value={0}>Zero reading</option>
          {day.steps.map((d, i) => <option key={i} value={i + 1}>{`Step ${i + 1}, ${Math.round(d.share * 100)} %`}</option>)}
        </select>
      </label>
      <button type="button" id="step-up" disabled={at === day.steps.length} onClick={() => t.setStep(at + 1)} aria-label="Next step">+</button>
      <p class="expected" id="expected">
        {!step ? "Before anything is pumped: all gauges at 0, all dials as they stand."
          : <>Should read <b>{step.pressure} {day.pressure_unit}</b> ({step.force}), gap opened by{" "}
            <b>{step.expected} {day.move_unit}</b>, {step.low} to {step.high}.
            {step.hold_min > 0 && ` Hold ${Math.round(step.hold_min)} min.`}
            {step.stage_end && ` End of stage ${step.stage}.`}</>}
      </p>
    </div>
  );
}

function Field({ day, name, label, expect, signed }: { day: Day; name: string; label: string; expect?: string; signed?: boolean }) {
  const id = name.replace(" ", "-"), unit = t.shownUnit(t.unitOf(day, name));
  const before = s.last.value?.words[name];
  const fault = t.fault.value?.key === name ? t.fault.value.text : "";
  const hint = [expect && `expect ${expect}`, before && before !== "-" && `last ${before.replace(/deg([CF])$/, "°$1")}`].filter(Boolean).join(" · ");
  return (
    <div class={`field${fault ? " faulty" : ""}`}>
      <label for={id}>{label}</label>
      {signed && <button type="button" class="sign" aria-label={`${label}: change the sign`} onClick={() => t.minus(name)}>±</button>}
      <input id={id} inputMode="decimal" autocomplete="off" enterkeyhint="next" value={t.fields.value[name] ?? ""}
        aria-describedby={`${id}-hint${fault ? ` ${id}-fault` : ""}`} aria-invalid={fault ? true : undefined}
        onInput={(e) => t.set(name, e.currentTarget.value)} />
      <span class="unit">{unit}</span>
      {hint && <small id={`${id}-hint`} class="hint">{hint}</small>}
      {fault && <p class="fault" id={`${id}-fault`}>{fault}</p>}
    </div>
  );
}

let pressing = false;
async function press(day: Day) {
  if (pressing) return; // a second tap while the first is being kept
  pressing = true;
  try { await keepTyped(day); } finally { pressing = false; }
}

async function keepTyped(day: Day) {
  const began = performance.now();
  if (!s.who.value.trim()) { t.fault.value = { key: "who", text: "who reads? It stands in the record" }; }
  else {
    try {
      await s.keepReading(t.words(day));
      t.clear();
      performance.measure("verdict", { start: began });
      void send();
      document.getElementById("verdict")?.focus();
      return;
    } catch (error) {
      const wrong = error instanceof Wrong;
      t.fault.value = { key: wrong ? error.key : "", text: wrong ? error.message : `Not kept: ${(error as Error).message}. Write it on paper.` };
    }
  }
  requestAnimationFrame(() => {
    const key = t.fault.value?.key ?? "";
    (document.getElementById(key.replace(" ", "-")) ?? document.getElementById("form-fault"))?.focus();
  });
}

function Time() {
  return (
    <div class="field time">
      <label for="time">Read at<small>{t.time.value ? "as typed" : "now, by this device, when you press"}</small></label>
      {t.time.value
        ? <><input id="time" type="datetime-local" step={1} value={t.time.value} onInput={(e) => { t.time.value = e.currentTarget.value; }} />
          <button type="button" onClick={() => { t.time.value = ""; }}>Now</button></>
        : <button type="button" id="time" onClick={() => { t.time.value = t.stamp(new Date()).slice(0, 19); }}>Another time</button>}
    </div>
  );
}

export function Form() {
  const day = s.day.value;
  if (!day || s.role.value === "reader") return null;
  const bands = t.step.value > 0 ? s.page.value?.dials[t.step.value - 1] : undefined;
  const pressure = day.steps[t.step.value - 1]?.pressure, known = ["who", "remark", "time"];
  const fault = t.fault.value;
  const loose = fault && !document.getElementById(fault.key.replace(" ", "-"));
  return (
    <form class="card" aria-label="A reading" noValidate onSubmit={(e) => { e.preventDefault(); void press(day); }}>
      <Steps day={day} />
      <fieldset class="phases"><legend class="hidden">Phase</legend>
        {day.phases.map((value) => [value, ...(phases[value] ?? [value, ""])] as const).map(([value, name, what]) => (
          <label key={value} class={t.phase.value === value ? "on" : ""}>
            <input type="radio" name="phase" value={value} checked={t.phase.value === value} onChange={() => t.setPhase(value)} />
            <b>{name}</b><small>{what}</small>
          </label>))}
      </fieldset>
      <div class="fields">
        {day.sets.map((jacks, i) => <Field key={i} day={day} name={`pressure ${i + 1}`}
          label={day.sets.length > 1 ? `Gauge ${i + 1}, ${jacks}` : "Gauge"} expect={t.phase.value === "back" ? undefined : t.step.value === 0 ? "0" : pressure} />)}
        {day.dials.map((name, i) => <Field key={i} day={day} name={`move ${i + 1}`} label={`${name[0]!.toUpperCase()}${name.slice(1)}`} expect={span(bands?.[i])} signed />)}
        <Field day={day} name="deck" label="Deck, temperature" signed />
        <Field day={day} name="girder" label="Girders, temperature" signed />
        <Field day={day} name="cell" label="Load cells, all jacks together" />
        <div class={`field${fault?.key === "who" ? " faulty" : ""}`}>
          <label for="who">Who reads<small>kept for the next</small></label>
          <input id="who" type="text" autocomplete="off" class="wide" value={s.who.value} aria-invalid={fault?.key === "who" || undefined}
            onInput={(e) => { void s.setWho(e.currentTarget.value); if (fault?.key === "who") t.fault.value = null; }} />
          {fault?.key === "who" && <p class="fault">{fault.text}</p>}
        </div>
        <Time />
        <div class="field long">
          <label for="remark">Remark</label>
          <input id="remark" type="text" autocomplete="off" class="wide" value={t.fields.value.remark ?? ""} onInput={(e) => t.set("remark", e.currentTarget.value)} />
          {fault && known.includes(fault.key) && fault.key !== "who" && <p class="fault">{fault.text}</p>}
        </div>
      </div>
      {fault && loose && <p class="fault" id="form-fault" tabIndex={-1} role="alert">{fault.text}</p>}
      <div class="press"><button class="chief" id="keep">Keep and judge</button></div>
    </form>
  );
}

// The thrust as a hand on the jacks: its scale is the window.
import * as s from "./state";
import { Typed } from "./Typed";
import { force, forceNumber, forceUnit, needed, newtons, type System } from "./words";

function set(thrust_N: number) {
  const { from_N, to_N } = s.facts.peek()!.slider;
  if (!isFinite(thrust_N)) return;
  s.moved.value = true;
  s.thrust_N.value = Math.max(from_N, Math.min(to_N, thrust_N));
}

/** Typed: a number, with the unit that is shown or none. Anything else is not guessed at. */
function take(typed: string, u: System) {
  const number = typed.trim().replace(new RegExp(` *${forceUnit(u)}$`), "");
  if (/^\d+(\.\d*)?$/.test(number)) {
    const asked_N = newtons(Number(number), u);
    set(asked_N);
    const { from_N, to_N } = s.facts.peek()!.slider;
    if (asked_N < from_N || asked_N > to_N)
      s.told(`${force(asked_N, u)} is beyond the scale: ${force(s.thrust_N.peek(), u)} is shown.`);
  } else s.told(`"${typed}" is not a thrust in ${forceUnit(u)}: the thrust stays as it was.`);
}

/** What of the scale lies below the window, inside it, above the first limit. */
function Scale() {
  const facts = s.facts.value!;
  const { from_N, to_N } = facts.slider;
  const at = (value_N: number) => Math.max(0, Math.min(100, (100 * (value_N - from_N)) / (to_N - from_N)));
  const need = facts.reachable && facts.need_N != null ? at(facts.need_N) : 100;
  const least = Math.max(need, facts.least_N == null ? 0 : at(facts.least_N)); // a limit may ask for more than the need
  const most = facts.most_N == null ? 100 : at(facts.most_N);
  const high = Math.max(least, most);
  return (
    <div class="scale" aria-hidden="true">
      <span class="zone low" style={{ left: "0%", width: `${least}%` }} />
      {most > least && <span class="zone fits" style={{ left: `${least}%`, width: `${most - least}%` }} />}
      {most < least && <span class="zone clash" style={{ left: `${most}%`, width: `${least - most}%` }} />}
      <span class="zone high" style={{ left: `${high}%`, width: `${100 - high}%` }} />
      <span class="tick need" style={{ left: `${need}%` }} />
      {facts.most_N != null && <span class="tick most" style={{ left: `${most}%` }} />}
    </div>
  );
}

/** Both ends of the window, with the name of what sets each. */
function Ends() {
  const facts = s.facts.value!, u = s.system.value;
  return (
    <div class="ends">
      <p><button type="button" id="to-need" disabled={facts.need_N == null}
        onClick={() => { set(facts.need_N!); s.moved.value = false; s.thrust_N.value = facts.thrust_N; }}>
        {facts.need_N == null ? needed(null, u) : `needed ${needed(facts.need_N, u)}`}</button> <span>{[facts.need_name, facts.need_where].filter(Boolean).join(": ")}</span></p>
      <p><button type="button" id="to-most" disabled={facts.most_N == null} onClick={() => set(facts.most_N!)}>
        at most {force(facts.most_N, u)}</button> <span>{[facts.most_name, facts.most_where].filter(Boolean).join(": ")}</span></p>
    </div>
  );
}

export function Thrust() {
  const facts = s.facts.value!, u = s.system.value, look = s.look.value;
  const { from_N, to_N, step_N } = facts.slider;
  const words = force(s.thrust_N.value, u);
  const verdict = look?.thrust_N !== s.thrust_N.value ? "" : look.open_count > 0 ? ", a joint opens" : ", every joint stays closed";
  return (
    <section class="thrust" aria-label="Thrust">
      <div class="row">
        <label for="thrust">Thrust of the whole deck</label>
        <span class="field">
          <Typed id="thrust-number" label={`Thrust in ${forceUnit(u)}`} numeric
            value={forceNumber(s.thrust_N.value, u)}
            step={(by, big) => set(s.thrust_N.peek() + by * (big ? 10 : 1) * step_N)}
            take={(typed) => take(typed, u)} /> {forceUnit(u)}
        </span>
      </div>
      <div class="jack">
        <Scale />
        <input id="thrust" type="range" min={from_N} max={to_N} step={step_N} value={s.thrust_N.value}
          aria-valuetext={`${words}${verdict}`}
          onInput={(e) => set(e.currentTarget.valueAsNumber)} />
      </div>
      <Ends />
    </section>
  );
}

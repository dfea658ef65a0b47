// The question of the page, and its answer in words and numbers.
import { useEffect, useState } from "preact/hooks";
import * as s from "./state";
import { force, margin, movement, needed, stress } from "./words";

/** Two panels and the joint between them: shut, or standing open. */
function Seam({ open }: { open: boolean }) {
  const gap = open ? 13 : 1.5;
  return (
    <svg class="seam" viewBox="0 0 96 56" aria-hidden="true">
      <rect class="panel-mark" x="2" y="14" width={46 - gap / 2} height="28" />
      <rect class="panel-mark" x={48 + gap / 2} y="14" width={46 - gap / 2} height="28" />
      {open ? <rect class="open-mark" x={48 - gap / 2} y="6" width={gap} height="44" />
        : <path class="shut-mark" d="M48 6v44M20 28h18m-6 -5 6 5 -6 5M76 28h-18m6 -5 -6 5 6 5" />}
    </svg>
  );
}

function Figure({ id, name, value, note }: { id: string; name: string; value: string; note?: string | undefined }) {
  return <div><dt>{name}</dt><dd id={id}>{value}</dd>{note && <dd class="note">{note}</dd>}</div>;
}

function Figures() {
  const facts = s.facts.value!, look = s.look.value, u = s.system.value;
  if (!look) return null;
  const worst = look.worst;
  const spare = worst && margin(look, worst.margin_Pa, u);
  const place = worst ? `${worst.name}, ${worst.when}` : undefined;
  return (
    <dl class="figures">
      <Figure id="n-thrust" name="thrust shown" value={force(look.thrust_N, u)}
        note={look.predicted ? "predicted" : "full run"} />
      <Figure id="n-need" name="needed" value={needed(facts.need_N, u)} note={facts.need_name ?? undefined} />
      <Figure id="n-most" name="at most" value={force(facts.most_N, u)} note={facts.most_name ?? undefined} />
      {worst && <Figure id="n-margin" name={spare!.lacks ? "worst joint lacks" : "worst joint keeps"}
        value={spare!.size} note={place} />}
      {worst && <Figure id="n-demand" name="stress there" value={stress(worst.demand_Pa, u)}
        note={`limit ${stress(worst.limit_Pa, u)}`} />}
      <Figure id="n-average" name="average at jacking" value={stress(-look.average_Pa, u)} />
      <Figure id="n-gap" name="gap opens by" value={movement(look.gap_movement_m, u)} />
      <Figure id="n-anchor" name="at an anchor panel" value={force(look.anchor_force_N, u)} note="one girder line" />
    </dl>
  );
}

/** Spoken when the hand rests, not at every move. */
function Spoken({ words }: { words: string }) {
  const [spoken, speak] = useState("");
  useEffect(() => {
    const later = setTimeout(() => speak(words), 600);
    return () => clearTimeout(later);
  }, [words]);
  return <p class="hidden" role="status" aria-live="polite" id="spoken">{spoken}</p>;
}

export function Answer() {
  const look = s.look.value;
  const stale = s.stale.value;
  const sentence = look?.sentence ?? "Reading the bridge …";
  const run = look?.predicted ? "A prediction, straight between two runs; the full run follows."
    : look ? "From the full run at this thrust." : "";
  const note = stale ? `The text has errors: this is the bridge of the last good text. ${run}` : run;
  return (
    <section class={`answer ${look?.predicted ? "predicted" : "run"} ${stale ? "stale" : ""}`} id="answer" tabIndex={-1}
      data-joints={!look ? "none" : look.open_count > 0 ? "open" : "closed"}
      data-phase={stale ? "stale" : look?.predicted ? "predicted" : look ? "full" : "none"} aria-label="Does every joint stay closed?">
      <p class="question">Does every joint stay closed?</p>
      <div class="lead">
        {look && <Seam open={look.open_count > 0} />}
        <p id="sentence">{sentence}</p>
      </div>
      <p class="phase" id="phase">{note}</p>
      {s.trouble.value && <p class="trouble" role="alert">{s.trouble.value}</p>}
      <Figures />
      <Spoken words={`${sentence} ${note} ${s.faults.value[0]?.text ?? ""}`} />
    </section>
  );
}

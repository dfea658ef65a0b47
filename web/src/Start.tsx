// No file yet: a few answers make a first bridge.
import { signal } from "@preact/signals";
import { firstBridge, Refused } from "./api";
import { replaceText } from "./editor";
import * as s from "./state";
import type { Fault } from "./types";

const faults = signal<Fault[]>([]);

async function make(event: SubmitEvent) {
  event.preventDefault();
  const form: Record<string, string> = {};
  for (const [key, value] of new FormData(event.currentTarget as HTMLFormElement)) if (value !== "") form[key] = String(value);
  try {
    replaceText(await firstBridge(form));
    faults.value = [];
    s.tab.value = "text";
    s.told("A first bridge is written into the text. It is not saved yet.");
  } catch (error) {
    faults.value = error instanceof Refused ? error.faults : [{ text: String(error), key: "" } as Fault];
  }
}

function Field({ name, label, value, hint }: { name: string; label: string; value: string; hint: string }) {
  const fault = faults.value.find((f) => f.key === name);
  return (
    <p><label for={`first-${name}`}>{label}</label>
      <input id={`first-${name}`} name={name} type="text" defaultValue={value} required aria-describedby={`hint-${name}`}
        aria-invalid={fault ? true : undefined} />
      <small id={`hint-${name}`}>{fault ? <span class="fault">{fault.text}</span> : hint}</small></p>
  );
}

export function Start() {
  const fields = ["title", "spans", "width", "humidity"];
  return (
    <form class="first" onSubmit={(e) => void make(e as unknown as SubmitEvent)}>
      <h2>A first bridge</h2>
      <p>{s.fileName.value} does not exist yet. These answers make a sensible first bridge; all of it can be changed afterwards, in the text and by handles.</p>
      <Field name="title" label="Name" value="A first bridge" hint="printed on every sheet" />
      <Field name="spans" label="Spans" value="94 ft, 120 ft, 94 ft" hint="from left to right, with units" />
      <Field name="width" label="Deck, edge to edge" value="40 ft 6 in" hint="with its unit" />
      <p><label for="first-girder">Girders</label>
        <select id="first-girder" name="girder"><option>pretensioned</option><option>plate girder</option><option>tub</option></select></p>
      <Field name="humidity" label="Humidity of the site" value="70 %" hint="the year's mean" />
      <p><label for="first-zone">Zone of the temperature gradient</label>
        <select id="first-zone" name="gradient_zone" defaultValue="3"><option>1</option><option>2</option><option selected>3</option><option>4</option></select></p>
      <p><label for="first-units">Units</label>
        <select id="first-units" name="units"><option>US</option><option>SI</option></select></p>
      {faults.value.filter((f) => !fields.includes(f.key ?? "")).map((f, i) => <p key={i} class="fault" role="alert">{f.text}</p>)}
      <p><button type="submit" class="chief" id="first-make">Write the first bridge</button></p>
    </form>
  );
}

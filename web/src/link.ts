// The view as a link: #thrust=4543713&day=27549&joint=J01&line=interior+line. Days and names stay true
// when the bridge changes a little; numbers of a list would not.
import { batch, effect } from "@preact/signals";
import { keepPlace, timeOf } from "./desk";
import * as s from "./state";

let pending: URLSearchParams | null = null;

export function readLink() {
  const given = new URLSearchParams(location.hash.slice(1));
  if (![...given.keys()].length) return;
  pending = given;
  keepPlace.value = true;
  const thrust = Number(given.get("thrust"));
  if (thrust > 0) batch(() => { s.thrust_N.value = thrust; s.moved.value = true; });
  if (s.facts.peek()) apply();
}

function apply() {
  const facts = s.facts.peek();
  if (!facts || !pending) return;
  const given = pending;
  pending = null;
  batch(() => {
    const line = facts.lines.findIndex((l) => l.name === given.get("line"));
    s.line.value = line < 0 ? facts.governing_line : line;
    const now = facts.lines[s.line.value]!;
    s.joint.value = Math.max(0, now.joints.findIndex((j) => j.name === given.get("joint")));
    if (given.has("day")) s.time.value = timeOf(s.line.value, Number(given.get("day")));
  });
}

export function currentLink(): string {
  const line = s.theLine.peek();
  const given = new URLSearchParams();
  if (s.moved.peek()) given.set("thrust", s.thrust_N.peek().toFixed(0));
  if (line) {
    given.set("line", line.name);
    const time = line.times[s.time.peek()], joint = line.joints[s.joint.peek()];
    if (joint) given.set("joint", joint.name);
    if (time) given.set("day", String(time.day));
  }
  return `${location.pathname}#${given}`;
}

export function keepLink() {
  addEventListener("hashchange", readLink);
  effect(() => { if (s.facts.value) apply(); });
  let waiting = 0;
  effect(() => {
    if (!s.facts.value) return;
    void [s.thrust_N.value, s.line.value, s.time.value, s.joint.value, s.moved.value];
    clearTimeout(waiting);
    waiting = window.setTimeout(() => history.replaceState(null, "", currentLink()), 250);
  });
}

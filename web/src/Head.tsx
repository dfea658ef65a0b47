// Whose bridge, which file, and what may leave the page.
import { canRedo, canUndo, redoText, undoText } from "./editor";
import { save } from "./file";
import { giveLink, givePackage } from "./out";
import * as s from "./state";
import { theme, type Theme } from "./theme";

function fileState(): string {
  if (s.mark.value === null) return "";
  if (s.conflict.value) return "changed outside and here";
  if (s.unsaved.value) return s.mark.value === "new" ? "not yet written" : "changes not saved";
  return s.mark.value === "new" ? "not yet written" : "saved";
}

export function Head() {
  return (
    <header class="head">
      <div class="whose">
        <h1>{s.facts.value?.name ?? "clench"}</h1>
        <p class="file"><span class="path">{s.fileName.value}</span> <span id="file-state">{fileState()}</span></p>
      </div>
      <div class="tools">
        <div class="group" role="group" aria-label="Text of the file">
          <button type="button" onClick={undoText} disabled={!canUndo.value}>Undo</button>
          <button type="button" onClick={redoText} disabled={!canRedo.value}>Redo</button>
          <button type="button" id="save" class="chief" onClick={() => void save()} disabled={!s.unsaved.value}>Save</button>
        </div>
        <div class="group" role="group" aria-label="Out of the page">
          <button type="button" id="package" onClick={() => void givePackage()} disabled={!s.facts.value}>Package, PDF</button>
          <button type="button" id="link" onClick={() => void giveLink()} disabled={!s.facts.value}>Link</button>
        </div>
        <div class="group">
          <label>Units
            <select id="units" value={s.units.value} onChange={(e) => { s.units.value = Number(e.currentTarget.value); }}>
              <option value={0}>of the file</option><option value={1}>US</option><option value={2}>SI</option>
            </select>
          </label>
          <label>Paper
            <select id="theme" value={theme.value} onChange={(e) => { theme.value = e.currentTarget.value as Theme; }}>
              <option value="auto">auto</option><option value="light">light</option><option value="dark">dark</option>
            </select>
          </label>
        </div>
      </div>
      <p class="said" aria-hidden="true">{s.news.value}</p>
    </header>
  );
}

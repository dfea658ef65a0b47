// Light, dark, or as the machine has it; kept for this browser.
import { effect, signal } from "@preact/signals";

export type Theme = "auto" | "light" | "dark";
const kept = () => { try { return localStorage.getItem("theme"); } catch { return null; } };
export const theme = signal<Theme>((["light", "dark"].includes(kept() ?? "") ? kept() : "auto") as Theme);

export function startTheme() {
  effect(() => {
    const root = document.documentElement;
    if (theme.value === "auto") delete root.dataset.theme;
    else root.dataset.theme = theme.value;
    try { localStorage.setItem("theme", theme.value); } catch { /* it lasts as long as the page */ }
  });
}

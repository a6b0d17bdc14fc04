/** Keeps the field that is typed into above the phone's keyboard. */

const FIELDS = "input, textarea, select";

/**
 * Browsers lay the keyboard over the page and tell only how much stays visible. Its height becomes
 * `--keyboard`, by which sheets and pages end above it; the field is then scrolled into view.
 */
export function attendKeyboard(view: VisualViewport | null = window.visualViewport): void {
  if (view === null) return;
  const heed = () => {
    // zoomed in, less is visible without any keyboard
    const hidden = view.scale > 1.01 ? 0 : Math.max(0, innerHeight - view.height);
    document.documentElement.style.setProperty("--keyboard", `${Math.round(hidden)}px`);
    const field = document.activeElement;
    if (hidden === 0 || !field?.matches(FIELDS)) return;
    if (field.getBoundingClientRect().bottom > view.offsetTop + view.height) {
      field.scrollIntoView({ block: "center" });
    }
  };
  view.addEventListener("resize", heed);
}

/** Small values kept as JSON in the browser's synchronous stores, which may be full or barred. */

/** For good, or until the tab is closed. */
type Span = "local" | "session";

/** Inside a `try`: where stores are barred, naming one throws. */
const storeOf = (span: Span): Storage => (span === "local" ? localStorage : sessionStorage);

export function recall<T>(span: Span, key: string): T | null {
  try {
    return JSON.parse(storeOf(span).getItem(key) ?? "null");
  } catch (error) {
    console.warn(`${key} could not be read:`, error);
    return null;
  }
}

/** @returns whether it is kept; null puts it away */
export function memorise(span: Span, key: string, value: unknown): boolean {
  try {
    if (value === null) storeOf(span).removeItem(key);
    else storeOf(span).setItem(key, JSON.stringify(value));
    return true;
  } catch (error) {
    console.warn(`${key} is not kept:`, error);
    return false;
  }
}

/** Client-side routes. */
import { signal } from "@preact/signals";

/** Single-segment routes about people, devices and records; targets of one-time links first. */
const ACCESS = [
  "setup",
  "join",
  "reset",
  "pair",
  "people",
  "passphrase",
  "devices",
  "records",
] as const;

export type Route =
  | { page: "today" | "evenings" | "fencers" | "drills" | "rules" | "club" | "settings" }
  | { page: (typeof ACCESS)[number] }
  /** `card`: a card by which another fencer gives this one a set. */
  | { page: "fencer" | "record" | "card"; fencer: string }
  /** A fencer's form; an empty id for a new one. */
  | { page: "person"; fencer: string }
  /** A bout sheet; an empty id where the fencer is yet to be chosen. */
  | { page: "bout"; fencer: string }
  /** Entry of such a card by its code; empty where that is yet to be typed. */
  | { page: "partner"; code: string }
  | { page: "imports" | "learning" }
  | { page: "drill"; drill: string }
  /** `from`: "new", "change/<id>" or "copy/<id>". */
  | { page: "write"; from: string }
  | { page: "strip" | "after" | "watch"; lesson: string };

const PLAIN = new Set(["evenings", "fencers", "drills", "rules", "club", "settings"]);

export function read(path: string): Route {
  const [, first = "", second = "", third = ""] = path.split("/");
  if ((first === "strip" || first === "after" || first === "watch") && second !== "") {
    return { page: first, lesson: second };
  }
  if (first === "partner") return { page: "partner", code: second };
  if (first === "bout") return { page: "bout", fencer: second };
  if (first === "drills" && second === "new") return { page: "write", from: "new" };
  if (first === "drills" && (third === "change" || third === "copy")) {
    return { page: "write", from: `${third}/${second}` };
  }
  if (first === "drills" && second !== "") return { page: "drill", drill: second };
  if (first === "club" && second === "learning") return { page: "learning" };
  if (first === "fencers" && second === "new") return { page: "person", fencer: "" };
  if (first === "fencers" && second === "import") return { page: "imports" };
  if (first === "fencers" && third === "edit") return { page: "person", fencer: second };
  if (first === "fencers" && second !== "") {
    return { page: third === "record" || third === "card" ? third : "fencer", fencer: second };
  }
  const access = ACCESS.find((page) => page === first);
  if (access !== undefined) return { page: access };
  if (PLAIN.has(first)) return { page: first } as Route;
  return { page: "today" };
}

export const route = signal<Route>(read(location.pathname));

export function go(path: string, replace = false): void {
  if (replace) history.replaceState(null, "", path);
  else history.pushState(null, "", path);
  route.value = read(path);
  scrollTo(0, 0);
}

addEventListener("popstate", () => {
  route.value = read(location.pathname);
});

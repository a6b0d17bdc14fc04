/** Addresses of the app's screens. */
import { signal } from "@preact/signals";

export type Route =
  | { page: "today" | "fencers" | "drills" | "rules" | "settings" }
  | { page: "fencer"; fencer: string }
  | { page: "strip" | "after" | "watch"; lesson: string };

export function read(path: string): Route {
  const [, first = "", second = ""] = path.split("/");
  if ((first === "strip" || first === "after" || first === "watch") && second !== "") {
    return { page: first, lesson: second };
  }
  if (first === "fencers" && second !== "") return { page: "fencer", fencer: second };
  if (first === "fencers" || first === "drills" || first === "rules" || first === "settings") {
    return { page: first };
  }
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

/** A device in words. */
import { accessWords } from "../words.access";

export interface Device {
  id: string;
  coach: string;
  /** What the browser calls itself. */
  label: string;
  name: string | null;
  first_seen: string;
  last_seen: string;
  this: boolean;
}

// The first that is found counts: later ones are named by the earlier, too.
const SYSTEMS = [
  ["iPhone", "iPhone"],
  ["iPad", "iPad"],
  ["Android", "Android"],
  ["CrOS", "ChromeOS"],
  ["Windows", "Windows"],
  ["Mac OS X", "Mac"],
  ["Linux", "Linux"],
] as const;
const BROWSERS = [
  ["Firefox", "Firefox"],
  ["FxiOS", "Firefox"],
  ["Edg", "Edge"],
  ["OPR", "Opera"],
  ["SamsungBrowser", "Samsung Internet"],
  ["CriOS", "Chrome"],
  ["Chrome", "Chrome"],
  ["Safari", "Safari"],
] as const;

/** The coach's own name for it, else what kind of browser it is. */
export function titleOf({ name, label }: Pick<Device, "name" | "label">): string {
  if (name) return name;
  const found = (list: readonly (readonly [string, string])[]) =>
    list.find(([sign]) => label.includes(sign))?.[1];
  const browser = found(BROWSERS);
  const system = found(SYSTEMS);
  if (browser && system) return accessWords.devices.browserOn(browser, system);
  return browser ?? system ?? accessWords.devices.unknown;
}

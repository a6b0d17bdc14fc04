/** A device in words. */
import type { Replies } from "../device/api-types";
import { _ } from "../language/i18n";

export type Device = Replies["Device"];

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
  if (browser && system) return _("%(browser)s on %(system)s", { browser, system });
  return browser ?? system ?? _("A device");
}

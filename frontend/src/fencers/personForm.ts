/** A fencer's form: its inputs, validation, and the fields they make. */
import type { Fields } from "../app/edit";
import type { Fencer } from "../device/types";
import { _ } from "../language/i18n";

export const HANDS = { right: _("Right"), left: _("Left") };

/** As in the API. */
const OLDEST = 1900;

export interface Typed {
  nickname: string;
  born: string;
  weapon: string;
  hand: string;
  joined: string;
  consent: string;
  noise_self: string;
  noise_guardian: string;
  note: string;
}

export type Wrong = Partial<Record<keyof Typed, string>>;

export const typedOf = (fencer: Partial<Fencer>): Typed => ({
  nickname: fencer.nickname ?? "",
  born: fencer.born ? String(fencer.born) : "",
  weapon: fencer.weapon ?? "",
  hand: fencer.hand ?? "right",
  joined: fencer.joined ?? "",
  consent: fencer.consent ?? "",
  noise_self: fencer.noise_self ?? "",
  noise_guardian: fencer.noise_guardian ?? "",
  note: fencer.note ?? "",
});

export function wrongIn(typed: Typed): Wrong {
  const year = new Date().getFullYear();
  const born = typed.born.trim();
  const wrong: Wrong = {};
  if (typed.nickname.trim() === "")
    wrong.nickname = _("Write what the fencer is called in the club.");
  if (born !== "" && !(/^\d{4}$/.test(born) && +born >= OLDEST && +born <= year)) {
    wrong.born = _("Write a year from %(from)s to %(to)s, or leave it empty.", {
      from: OLDEST,
      to: year,
    });
  }
  if (typed.weapon === "") wrong.weapon = _("Choose a weapon.");
  return wrong;
}

/** The fields of a valid form. */
export const fieldsOf = (typed: Typed): Fields => ({
  nickname: typed.nickname.trim(),
  born: typed.born.trim() === "" ? null : Number(typed.born),
  weapon: typed.weapon as Fencer["weapon"],
  hand: typed.hand as Fencer["hand"],
  joined: typed.joined || null,
  consent: typed.consent || null,
  noise_self: typed.noise_self || null,
  noise_guardian: typed.noise_guardian || null,
  note: typed.note.trim() || null,
});

/** The changed fields. */
export function changesOf(fencer: Fencer, typed: Typed): Partial<Fields> {
  const now = fieldsOf(typed);
  const before = fieldsOf(typedOf(fencer));
  const names = Object.keys(now) as (keyof Fields)[];
  return Object.fromEntries(
    names.filter((name) => now[name] !== before[name]).map((name) => [name, now[name]]),
  );
}

/** Consents that were noted and are taken out by this form. */
export const withdrawnBy = (fencer: Fencer | undefined, typed: Typed): boolean =>
  fencer !== undefined &&
  (["consent", "noise_self", "noise_guardian"] as const).some(
    (name) => fencer[name] != null && typed[name] === "",
  );

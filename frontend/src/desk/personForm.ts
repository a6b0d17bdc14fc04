/** A fencer's form: what was typed, what is wrong with it, and what it says. */
import type { Fencer } from "../device/types";
import { peopleWords } from "../words.people";
import type { Fields } from "./edit";

const said = peopleWords.form;
/** As the API has it. */
const OLDEST = 1900;

export interface Typed {
  nickname: string;
  born: string;
  weapon: string;
  hand: string;
  joined: string;
  consent: string;
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
  note: fencer.note ?? "",
});

export function wrongIn(typed: Typed): Wrong {
  const year = new Date().getFullYear();
  const born = typed.born.trim();
  const wrong: Wrong = {};
  if (typed.nickname.trim() === "") wrong.nickname = said.nicknameWrong;
  if (born !== "" && !(/^\d{4}$/.test(born) && +born >= OLDEST && +born <= year)) {
    wrong.born = said.bornWrong(OLDEST, year);
  }
  if (typed.weapon === "") wrong.weapon = said.weaponWrong;
  return wrong;
}

/** What a form without faults says. */
export const fieldsOf = (typed: Typed): Fields => ({
  nickname: typed.nickname.trim(),
  born: typed.born.trim() === "" ? null : Number(typed.born),
  weapon: typed.weapon,
  hand: typed.hand,
  joined: typed.joined || null,
  consent: typed.consent || null,
  note: typed.note.trim() || null,
});

/** Those fields that are not as before. */
export function changesOf(fencer: Fencer, typed: Typed): Partial<Fields> {
  const now = fieldsOf(typed);
  const before = fieldsOf(typedOf(fencer));
  const names = Object.keys(now) as (keyof Fields)[];
  return Object.fromEntries(
    names.filter((name) => now[name] !== before[name]).map((name) => [name, now[name]]),
  );
}

/** What is kept about a fencer, in numbers. */
import { accessWords } from "../words.access";

export interface FencerRecord {
  nickname: string;
  /** The day consent was given. */
  consent: string | null;
  since: string;
  /** How many rows of each table. */
  kept: Record<string, number>;
  /** Days of practice at home of each drill, oldest first. */
  practice: Record<string, string[]>;
}

/** One line for each table that holds something. */
export const keptWords = (kept: Record<string, number>): string[] =>
  Object.entries(kept)
    .filter(([, count]) => count > 0)
    .map(([table, count]) => accessWords.record.tables[table]?.(count) ?? `${table}: ${count}`);

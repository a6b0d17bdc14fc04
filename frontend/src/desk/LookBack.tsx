/** A lesson of today that cannot go on here: what came of it, and why. */
import type { LessonRow } from "../device/db";
import { thePhone } from "../phone";
import { laterWords } from "../words.later";

const said = laterWords.today;

export const LookBack = ({ row, name }: { row: LessonRow; name: string }) => (
  <>
    <a class="plain" href={`/after/${row.id}`} aria-label={`${said.review}: ${name}`}>
      {said.review}
    </a>
    {row.device === thePhone().ledger.device ? null : (
      <p class="soft whole" data-testid="elsewhere">
        {row.closed ? said.ended : said.elsewhere}
      </p>
    )}
  </>
);

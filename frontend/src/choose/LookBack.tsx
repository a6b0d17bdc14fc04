/** Link to today's lesson that is closed or belongs to another device. */
import { thePhone } from "../app/phone";
import type { LessonRow } from "../device/db";
import { _ } from "../language/i18n";

export const LookBack = ({ row, name }: { row: LessonRow; name: string }) => (
  <>
    <a class="plain" href={`/after/${row.id}`} aria-label={`${_("Review")}: ${name}`}>
      {_("Review")}
    </a>
    {row.device === thePhone().ledger.device ? null : (
      <p class="soft whole" data-testid="elsewhere">
        {row.closed
          ? _("The lesson of today is over.")
          : _("A lesson is open on another phone. It goes on only there; a new one starts here.")}
      </p>
    )}
  </>
);

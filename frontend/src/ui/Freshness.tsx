/** Whether what is shown is current, or a saved reply from earlier. */
import type { Reply } from "../app/useReply";
import { moment } from "../language/dates";
import { _ } from "../language/i18n";

export function Freshness({ reply }: { reply: Reply<unknown> }) {
  if (reply.is === "asking") return <p class="soft">{_("Asking the server …")}</p>;
  if (reply.is !== "kept" || reply.at === null) return null;
  const when = moment(new Date(reply.at).toISOString());
  if (reply.waits) return <p class="soft">{_("As of %(when)s; asking the server …", { when })}</p>;
  return <p class="soft">{_("As of %(when)s: the server does not answer just now.", { when })}</p>;
}

/** Quick, usual or strict: each with its sentence, its odds over five lessons and its pace. */
import type { RuleSetting, RuleSettingsTold } from "../../app/replies";
import { type Reply, useReply } from "../../app/useReply";
import { _, ngettext } from "../../language/i18n";
import { oddsWords } from "./RuleOdds";
import { type Rule, sameRule } from "./ruleForm";
import "./rule.css";

const NAMES: Record<string, string> = {
  quick: _("Quick"),
  usual: _("Usual"),
  strict: _("Strict"),
};

/** Name of the setting a drill has when its document names no rule. */
export const USUAL = "usual";
/** True rates whose odds are shown. */
const [NOT_YET, RELIABLE] = [0.8, 0.97];

/** The three settings of a kind of drill, and the usual one's rule once they are here. */
/** @param cues a lesson gives the drill; left out for those usual for its kind */
export function useSettings(kind: string, cues?: number) {
  const asked = cues === undefined ? `kind=${kind}` : `kind=${kind}&usual=${cues}`;
  const path = `/api/rules/settings?${asked}`;
  const reply = useReply<RuleSettingsTold>(`rule-settings:${asked}`, path, null, asked);
  const usual = reply.data?.settings.find((one) => one.name === USUAL)?.rule ?? null;
  return { reply, usual };
}

interface Props {
  reply: Reply<RuleSettingsTold>;
  /** The drill's rule; null for the usual one. */
  rule: Rule | null;
  onPick: (setting: RuleSetting) => void;
}

export function RuleSettings({ reply, rule, onPick }: Props) {
  const told = reply.data?.settings ?? [];
  const chosen = told.find((one) =>
    rule === null ? one.name === USUAL : sameRule(one.rule, rule),
  );
  const cues = told[0]?.lessons?.cues;
  return (
    <div data-testid="rule-settings">
      {cues === undefined ? null : (
        <p class="soft">
          {_(
            "Three settings, for lessons with %(cues)s cues of the drill. The odds are over five weekly lessons.",
            { cues },
          )}
        </p>
      )}
      <ul class="settings-of">
        {told.map((one) => (
          <li key={one.name}>
            <button
              type="button"
              aria-pressed={one === chosen}
              data-testid={`setting-${one.name}`}
              onClick={() => onPick(one)}
            >
              <b>{NAMES[one.name] ?? one.name}</b>
              <span>{one.says}</span>
              <Figures of={one} />
            </button>
          </li>
        ))}
      </ul>
      {told.length > 0 && chosen === undefined ? (
        <p data-testid="setting-own">{_("A rule of your own: see Exact.")}</p>
      ) : null}
      {reply.is === "none" ? (
        <p class="trouble" role="alert" data-testid="rules-away">
          {_(
            "The server does not answer. The odds are worked out there, so this page needs a connection; everything on the strip goes on without.",
          )}
        </p>
      ) : null}
    </div>
  );
}

function Figures({ of: { lessons } }: { of: RuleSetting }) {
  const climb = (p: number) => lessons?.rows.find((row) => row.p === p)?.climb ?? 0;
  if (lessons === null) return null;
  return (
    <small>
      {_("Right 8 times in 10: sent up %(often)s.", { often: oddsWords(climb(NOT_YET)) })}{" "}
      {_("Right 97 times in 100: sent up %(often)s.", { often: oddsWords(climb(RELIABLE)) })}{" "}
      <b>
        {lessons.pace === null
          ? _("Fewer than half of the reliable are up within five lessons.")
          : ngettext(
              "Pace: half of the reliable are up in the first lesson.",
              "Pace: half of the reliable are up by lesson %(n)s.",
              lessons.pace,
            )}
      </b>
    </small>
  );
}

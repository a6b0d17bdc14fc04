/** One kind of drill: figures in words, settings beside each other, breaks, and what may be done. */
import { useDoing } from "../app/ask";
import { thePhone } from "../app/phone";
import type { Replies } from "../device/api-types";
import { moment } from "../language/dates";
import { _ } from "../language/i18n";
import { Outcome } from "../ui/Answer";
import { Exact, Figures } from "../ui/Exact";
import { Plot } from "../ui/Plot";

type Kind = Replies["LearnedKind"];
type What = "rule" | "breaks";

interface Props {
  of: Kind;
  again: () => Promise<void>;
}

const PLOTS = {
  rung: _("Right answers on each rung"),
  gap: _("Right answers by days away"),
  lesson: _("Right answers by lesson"),
};

const SETTINGS: Record<string, string> = {
  quick: _("Quick"),
  usual: _("Usual"),
  strict: _("Strict"),
  own: _("The rule you have"),
};

export function LearnedKind({ of, again }: Props) {
  return (
    <section class="card" data-testid={`learned-${of.kind}`}>
      <h2>{of.title}</h2>
      <p>{of.seen}</p>
      {of.figures.length === 0 ? null : (
        <>
          <h3>{_("How they learn")}</h3>
          <ul class="learned">
            {of.figures.map((one) => (
              <li key={one.words} data-claim={one.claim}>
                {one.words}
              </li>
            ))}
          </ul>
        </>
      )}
      {of.did === null ? null : (
        <>
          <h3>{_("What you really did")}</h3>
          <p data-claim={of.did.claim}>{of.did.words}</p>
        </>
      )}
      {of.setting === null ? null : (
        <>
          <h3>{_("Which setting would serve them")}</h3>
          <p data-claim={of.setting.claim}>{of.setting.words}</p>
          <Accept of={of} what="rule" offered={of.suggested !== null} again={again} />
          <Compared of={of} />
        </>
      )}
      <h3>{_("After breaks")}</h3>
      <ul class="learned">
        {of.checks.map((one) => (
          <li key={one.words} data-claim={one.claim}>
            {one.words}
          </li>
        ))}
      </ul>
      {of.breaks === null ? null : (
        <>
          <p data-claim={of.breaks.claim}>{of.breaks.words}</p>
          <Accept of={of} what="breaks" offered={of.new_breaks !== null} again={again} />
        </>
      )}
      {of.plots ? <Pictures of={of} /> : null}
      {of.history.length === 0 ? null : <Taken of={of} />}
    </section>
  );
}

function Compared({ of }: { of: Kind }) {
  const title = _("Settings beside each other");
  const range = ([, low, high]: [number, number, number], by: number, digits: number) =>
    `${(by * low).toFixed(digits)}–${(by * high).toFixed(digits)}`;
  return (
    <Exact of={of.title} title={title}>
      <Figures
        caption={title}
        heads={[
          _("Setting"),
          _("Lessons a rung"),
          _("Climbs too early, in 100"),
          _("Never climb, in 100"),
        ]}
        rows={of.settings.map((one) => [
          one.now && one.name !== "own"
            ? _("%(setting)s (yours)", { setting: SETTINGS[one.name] ?? one.name })
            : (SETTINGS[one.name] ?? one.name),
          range(one.lessons, 1, 1),
          range(one.early, 100, 0),
          range(one.never, 100, 0),
        ])}
      />
      <p class="soft">
        {_(
          "Simulated fencers with your club's own figures, your own gaps between lessons and your own cues a lesson; each range holds 8 times in 10. Too early: right, relaxed, under 85 times in 100 at the climb. The model lets every cue teach alike, at whatever rung.",
        )}
      </p>
    </Exact>
  );
}

const Pictures = ({ of }: { of: Kind }) => (
  <Exact of={of.title} title={_("Does this fit your marks?")}>
    <p class="soft">
      {_("Points: what was marked. Bars: where these figures expect them 8 times in 10.")}
    </p>
    {Object.entries(PLOTS).map(([name, title]) => (
      <Plot
        key={name}
        src={`/api/club/learning/${of.kind}/${name}.svg`}
        title={title}
        words=""
        heads={[]}
        rows={[]}
      />
    ))}
  </Exact>
);

interface AcceptProps {
  of: Kind;
  what: What;
  offered: boolean;
  again: () => Promise<void>;
}

/** Accept what is suggested for this kind of drill, or take it back. */
function Accept({ of, what, offered, again }: AcceptProps) {
  const doing = useDoing();
  const taken = of.accepted.includes(what);
  if (!offered && !taken) return null;
  const send = (method: "POST" | "DELETE") =>
    doing.attempt(async () => {
      await thePhone().api.send(method, `/api/club/learning/${of.kind}/${what}`, {});
      await again();
      return method === "POST"
        ? _("Accepted: your drills of this kind have it now.")
        : _("Taken back: the drills have what they had before.");
    });
  return (
    <>
      {taken ? (
        <button
          type="button"
          class="plain"
          data-testid={`back-${what}-${of.kind}`}
          disabled={doing.busy}
          onClick={() => void send("DELETE")}
        >
          {_("Take it back")}
        </button>
      ) : (
        <button
          type="button"
          class="strong"
          data-testid={`accept-${what}-${of.kind}`}
          disabled={doing.busy}
          onClick={() => void send("POST")}
        >
          {_("Accept for these drills")}
        </button>
      )}
      <Outcome of={doing} named={`${what}-${of.kind}`} />
    </>
  );
}

const Taken = ({ of }: { of: Kind }) => (
  <Exact of={of.title} title={_("What was accepted, and taken back")}>
    <ul>
      {of.history.map((one) => (
        <li key={one.at}>
          {one.taken
            ? _("%(when)s: accepted by %(coach)s", {
                when: moment(one.at),
                coach: one.coach ?? "",
              })
            : _("%(when)s: taken back by %(coach)s", {
                when: moment(one.at),
                coach: one.coach ?? "",
              })}
          {", "}
          {one.what === "rule" ? _("the rule") : _("the start after breaks")}
        </li>
      ))}
    </ul>
  </Exact>
);

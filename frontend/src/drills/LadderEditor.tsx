/**
 * The rungs of one ladder. The next rung is picked from the steps the server offers; its objections
 * to moved or loaded rungs are shown at the rung.
 */
import { useEffect, useRef, useState } from "preact/hooks";
import type { DrillDocument } from "../device/types";
import { _ } from "../language/i18n";
import type { LadderName } from "../rules/chart";
import { addRung, type DraftReply, dropRung, labelOf, moveRung, type Offer } from "./drillDraft";
import { Fault, faultsAt } from "./Fault";
import { LADDER_TITLES } from "./fieldNames";
import { ScaleEditor } from "./ScaleEditor";

interface Props {
  family: LadderName;
  doc: DrillDocument;
  /** The server's validation of this draft; null while pending or offline. */
  reply: DraftReply | null;
  names: readonly string[];
  onChange: (doc: DrillDocument) => void;
}

export function LadderEditor({ family, doc, reply, names, onChange }: Props) {
  const rows = doc[family] ?? [];
  const told = reply?.ladders[family] ?? null;
  const errors = reply?.errors ?? {};
  const [status, setStatus] = useState("");
  const offers = useRef<HTMLDivElement>(null);
  const box = useRef<HTMLOListElement>(null);
  const goOn = useRef(false);
  useEffect(() => {
    // after adding a rung, focus moves to the next steps once they arrive
    if (!goOn.current || told === null) return;
    goOn.current = false;
    const next = offers.current?.querySelector("button");
    if (next) next.focus();
    else box.current?.focus();
  }, [told]);
  const add = (at: number, offer: Offer) => {
    goOn.current = true;
    setStatus(
      _("Rung %(n)s is now %(label)s.", { n: at + 1, label: labelOf(doc, family, offer.grades) }),
    );
    onChange(addRung(doc, family, at, offer.grades));
  };
  const move = (at: number, to: number) => {
    setStatus(_("Moved: now rung %(n)s.", { n: to + 1 }));
    onChange(moveRung(doc, family, at, to));
  };
  const drop = (at: number) => {
    setStatus(_("The rung is taken out."));
    onChange(dropRung(doc, family, at));
    box.current?.focus();
  };
  return (
    <section class="card ladder" data-testid={`edit-${family}`}>
      <h2>{LADDER_TITLES[family]}</h2>
      <ScaleEditor family={family} doc={doc} names={names} errors={errors} onChange={onChange} />
      <h3>{_("Rungs")}</h3>
      <ol class="rungs" ref={box} tabIndex={-1} aria-label={LADDER_TITLES[family]}>
        {rows.map((row, at) => {
          const label = labelOf(doc, family, row);
          const name = _("Rung %(n)s: %(label)s", { n: at + 1, label });
          return (
            <li key={`${at}${label}`} data-testid={`rung-${family}-${at}`}>
              <b aria-hidden="true">{at + 1}</b>
              <span>
                {label}
                {faultsAt(errors, [`${family}[${at}]`]).length > 0 ? null : (
                  <small>{told?.rungs[at]?.changed}</small>
                )}
              </span>
              <div class="moves">
                <button
                  type="button"
                  class="quiet"
                  disabled={at === 0}
                  aria-label={_("Earlier: %(what)s", { what: name })}
                  data-testid={`rung-up-${family}-${at}`}
                  onClick={() => move(at, at - 1)}
                >
                  ↑
                </button>
                <button
                  type="button"
                  class="quiet"
                  disabled={at === rows.length - 1}
                  aria-label={_("Later: %(what)s", { what: name })}
                  data-testid={`rung-down-${family}-${at}`}
                  onClick={() => move(at, at + 1)}
                >
                  ↓
                </button>
                <button
                  type="button"
                  class="quiet"
                  aria-label={_("Take out: %(what)s", { what: name })}
                  data-testid={`rung-drop-${family}-${at}`}
                  onClick={() => drop(at)}
                >
                  ✕
                </button>
              </div>
              <Fault errors={errors} at={[`${family}[${at}]`, `${family}[${at}].*`]} />
              {told?.rungs[at]?.before.length ? (
                <Offers
                  title={_("Put in between:")}
                  offers={told.rungs[at].before}
                  id={`before-${family}-${at}`}
                  onPick={(offer) => add(at, offer)}
                />
              ) : null}
            </li>
          );
        })}
      </ol>
      <Fault errors={errors} at={[family]} />
      <div ref={offers}>
        {told === null ? null : told.next.length === 0 ? (
          <p class="soft">
            {_("Every scale is at its last grade. To go on, add a grade or a scale.")}
          </p>
        ) : (
          <Offers
            title={rows.length === 0 ? _("Begin with") : _("Next rung: one grade on one scale")}
            offers={told.next}
            id={`next-${family}`}
            onPick={(offer) => add(rows.length, offer)}
          />
        )}
      </div>
      <p class="unseen" role="status">
        {status}
      </p>
    </section>
  );
}

interface OffersProps {
  title: string;
  offers: Offer[];
  id: string;
  onPick: (offer: Offer) => void;
}

/** The valid steps, as buttons. */
const Offers = ({ title, offers, id, onPick }: OffersProps) => (
  <fieldset class="offers">
    <legend class="soft">{title}</legend>
    <div class="segments">
      {offers.map((offer, at) => (
        <button
          type="button"
          key={offer.words}
          data-testid={`${id}-${at}`}
          onClick={() => onPick(offer)}
        >
          + {offer.words}
        </button>
      ))}
    </div>
  </fieldset>
);

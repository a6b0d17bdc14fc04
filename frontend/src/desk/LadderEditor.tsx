/**
 * The rungs of one ladder. The next rung is chosen among the steps the server offers; where rungs
 * were moved or loaded, what it says of a step stands at the rung.
 */
import { useEffect, useRef, useState } from "preact/hooks";
import type { DrillDocument, LadderName } from "../device/types";
import { drillWords } from "../words.drills";
import { addRung, type DraftReply, dropRung, labelOf, moveRung, type Offer } from "./drillDraft";
import { Fault, faultsAt } from "./Fault";
import { ScaleEditor } from "./ScaleEditor";

const said = drillWords.write;

interface Props {
  family: LadderName;
  doc: DrillDocument;
  /** What the server says of this draft; null while it is asked or does not answer. */
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
    // after a rung was added the keyboard goes on at the next steps, once these are known
    if (!goOn.current || told === null) return;
    goOn.current = false;
    const next = offers.current?.querySelector("button");
    if (next) next.focus();
    else box.current?.focus();
  }, [told]);
  const add = (at: number, offer: Offer) => {
    goOn.current = true;
    setStatus(said.addedRung(at + 1, labelOf(doc, family, offer.grades)));
    onChange(addRung(doc, family, at, offer.grades));
  };
  const move = (at: number, to: number) => {
    setStatus(said.moved(to + 1));
    onChange(moveRung(doc, family, at, to));
  };
  const drop = (at: number) => {
    setStatus(said.droppedRung);
    onChange(dropRung(doc, family, at));
    box.current?.focus();
  };
  return (
    <section class="card ladder" data-testid={`edit-${family}`}>
      <h2>{said.ladder[family]}</h2>
      <ScaleEditor family={family} doc={doc} names={names} errors={errors} onChange={onChange} />
      <h3>{said.rungs}</h3>
      <ol class="rungs" ref={box} tabIndex={-1} aria-label={said.ladder[family]}>
        {rows.map((row, at) => {
          const label = labelOf(doc, family, row);
          const name = said.rung(at + 1, label);
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
                  aria-label={said.earlier(name)}
                  data-testid={`rung-up-${family}-${at}`}
                  onClick={() => move(at, at - 1)}
                >
                  ↑
                </button>
                <button
                  type="button"
                  class="quiet"
                  disabled={at === rows.length - 1}
                  aria-label={said.later(name)}
                  data-testid={`rung-down-${family}-${at}`}
                  onClick={() => move(at, at + 1)}
                >
                  ↓
                </button>
                <button
                  type="button"
                  class="quiet"
                  aria-label={said.drop(name)}
                  data-testid={`rung-drop-${family}-${at}`}
                  onClick={() => drop(at)}
                >
                  ✕
                </button>
              </div>
              <Fault errors={errors} at={[`${family}[${at}]`, `${family}[${at}].*`]} />
              {told?.rungs[at]?.before.length ? (
                <Offers
                  title={said.putIn}
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
          <p class="soft">{said.top}</p>
        ) : (
          <Offers
            title={rows.length === 0 ? said.firstRung : said.nextRung}
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

/** The steps that are right here, as buttons. */
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

/** Write a drill, or change one: its texts, its ladders, its rule. The server judges each draft. */
import { useEffect, useRef, useState } from "preact/hooks";
import { v4 as uuid4 } from "uuid";
import { NoAnswer, Problem } from "../device/api";
import type { Drill, DrillDocument } from "../device/types";
import { forget } from "../kept";
import { thePhone } from "../phone";
import { go } from "../router";
import { PageHead } from "../SyncPill";
import { drillOf, session } from "../state";
import { drillWords } from "../words.drills";
import { DrillTexts } from "./DrillTexts";
import { draftName, originOf } from "./drafts";
import { FAMILIES, fromFile } from "./drillDraft";
import { EffectSheet } from "./EffectSheet";
import { covers, faultsAt } from "./Fault";
import { LadderEditor } from "./LadderEditor";
import { RuleCard } from "./RuleCard";
import type { Effect } from "./replies";
import { checked, useDraft } from "./useDraft";
import "../style/drills.css";

const said = drillWords.write;

export function DrillEditor({ id: from }: { id: string }) {
  // what it starts from stays, even when the club is fetched anew under the form
  const [origin] = useState(() => originOf(from));
  if (origin === null) return <p class="page lead">{drillWords.page.gone}</p>;
  if (session.value?.coach.role === "observer") return <p class="page lead">{said.coachesOnly}</p>;
  return <Form from={from} id={origin.id} start={origin.doc} />;
}

interface FormProps {
  from: string;
  /** The drill that is changed; null where a new one is made. */
  id: string | null;
  start: DrillDocument;
}

function Form({ from, id, start }: FormProps) {
  const [{ doc, found, reply, state }, { change, check, reset }] = useDraft(from, start);
  const [effect, setEffect] = useState<Effect | null>(null);
  const [saving, setSaving] = useState(false);
  const [trouble, setTrouble] = useState("");
  const [tried, setTried] = useState(false);
  const fresh = useRef(uuid4());
  const errors = reply?.errors ?? {};
  const wrong = Object.keys(errors).length;
  // an empty form is not scolded: what is missing is shown once saving was tried
  const shown = tried ? errors : kept(errors, (field) => !isText(doc, field));
  useEffect(() => setTrouble(""), [doc]);

  const save = async (event: Event) => {
    event.preventDefault();
    setTried(true);
    const now = await check();
    if (now === null) return;
    const first = Object.keys(now.errors)[0];
    if (first !== undefined) return toField(first);
    if (id === null) return store();
    try {
      const path = `/api/drills/${id}/effect`;
      const told = await thePhone().api.send<Effect>("POST", path, { document: doc });
      if (told.judged && told.fencers.length > 0) setEffect(told);
      else await store();
    } catch (error) {
      setTrouble(messageOf(error));
    }
  };
  const store = async () => {
    setEffect(null);
    setSaving(true);
    const { api, queue } = thePhone();
    try {
      const drill =
        id === null
          ? await api.send<Drill>("POST", "/api/drills", { id: fresh.current, document: doc })
          : await api.send<Drill>("PUT", `/api/drills/${id}`, {
              document: doc,
              archived: drillOf(id)?.archived ?? false,
            });
      await forget(draftName(from));
      await queue.kick("all");
      go(`/drills/${drill.id}`, true);
    } catch (error) {
      setTrouble(messageOf(error));
      setSaving(false);
    }
  };
  const load = async (file: File | undefined) => {
    if (file === undefined) return;
    setTrouble("");
    const loaded = fromFile(await file.text());
    try {
      const told = loaded === null ? null : await checked(loaded);
      // a ladder the server cannot read has no rungs to show
      const readable = told !== null && Object.values(told.ladders).some((one) => one !== null);
      if (loaded === null || !readable) return setTrouble(said.notDrill);
      change({ ...loaded, ...(doc.slug === undefined ? {} : { slug: doc.slug }) });
    } catch (error) {
      setTrouble(messageOf(error));
    }
  };
  return (
    <main class="page" data-testid="write">
      <PageHead
        title={
          from === "new"
            ? said.fresh
            : id === null
              ? said.copyOf(drillOf(from.split("/")[1] ?? "")?.name ?? "")
              : said.changeOf(start.name)
        }
      />
      {found ? (
        <p class="soft" data-testid="draft-found">
          {said.restored}{" "}
          <button type="button" class="quiet" onClick={reset}>
            {said.dropDraft}
          </button>
        </p>
      ) : null}
      <form noValidate onSubmit={save}>
        <div class="cards">
          <DrillTexts
            doc={doc}
            gives={reply?.gives ?? [doc.gives]}
            errors={shown}
            onChange={change}
          />
          <div>
            {FAMILIES.filter((family) => doc[family] !== null).map((family) => (
              <LadderEditor
                key={family}
                family={family}
                doc={doc}
                reply={reply}
                names={reply?.scales[family] ?? []}
                onChange={change}
              />
            ))}
          </div>
        </div>
        <RuleCard doc={doc} drill={id} errors={errors} onChange={change} />
        <section class="card save" data-testid="save-card">
          <p role="status" data-testid="draft-state" data-wrong={wrong} data-state={state}>
            {state === "asking"
              ? said.asking
              : state === "away"
                ? said.away
                : wrong === 0
                  ? said.allWell
                  : tried
                    ? said.mend(wrong)
                    : said.toMend(wrong)}
          </p>
          {tried ? <Elsewhere errors={errors} /> : null}
          {trouble ? (
            <p class="trouble" role="alert">
              {said.refused} {trouble}
            </p>
          ) : null}
          <div class="enter">
            <button type="submit" class="strong" disabled={saving} data-testid="save-drill">
              {saving ? said.saving : said.save}
            </button>
            {state === "away" ? (
              <button type="button" class="plain" onClick={check}>
                {said.again}
              </button>
            ) : null}
            <label class="plain file">
              {said.load}
              <input
                type="file"
                accept="application/json,.json"
                data-testid="load-file"
                onChange={(event) => {
                  void load(event.currentTarget.files?.[0]);
                  event.currentTarget.value = "";
                }}
              />
            </label>
            <a class="quiet" href={id === null ? "/drills" : `/drills/${id}`}>
              {drillWords.cancel}
            </a>
          </div>
        </section>
      </form>
      {effect === null ? null : (
        <EffectSheet effect={effect} onSave={store} onClose={() => setEffect(null)} />
      )}
    </main>
  );
}

/** Fields that have a place of their own in the form. */
const PLACED = [
  "name",
  "action",
  "purpose",
  "how",
  "safety",
  "alone",
  "weapon",
  "gives",
  "kind",
  "read*",
  "heat*",
  "scales*",
  "rule*",
  "cap",
];

/** Errors of fields the form does not show. */
const Elsewhere = ({ errors }: { errors: Record<string, string[]> }) => {
  const others = kept(errors, (field) => !PLACED.some((one) => covers(one, field)));
  if (Object.keys(others).length === 0) return null;
  return (
    <p class="trouble">
      {said.elsewhere}{" "}
      {Object.entries(others)
        .map(([field]) => `${field}: ${faultsAt(others, [field]).join(" ")}`)
        .join("; ")}
    </p>
  );
};

const kept = (errors: Record<string, string[]>, which: (field: string) => boolean) =>
  Object.fromEntries(Object.entries(errors).filter(([field]) => which(field)));

/** Whether it is a text not written yet. */
const isText = (doc: DrillDocument, field: string): boolean =>
  doc[field as keyof DrillDocument] === "" || field === "weapon";

/** Bring the first field at fault under the eyes and the keyboard. */
function toField(field: string): void {
  setTimeout(() => {
    const found =
      document.getElementById(`field-${field}`) ?? document.getElementById(`fault-${field}`);
    found?.scrollIntoView({ block: "center" });
    found?.focus();
  });
}

function messageOf(error: unknown): string {
  if (error instanceof NoAnswer) return said.away;
  if (!(error instanceof Problem)) return String((error as Error).message);
  const fields = Object.entries(error.errors).map(([field, why]) => `${field}: ${why.join(" ")}`);
  return [error.message, ...fields].join(" ");
}

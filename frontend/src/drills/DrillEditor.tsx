/** Editor for a drill: texts, ladders, rule. The server validates each draft. */
import { useEffect, useRef, useState } from "preact/hooks";
import { v4 as uuid4 } from "uuid";
import { draftName } from "../app/drafts";
import { thePhone } from "../app/phone";
import type { Effect } from "../app/replies";
import { go } from "../app/router";
import { forget } from "../app/saved";
import { drillOf, isObserver } from "../app/state";
import { NoAnswer, Problem } from "../device/api";
import type { Drill, DrillDocument } from "../device/types";
import { _, ngettext } from "../language/i18n";
import { PageHead } from "../ui/SyncPill";
import { DrillTexts } from "./DrillTexts";
import { FAMILIES, fromFile } from "./drillDraft";
import { EffectSheet } from "./EffectSheet";
import { covers, faultsAt } from "./Fault";
import { LadderEditor } from "./LadderEditor";
import { originOf } from "./origin";
import { RuleCard } from "./RuleCard";
import { checked, useDraft } from "./useDraft";
import "./drills.css";

export function DrillEditor({ id: from }: { id: string }) {
  // fixed on mount: a refetch of the club must not change it under the form
  const [origin] = useState(() => originOf(from));
  if (origin === null) {
    return (
      <p class="page lead">
        {_("This drill is not on this phone. Perhaps it comes with the next connection.")}
      </p>
    );
  }
  if (isObserver()) {
    return <p class="page lead">{_("Only coaches change drills.")}</p>;
  }
  return <Form from={from} id={origin.id} start={origin.doc} />;
}

interface FormProps {
  from: string;
  /** Id of the drill being changed; null for a new one. */
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
  // missing texts are reported only after an attempt to save
  const shown = tried ? errors : pick(errors, (field) => !isText(doc, field));
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
      // a ladder the server cannot parse has no rungs to show
      const readable = told !== null && Object.values(told.ladders).some((one) => one !== null);
      if (loaded === null || !readable) {
        return setTrouble(
          _("This file is no drill. Choose one that was saved from a drill's page."),
        );
      }
      change({ ...loaded, ...(doc.slug === undefined ? {} : { slug: doc.slug }) });
    } catch (error) {
      setTrouble(messageOf(error));
    }
  };
  return (
    <main class="page drills" data-testid="write">
      <PageHead
        title={
          from === "new"
            ? _("A new drill")
            : id === null
              ? _("Copy of %(name)s", { name: drillOf(from.split("/")[1] ?? "")?.name ?? "" })
              : _("Change %(name)s", { name: start.name })
        }
      />
      {found ? (
        <p class="soft" data-testid="draft-found">
          {_("This is what you wrote last time. It is not saved yet.")}{" "}
          <button type="button" class="quiet" onClick={reset}>
            {_("Start again from the drill")}
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
              ? _("Checking …")
              : state === "away"
                ? _(
                    "The server does not answer. What you write is kept on this device; steps are checked and saved with a connection.",
                  )
                : wrong === 0
                  ? _("Nothing to put right.")
                  : tried
                    ? ngettext(
                        "Not saved: %(n)s thing to put right.",
                        "Not saved: %(n)s things to put right.",
                        wrong,
                      )
                    : ngettext("%(n)s thing to put right", "%(n)s things to put right", wrong)}
          </p>
          {tried ? <Elsewhere errors={errors} /> : null}
          {trouble ? (
            <p class="trouble" role="alert">
              {_("The server did not take it:")} {trouble}
            </p>
          ) : null}
          <div class="enter">
            <button type="submit" class="strong" disabled={saving} data-testid="save-drill">
              {saving ? _("Saving …") : _("Save the drill")}
            </button>
            {state === "away" ? (
              <button type="button" class="plain" onClick={check}>
                {_("Try again")}
              </button>
            ) : null}
            <label class="plain file">
              {_("Load from a file")}
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
              {_("Cancel")}
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

/** Fields whose errors are shown beside them. */
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
  "usual",
  "startles",
];

/** Errors of fields without a place in the form. */
const Elsewhere = ({ errors }: { errors: Record<string, string[]> }) => {
  const others = pick(errors, (field) => !PLACED.some((one) => covers(one, field)));
  if (Object.keys(others).length === 0) return null;
  return (
    <p class="trouble">
      {_("Also:")}{" "}
      {Object.entries(others)
        .map(([field]) => `${field}: ${faultsAt(others, [field]).join(" ")}`)
        .join("; ")}
    </p>
  );
};

const pick = (errors: Record<string, string[]>, which: (field: string) => boolean) =>
  Object.fromEntries(Object.entries(errors).filter(([field]) => which(field)));

/** Whether the field is merely still empty. */
const isText = (doc: DrillDocument, field: string): boolean =>
  doc[field as keyof DrillDocument] === "" || field === "weapon";

/** Scroll to and focus the first invalid field. */
function toField(field: string): void {
  setTimeout(() => {
    const found =
      document.getElementById(`field-${field}`) ?? document.getElementById(`fault-${field}`);
    found?.scrollIntoView({ block: "center" });
    found?.focus();
  });
}

function messageOf(error: unknown): string {
  if (error instanceof NoAnswer) {
    return _(
      "The server does not answer. What you write is kept on this device; steps are checked and saved with a connection.",
    );
  }
  if (!(error instanceof Problem)) return String((error as Error).message);
  const fields = Object.entries(error.errors).map(([field, why]) => `${field}: ${why.join(" ")}`);
  return [error.message, ...fields].join(" ");
}

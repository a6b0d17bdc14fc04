/** What a rule does to fencers of different skill, before anyone is taught by it. */
import { useEffect, useState } from "preact/hooks";
import { NoAnswer, Problem } from "../device/api";
import { locale } from "../i18n";
import { thePhone } from "../phone";
import { PageHead } from "../SyncPill";
import { settings } from "../state";
import { deskWords } from "../words.desk";
import { Exact, Figures } from "./Exact";
import type { Odds, OddsRow } from "./replies";
import { type Family, FIELDS, firstValues, type Rule, ruleOf, type Values } from "./ruleForm";

const said = deskWords.rules;

interface Shown {
  rule: Rule;
  odds: Odds;
}

export function Rules() {
  const [family, setFamily] = useState<Family>("changepoint");
  const [values, setValues] = useState<Values>(firstValues("changepoint"));
  const [errors, setErrors] = useState<Values>({});
  const [shown, setShown] = useState<Shown | null>(null);
  const [state, setState] = useState<"idle" | "asking" | "away">("idle");
  const [trouble, setTrouble] = useState("");
  const show = async (of: Family, from: Values) => {
    const { rule, errors: found } = ruleOf(of, from);
    setErrors(found);
    setTrouble("");
    if (Object.keys(found).length > 0) return focusOn(Object.keys(found)[0]);
    setState("asking");
    try {
      const odds = await thePhone().api.send<Odds>("POST", "/api/rules/odds", { rule });
      setShown({ rule, odds });
      setState("idle");
    } catch (error) {
      setState(error instanceof NoAnswer ? "away" : "idle");
      if (error instanceof NoAnswer) return;
      const refused = error instanceof Problem ? fieldErrors(error, of) : {};
      setErrors(refused);
      if (Object.keys(refused).length > 0) focusOn(Object.keys(refused)[0]);
      else setTrouble((error as Error).message);
    }
  };
  useEffect(() => {
    void show(family, values);
  }, []);
  const pick = (next: Family) => {
    setFamily(next);
    setValues(firstValues(next));
    void show(next, firstValues(next));
  };
  const submit = (event: Event) => {
    event.preventDefault();
    void show(family, values);
  };
  return (
    <main class="page" data-testid="rules">
      <PageHead title={said.title} />
      <p class="soft">{said.lead}</p>
      <div class="cards">
        <form class="card" noValidate onSubmit={submit}>
          <fieldset>
            <legend class="soft">{said.family}</legend>
            <div class="segments">
              {(Object.keys(said.families) as Family[]).map((one) => (
                <button
                  type="button"
                  key={one}
                  aria-pressed={one === family}
                  data-testid={`family-${one}`}
                  onClick={() => pick(one)}
                >
                  {said.families[one]}
                </button>
              ))}
            </div>
          </fieldset>
          <p>{said.about[family]}</p>
          {FIELDS[family].map(({ name }) => (
            <NumberField
              key={name}
              name={name}
              value={values[name] ?? ""}
              error={errors[name]}
              onChange={(value) => setValues({ ...values, [name]: value })}
            />
          ))}
          <button type="submit" class="strong" data-testid="show-odds">
            {state === "asking" ? said.working : said.go}
          </button>
          {trouble ? (
            <p class="trouble" role="alert">
              {said.trouble} {trouble}
            </p>
          ) : null}
        </form>
        <div>
          {state === "away" ? (
            <p class="trouble" role="alert" data-testid="rules-away">
              {said.away}{" "}
              <button type="button" class="quiet" onClick={() => show(family, values)}>
                {said.again}
              </button>
            </p>
          ) : null}
          {shown ? <Result shown={shown} /> : null}
        </div>
      </div>
    </main>
  );
}

interface FieldProps {
  name: string;
  value: string;
  error: string | undefined;
  onChange: (value: string) => void;
}

const NumberField = ({ name, value, error, onChange }: FieldProps) => (
  <label class="field number">
    <span>{said.fields[name] ?? name}</span>
    <input
      id={`rule-${name}`}
      type="text"
      inputMode="decimal"
      value={value}
      aria-invalid={error !== undefined}
      aria-describedby={error === undefined ? undefined : `rule-${name}-error`}
      data-testid={`rule-${name}`}
      onInput={(event) => onChange(event.currentTarget.value)}
    />
    {error === undefined ? null : (
      <small class="trouble" id={`rule-${name}-error`}>
        {error}
      </small>
    )}
  </label>
);

function Result({ shown: { rule, odds } }: { shown: Shown }) {
  const same = JSON.stringify(odds.table) === JSON.stringify(odds.default);
  const early = at(odds.default, 0.8);
  const due = at(odds.default, 0.97);
  return (
    <section class="card" data-testid="odds">
      <p class="result" aria-live="polite">
        {odds.words}
      </p>
      {odds.warning ? (
        <p class="trouble" data-testid="odds-warning">
          <b>{said.warning}.</b> {odds.warning}
        </p>
      ) : null}
      <p class="soft">
        {same || early === undefined || due === undefined
          ? said.isDefault
          : said.toCompare(said.times(early.climb), said.times(due.climb), Math.round(due.cues))}
      </p>
      <Picture key={JSON.stringify(rule)} rule={rule} words={odds.words} />
      <Exact of={said.table}>
        <Figures
          caption={said.table}
          heads={[
            said.truly,
            said.up,
            said.back,
            said.cues,
            ...(same ? [] : [said.default, said.defaultCues]),
          ]}
          rows={odds.table.map((row, k) => {
            const other = odds.default[k];
            return [
              said.percent(row.p),
              said.percent(row.climb),
              said.percent(row.back),
              said.figure(row.cues),
              ...(same || other === undefined
                ? []
                : [said.percent(other.climb), said.figure(other.cues)]),
            ];
          })}
        />
        <p class="soft">{said.states(odds.states)}</p>
      </Exact>
    </section>
  );
}

function Picture({ rule, words }: { rule: Rule; words: string }) {
  const [away, setAway] = useState(false);
  if (away) return <p class="soft">{said.pictureAway}</p>;
  const shape = matchMedia("(max-width: 40rem)").matches ? "tall" : "wide";
  const query = new URLSearchParams({
    rule: JSON.stringify(rule),
    tone: tone(),
    shape,
    lang: locale,
  });
  return (
    <img
      class="curves"
      src={`/api/rules/odds.svg?${query}`}
      alt={said.picture(words)}
      onError={() => setAway(true)}
    />
  );
}

/** The page's colours just now. */
function tone(): "dark" | "light" {
  const { theme } = settings.value;
  if (theme !== "auto") return theme;
  return matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "light";
}

const at = (rows: OddsRow[], p: number): OddsRow | undefined => rows.find((row) => row.p === p);

const focusOn = (name: string | undefined): void =>
  document.getElementById(`rule-${name}`)?.focus();

/** What the server says of the form's own fields: it names them as `rule.p0`. */
function fieldErrors(error: Problem, family: Family): Values {
  const found: Values = {};
  for (const [field, why] of Object.entries(error.errors)) {
    const name = field.replace(/^rule\./, "").replace("back_in_last", "misses");
    if (FIELDS[family].some((one) => one.name === name)) found[name] = why.join(" ");
  }
  return found;
}

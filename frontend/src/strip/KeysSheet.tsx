/** Which key or button does what: shown, and changed by pressing it. */
import { useLayoutEffect, useState } from "preact/hooks";
import { Sheet } from "../Sheet";
import { choose } from "../settings";
import { inputs } from "../words.inputs";
import { assigned, laidOut, ONE_BUTTON, parted, TWO_BUTTONS, without } from "./clicker";
import { ACTIONS, type Action, type Bindings, bindings, hear } from "./keys";
import { Presses } from "./presses";

const words = inputs.keys;
const PATIENCE_MS = 10_000;

/** What the next press is for: an action, or the buttons of a clicker one after another. */
type Asked = { action: Action } | { layout: readonly Bindings[]; names: string[] };

export const inputName = (input: string): string => {
  const [name, how] = parted(input);
  const key = name.length === 1 ? name.toUpperCase() : name.replace(/([a-z])([A-Z])/g, "$1 $2");
  return words.how[how]?.(key) ?? key;
};

export function KeysSheet({ onClose }: { onClose: () => void }) {
  const [asked, setAsked] = useState<Asked | null>(null);
  const [told, setTold] = useState("");
  const now = bindings();
  const keep = (keys: Bindings | null, said: string) => {
    setAsked(null);
    choose({ keys });
    setTold(said);
  };
  const take = (input: string) => {
    if (asked === null) return;
    const [next, said] = "action" in asked ? one(asked.action, input) : button(asked, input);
    if (next === null) return;
    keep(next, said);
  };
  const button = (
    { layout, names }: Exclude<Asked, { action: Action }>,
    input: string,
  ): [Bindings | null, string] => {
    const known = [...new Set([...names, parted(input)[0]])];
    if (known.length < layout.length) {
      setAsked({ layout, names: known });
      return [null, ""];
    }
    const next = known.reduce((all, name, at) => laidOut(all, name, layout[at] ?? {}), now);
    return [next, layout === TWO_BUTTONS ? words.twoDone : words.oneDone];
  };
  // before the next key can come, so no press is missed
  useLayoutEffect(() => {
    if (asked === null) return undefined;
    const presses = new Presses(() => true, take);
    const silence = setTimeout(() => {
      setAsked(null);
      setTold(words.late);
    }, PATIENCE_MS);
    const leave = hear(presses, () => true);
    return () => {
      clearTimeout(silence);
      leave();
    };
  }, [asked]);
  const layoutAsked = asked !== null && "layout" in asked ? asked : null;
  return (
    <Sheet title={words.title} onClose={onClose}>
      <p>{words.lead}</p>
      <p role="status" class="keys-told" data-testid="keys-told">
        {layoutAsked ? (layoutAsked.names.length === 0 ? words.first : words.second) : told}
      </p>
      <section class="card">
        <h3>{words.quick}</h3>
        <div class="segments">
          {[
            { layout: TWO_BUTTONS, name: words.two, id: "two" },
            { layout: ONE_BUTTON, name: words.one, id: "one" },
          ].map(({ layout, name, id }) => (
            <button
              type="button"
              key={id}
              aria-pressed={layoutAsked?.layout === layout}
              data-testid={`clicker-${id}`}
              onClick={() => setAsked(layoutAsked ? null : { layout, names: [] })}
            >
              {name}
            </button>
          ))}
        </div>
        <p class="soft">{words.ways}</p>
        <p class="soft">{words.noHold}</p>
        <p class="soft">{words.volume}</p>
      </section>
      <ul class="keys">
        {ACTIONS.map((action) => (
          <KeysOf
            key={action}
            action={action}
            inputs={Object.keys(now).filter((input) => now[input] === action)}
            asking={asked !== null && "action" in asked && asked.action === action}
            onAsk={(asking) => {
              setTold("");
              setAsked(asking ? { action } : null);
            }}
            onRemove={(input) =>
              keep(without(now, input), words.removed(inputName(input), words.actions[action]))
            }
          />
        ))}
      </ul>
      <button
        type="button"
        class="plain"
        data-testid="keys-preset"
        onClick={() => keep(null, words.presetDone)}
      >
        {words.preset}
      </button>
    </Sheet>
  );
}

/** The keys with one input given to an action, and what to say of it. */
function one(action: Action, input: string): [Bindings, string] {
  const was = bindings()[input];
  const [name, what] = [inputName(input), words.actions[action]];
  const said =
    was === undefined
      ? words.set(name, what)
      : was === action
        ? words.same(name, what)
        : words.moved(name, what, words.actions[was]);
  return [assigned(bindings(), input, action), said];
}

interface Props {
  action: Action;
  inputs: string[];
  asking: boolean;
  onAsk: (asking: boolean) => void;
  onRemove: (input: string) => void;
}

function KeysOf({ action, inputs: own, asking, onAsk, onRemove }: Props) {
  const what = words.actions[action];
  return (
    <li data-testid={`keys-${action}`}>
      <b>{what}</b>
      <div class="own">
        {own.length === 0 ? <span class="soft">{words.none}</span> : null}
        {own.map((input) => (
          <button
            type="button"
            class="key"
            key={input}
            aria-label={words.remove(inputName(input), what)}
            onClick={() => onRemove(input)}
          >
            <kbd>{inputName(input)}</kbd> <span aria-hidden="true">×</span>
          </button>
        ))}
      </div>
      <button
        type="button"
        class="plain"
        data-testid={`press-${action}`}
        aria-label={asking ? words.stop : words.pressFor(what)}
        onClick={() => onAsk(!asking)}
      >
        {asking ? words.waiting : words.press}
      </button>
    </li>
  );
}

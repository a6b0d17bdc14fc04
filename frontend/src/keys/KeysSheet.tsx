/** Key bindings: shown, and reassigned by pressing a key. */
import { useLayoutEffect, useState } from "preact/hooks";
import { ACTIONS, type Action, type Bindings } from "../app/actions";
import { choose } from "../app/settings";
import { _ } from "../language/i18n";
import { Sheet } from "../ui/Sheet";
import { assigned, laidOut, ONE_BUTTON, parted, TWO_BUTTONS, without } from "./clicker";
import { bindings, hear } from "./keys";
import { Presses } from "./presses";
import "./keys.css";

const PRESSED: Record<string, (key: string) => string> = {
  "": (key: string) => key,
  "*2": (key: string) => _("%(key)s twice", { key }),
  "*3": (key: string) => _("%(key)s three times", { key }),
  "*4": (key: string) => _("%(key)s four times", { key }),
  "*hold": (key: string) => _("%(key)s held", { key }),
};

const ACTION_NAMES = {
  correct: _("Correct"),
  tense: _("Correct, but tense"),
  late: _("Late"),
  early: _("Early or big"),
  decoy: _("Fell for it"),
  undo: _("Undo the last mark"),
  wait: _("Start the wait"),
  "gave-attack": _("You give a cue to answer"),
  "gave-decoy": _("You give a cue to leave"),
  "gave-soft": _("You give it soft"),
  "gave-loud": _("You give it loud"),
  again: _("Say it again"),
  next: _("Next drill of the plan; after the last, to the end"),
};

const PATIENCE_MS = 10_000;

/** What the next press assigns: one action, or a clicker's buttons in turn. */
type Asked = { action: Action } | { layout: readonly Bindings[]; names: string[] };

const inputName = (input: string): string => {
  const [name, how] = parted(input);
  const key = name.length === 1 ? name.toUpperCase() : name.replace(/([a-z])([A-Z])/g, "$1 $2");
  return PRESSED[how]?.(key) ?? key;
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
    return [
      next,
      layout === TWO_BUTTONS
        ? _(
            "First button: once Correct, twice Fell for it, three times Wait, four times Next drill, held Tense. Second button: once Late, twice Early or big, three times Say it again, held Undo.",
          )
        : _(
            "Once Correct, twice Late, three times Early or big, four times Fell for it, held Undo.",
          ),
    ];
  };
  // layout effect: the next key press must not be missed
  useLayoutEffect(() => {
    if (asked === null) return undefined;
    const presses = new Presses(() => true, take);
    const silence = setTimeout(() => {
      setAsked(null);
      setTold(_("Nothing was pressed."));
    }, PATIENCE_MS);
    const leave = hear(presses, () => true);
    return () => {
      clearTimeout(silence);
      leave();
    };
  }, [asked]);
  const layoutAsked = asked !== null && "layout" in asked ? asked : null;
  return (
    <Sheet title={_("Keys and clicker")} onClose={onClose}>
      <p>
        {_(
          "A keyboard, a Bluetooth clicker or a gamepad can do what the buttons on the strip do. These keys are kept on this phone.",
        )}
      </p>
      <p role="status" class="keys-told" data-testid="keys-told">
        {layoutAsked
          ? layoutAsked.names.length === 0
            ? _("Press the button for Correct …")
            : _("Now press the button for Late …")
          : told}
      </p>
      <section class="card">
        <h3>{_("Set up a clicker")}</h3>
        <div class="segments">
          {[
            { layout: TWO_BUTTONS, name: _("Two buttons"), id: "two" },
            { layout: ONE_BUTTON, name: _("One button"), id: "one" },
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
        <p class="soft">
          {_(
            "Every button has five inputs: pressed once, twice, three or four times quickly, or held for half a second. A button with one use acts at once. One with more waits a third of a second for the next press.",
          )}
        </p>
        <p class="soft">
          {_(
            "If holding does nothing, the clicker keeps it to itself: give Undo another input below.",
          )}
        </p>
        <p class="soft">{_("A remote that only turns the volume cannot be read by a web page.")}</p>
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
              keep(
                without(now, input),
                _("%(input)s no longer does: %(what)s.", {
                  input: inputName(input),
                  what: ACTION_NAMES[action],
                }),
              )
            }
          />
        ))}
      </ul>
      <button
        type="button"
        class="plain"
        data-testid="keys-preset"
        onClick={() => keep(null, _("The preset keys are back."))}
      >
        {_("Back to the preset keys")}
      </button>
    </Sheet>
  );
}

/** Assign an input to an action. @returns the bindings and a status message */
function one(action: Action, input: string): [Bindings, string] {
  const was = bindings()[input];
  const [name, what] = [inputName(input), ACTION_NAMES[action]];
  const said =
    was === undefined
      ? _("%(input)s now does: %(what)s.", { input: name, what })
      : was === action
        ? _("%(input)s does that already: %(what)s.", { input: name, what })
        : _("%(input)s now does: %(what)s. Until now it did: %(was)s.", {
            input: name,
            what,
            was: ACTION_NAMES[was],
          });
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
  const what = ACTION_NAMES[action];
  return (
    <li data-testid={`keys-${action}`}>
      <b>{what}</b>
      <div class="own">
        {own.length === 0 ? <span class="soft">{_("no key")}</span> : null}
        {own.map((input) => (
          <button
            type="button"
            class="key"
            key={input}
            aria-label={_("Take %(input)s away from: %(what)s", { input: inputName(input), what })}
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
        aria-label={asking ? _("Stop") : _("Press a key for: %(what)s", { what })}
        onClick={() => onAsk(!asking)}
      >
        {asking ? _("Press it now …") : _("Press a key")}
      </button>
    </li>
  );
}

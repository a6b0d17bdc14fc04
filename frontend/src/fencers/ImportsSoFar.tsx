/** Latest imports, with undo. */
import { useEffect, useState } from "preact/hooks";
import { thePhone } from "../app/phone";
import { Problem } from "../device/api";
import type { Replies } from "../device/api-types";
import { dayWords } from "../language/dates";
import { _, ngettext } from "../language/i18n";

type Import = Replies["Import"];

type Undone = Replies["Undone"];

/** @param again refetches when it changes */
export function ImportsSoFar({ again }: { again: unknown }) {
  const [imports, setImports] = useState<Import[]>([]);
  const [told, setTold] = useState<string[]>([]);
  const load = async () => {
    const reply = await thePhone().api.get<Replies["Imports"]>("/api/imports");
    setImports(reply.imports);
  };
  useEffect(() => {
    void load().catch(console.warn);
  }, [again]);
  const undo = async (id: string) => {
    try {
      const { gone, stay } = await thePhone().api.send<Undone>("DELETE", `/api/imports/${id}`);
      setTold([
        ngettext("%(n)s fencer was erased.", "%(n)s fencers were erased.", gone),
        ...stay.map((one) => _("%(name)s stays: %(why)s.", { name: one.nickname, why: one.why })),
      ]);
      await load();
      await thePhone().queue.kick("all");
    } catch (error) {
      setTold([
        error instanceof Problem
          ? error.message
          : _("The server does not answer. What you entered stays here: try again in a moment."),
      ]);
    }
  };
  if (imports.length === 0) return null;
  return (
    <section>
      <h2>{_("Imports so far")}</h2>
      <div role="status" class="told" data-testid="undo-told">
        {told.map((one) => (
          <p key={one}>{one}</p>
        ))}
      </div>
      <ul class="rows" data-testid="imports-so-far">
        {imports.map((one) => (
          <Entry key={one.id} of={one} onUndo={undo} />
        ))}
      </ul>
    </section>
  );
}

function Entry({ of, onUndo }: { of: Import; onUndo: (id: string) => Promise<void> }) {
  const [sure, setSure] = useState(false);
  const what = ngettext(
    "%(day)s, %(name)s: %(n)s fencer",
    "%(day)s, %(name)s: %(n)s fencers",
    of.added,
    {
      day: dayWords(of.at),
      name: of.name ?? "",
    },
  );
  return (
    <li>
      <span>
        {what} {of.undone ? <small>{_("taken back")}</small> : null}
      </span>
      {of.left === 0 || of.undone ? null : sure ? (
        <div class="sure">
          <p>
            {ngettext(
              "Take it back? %(n)s fencer is erased; whoever has had a lesson, is booked or has a progress link stays.",
              "Take it back? %(n)s fencers are erased; whoever has had a lesson, is booked or has a progress link stays.",
              of.left,
            )}
          </p>
          <div class="enter">
            <button
              type="button"
              class="plain"
              data-testid="undo-yes"
              onClick={() => onUndo(of.id)}
            >
              {_("Yes, take it back")}
            </button>
            <button type="button" class="plain" onClick={() => setSure(false)}>
              {_("Cancel")}
            </button>
          </div>
        </div>
      ) : (
        <button
          type="button"
          class="quiet"
          aria-label={_("Undo the import of %(what)s", { what })}
          data-testid="undo-import"
          onClick={() => setSure(true)}
        >
          {_("Undo")}
        </button>
      )}
    </li>
  );
}

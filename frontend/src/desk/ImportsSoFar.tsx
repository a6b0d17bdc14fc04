/** The latest imports, and the way to take one back. */
import { useEffect, useState } from "preact/hooks";
import { Problem } from "../device/api";
import { thePhone } from "../phone";
import { peopleWords } from "../words.people";
import { dayWords } from "./Exact";

const said = peopleWords.imports;

interface Import {
  id: string;
  at: string;
  name: string | null;
  added: number;
  left: number;
  undone: string | null;
}

interface Undone {
  gone: number;
  stay: { id: string; nickname: string; why: string }[];
}

/** @param again asked again when it changes */
export function ImportsSoFar({ again }: { again: unknown }) {
  const [imports, setImports] = useState<Import[]>([]);
  const [told, setTold] = useState<string[]>([]);
  const load = async () => {
    const reply = await thePhone().api.get<{ imports: Import[] }>("/api/imports");
    setImports(reply.imports);
  };
  useEffect(() => {
    void load().catch(console.warn);
  }, [again]);
  const undo = async (id: string) => {
    try {
      const { gone, stay } = await thePhone().api.send<Undone>("DELETE", `/api/imports/${id}`);
      setTold([said.gone(gone), ...stay.map((one) => said.stays(one.nickname, one.why))]);
      await load();
      await thePhone().queue.kick("all");
    } catch (error) {
      setTold([error instanceof Problem ? error.message : said.away]);
    }
  };
  if (imports.length === 0) return null;
  return (
    <section>
      <h2>{said.latest}</h2>
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
  const what = said.entry(dayWords(of.at), of.name ?? "", of.added);
  return (
    <li>
      <span>
        {what} {of.undone ? <small>{said.undone}</small> : null}
      </span>
      {of.left === 0 || of.undone ? null : sure ? (
        <div class="sure">
          <p>{said.sure(of.left)}</p>
          <div class="enter">
            <button
              type="button"
              class="plain"
              data-testid="undo-yes"
              onClick={() => onUndo(of.id)}
            >
              {said.yes}
            </button>
            <button type="button" class="plain" onClick={() => setSure(false)}>
              {peopleWords.cancel}
            </button>
          </div>
        </div>
      ) : (
        <button
          type="button"
          class="quiet"
          aria-label={said.undoOf(what)}
          data-testid="undo-import"
          onClick={() => setSure(true)}
        >
          {said.undo}
        </button>
      )}
    </li>
  );
}

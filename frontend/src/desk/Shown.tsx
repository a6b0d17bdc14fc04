/** Something that is shown once: a link, its QR code, the code to type. */
import { useRef, useState } from "preact/hooks";
import { accessWords } from "../words.access";

export interface OneTime {
  code: string;
  url: string;
  seconds: number;
  svg: string;
}

const said = accessWords.shown;
const HERE_ONLY = /^(localhost|127\.|\[::1\])/;

export function Shown({ of, lasts }: { of: OneTime; lasts: string }) {
  const field = useRef<HTMLInputElement>(null);
  const [told, setTold] = useState("");
  const copy = async () => {
    field.current?.select();
    try {
      await navigator.clipboard.writeText(of.url);
      setTold(said.copied);
    } catch {
      setTold(said.select);
    }
  };
  return (
    <div class="shown" data-testid="shown">
      <img class="qr" alt={said.picture} src={`data:image/svg+xml,${encodeURIComponent(of.svg)}`} />
      <div>
        <p class="code-large" data-testid="shown-code">
          {of.code}
        </p>
        <p>{lasts}</p>
        <p class="soft">{said.once}</p>
        {HERE_ONLY.test(new URL(of.url).hostname) ? <p class="trouble">{said.localOnly}</p> : null}
        <label class="field">
          <span>{said.address}</span>
          <input ref={field} readOnly value={of.url} data-testid="shown-address" />
        </label>
        <button type="button" class="plain" onClick={copy}>
          {said.copy}
        </button>
        <p role="status">{told}</p>
      </div>
    </div>
  );
}

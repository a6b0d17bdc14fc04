/** A one-time link with its QR code and the code to type; shown once. */
import { useRef, useState } from "preact/hooks";
import { _ } from "../language/i18n";
import "./oneTimeLink.css";

export interface OneTime {
  code: string;
  url: string;
  seconds: number;
  svg: string;
}

const HERE_ONLY = /^(localhost|127\.|\[::1\])/;

export function OneTimeLink({ of, lasts }: { of: OneTime; lasts: string }) {
  const field = useRef<HTMLInputElement>(null);
  const [told, setTold] = useState("");
  const copy = async () => {
    field.current?.select();
    try {
      await navigator.clipboard.writeText(of.url);
      setTold(_("Copied."));
    } catch {
      setTold(_("The link is selected: copy it by hand."));
    }
  };
  return (
    <div class="shown" data-testid="shown">
      <img
        class="qr"
        alt={_("QR code of the link")}
        src={`data:image/svg+xml,${encodeURIComponent(of.svg)}`}
      />
      <div>
        <p class="code-large" data-testid="shown-code">
          {of.code}
        </p>
        <p>{lasts}</p>
        <p class="soft">{_("Shown only this once: it is not kept anywhere in readable form.")}</p>
        {HERE_ONLY.test(new URL(of.url).hostname) ? (
          <p class="trouble">
            {_(
              "This link works on this computer only. To reach other devices, open Cue Ladder here at the address they use, then make a new one.",
            )}
          </p>
        ) : null}
        <label class="field">
          <span>{_("The link")}</span>
          <input ref={field} readOnly value={of.url} data-testid="shown-address" />
        </label>
        <button type="button" class="plain" onClick={copy}>
          {_("Copy the link")}
        </button>
        <p role="status">{told}</p>
      </div>
    </div>
  );
}

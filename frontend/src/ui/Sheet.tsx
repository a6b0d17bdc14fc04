/** Modal sheet: at the bottom on a phone, centred on a desk. */
import type { ComponentChildren } from "preact";
import { useEffect, useRef } from "preact/hooks";
import { _ } from "../language/i18n";

interface Props {
  title: string;
  onClose: () => void;
  children: ComponentChildren;
}

export function Sheet({ title, onClose, children }: Props) {
  const box = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    const dialog = box.current;
    dialog?.showModal();
    return () => dialog?.close();
  }, []);
  const outside = (event: MouseEvent) => {
    if (event.target === box.current) onClose();
  };
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: Escape closes a dialog by itself
    <dialog ref={box} class="sheet" aria-label={title} onCancel={onClose} onClick={outside}>
      <div class="sheet-body">
        <header class="sheet-head">
          <h2>{title}</h2>
          <button type="button" class="quiet" onClick={onClose}>
            {_("Close")}
          </button>
        </header>
        {children}
      </div>
    </dialog>
  );
}

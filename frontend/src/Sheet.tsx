/** A sheet over the page: at the thumb on a phone, in the middle on a desk. */
import type { ComponentChildren } from "preact";
import { useEffect, useRef } from "preact/hooks";
import { words } from "./words";

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
            {words.close}
          </button>
        </header>
        {children}
      </div>
    </dialog>
  );
}

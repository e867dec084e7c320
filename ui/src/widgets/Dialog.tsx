/** A sheet above the page; it is open while it is there. */
import type { ComponentChildren } from "preact";
import { useEffect, useId, useRef } from "preact/hooks";

import { forms as t } from "../texts/forms";

interface Props {
  title: string;
  onClose: () => void;
  children: ComponentChildren;
  /** Word of the button that closes it. */
  close?: string;
}

/** Escape and the button close it; the focus goes back to where it was. */
export function Dialog({ title, onClose, children, close = t.close }: Props) {
  const sheet = useRef<HTMLDialogElement>(null);
  const name = useId();
  useEffect(() => {
    const before = document.activeElement;
    sheet.current?.showModal?.();
    return () => {
      if (before instanceof HTMLElement) before.focus();
    };
  }, []);
  return (
    <dialog ref={sheet} aria-labelledby={name} onClose={onClose}>
      <h2 id={name}>{title}</h2>
      {children}
      <p class="doings">
        <button type="button" class="plain" onClick={onClose}>
          {close}
        </button>
      </p>
    </dialog>
  );
}

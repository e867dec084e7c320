/** Small parts that every page is made of. */
import type { ComponentChildren } from "preact";
import { useLayoutEffect, useRef, useState } from "preact/hooks";
import { caseHash } from "../state/route";
import { pages as t } from "../texts/pages";
import { Mark } from "../widgets/Mark";
import { clock } from "./ask";
import type { Level } from "./shapes";

/** The head of a page: its title, one line below it, and what can be done. */
export function Head({ title, lead, children }: { title: string; lead?: string; children?: ComponentChildren }) {
  return (
    <header class="page-head">
      <h1 tabIndex={-1}>{title}</h1>
      {lead ? <p class="lead">{lead}</p> : null}
      {children ? <div class="doings no-print">{children}</div> : null}
    </header>
  );
}

/** What went wrong, said at once, with a way to try again. */
export function TroubleBox({ trouble, again }: { trouble: string | null; again?: () => void }) {
  if (!trouble) return null;
  return (
    <div class="trouble" role="alert">
      <p>{trouble}</p>
      {again ? (
        <button type="button" class="plain" onClick={again}>
          {t.trouble.again}
        </button>
      ) : null}
    </div>
  );
}

/** Words while nothing is known yet. */
export function Waiting({ text = t.waiting }: { text?: string }) {
  return (
    <p class="waiting" role="status">
      {text}
    </p>
  );
}

/** A state as the pages tell it: its shape, and its word. */
export function StateMark({ state, word }: { state: Level; word?: string }) {
  return <Mark state={state === "answered" ? "none" : state} word={word ?? t.states[state]} />;
}

/** A button whose doing must be said yes to; what it does stands beside the two answers. */
export function Confirmed(props: { word: string; ask: string; yes: string; label?: string; run: () => void }) {
  const [open, setOpen] = useState(false);
  const yes = useRef<HTMLButtonElement>(null);
  const first = useRef<HTMLButtonElement>(null);
  const was = useRef(false);
  useLayoutEffect(() => {
    if (open) yes.current?.focus();
    else if (was.current) first.current?.focus();
    was.current = open;
  }, [open]);
  if (!open)
    return (
      <button type="button" class="plain no-print" ref={first} aria-label={props.label} onClick={() => setOpen(true)}>
        {props.word}
      </button>
    );
  const keys = (event: KeyboardEvent) => event.key === "Escape" && setOpen(false);
  return (
    <div class="confirm no-print" role="group" aria-label={props.ask} onKeyDown={keys}>
      <p>{props.ask}</p>
      <button
        type="button"
        class="firm"
        ref={yes}
        onClick={() => {
          setOpen(false);
          props.run();
        }}
      >
        {props.yes}
      </button>
      <button type="button" class="plain" onClick={() => setOpen(false)}>
        {t.leave_it}
      </button>
    </div>
  );
}

/** Address of the sheet of one number. */
export function numberLink(id: string, path: string): string {
  return `${caseHash(id, "sources")}/${encodeURIComponent(path)}`;
}

/** Print on the paper at hand, and on nothing else. */
export function PrintButton({ word }: { word: string }) {
  return (
    <button type="button" class="plain" onClick={() => window.print()}>
      {word}
    </button>
  );
}

/** When a sheet was printed, told on the sheet alone. */
export function PrintedAt() {
  const place = useRef<HTMLSpanElement>(null);
  useLayoutEffect(() => {
    const tell = () => {
      if (place.current) place.current.textContent = t.printed_at(clock(new Date().toISOString()));
    };
    tell();
    addEventListener("beforeprint", tell);
    return () => removeEventListener("beforeprint", tell);
  }, []);
  return <span class="printed-at" ref={place} />;
}

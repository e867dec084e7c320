/** The line above every page: where one is, who writes, how light it is. */
import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";

import { app } from "../state/form";
import { person, tellPerson } from "../state/person";
import { Dialog } from "../widgets/Dialog";
import { frame as t } from "../texts/frame";
import { chooseTheme, theme, THEMES, type Theme } from "./theme";

/** `children` stand in its middle. */
export function Head({ children }: { children?: ComponentChildren }) {
  return (
    <header class="head">
      <a class="head-name" href="#/" aria-label={t.home_link}>
        <svg viewBox="0 0 32 32" width="28" height="28" aria-hidden="true">
          <path d="M2 8h28" class="logo-line" />
          <path d="M16 8c-5 0-7 3-7 6 0 3 3 5 5 8h4c2-3 5-5 5-8 0-3-2-6-7-6z" class="logo-line" />
          <path d="M16 22v3" class="logo-line" />
          <path d="M11 25h10v5H11z" class="logo-load" />
        </svg>
        <span>{t.name}</span>
      </a>
      <div class="head-middle">{children}</div>
      <div class="head-end no-print">
        <Writer />
        <Light />
      </div>
      {app.value?.demo ? <p class="head-demo no-print">{t.demo}</p> : null}
    </header>
  );
}

function Light() {
  return (
    <label class="light">
      <span>{t.theme.label}</span>
      <select value={theme.value} onChange={(event) => chooseTheme(event.currentTarget.value as Theme)}>
        {THEMES.map((one) => (
          <option key={one} value={one}>
            {t.theme[one]}
          </option>
        ))}
      </select>
    </label>
  );
}

function Writer() {
  const [open, setOpen] = useState(false);
  return (
    <>
      <button type="button" class="plain small" onClick={() => setOpen(true)}>
        {t.who.button(person.value)}
      </button>
      {open ? (
        <Dialog title={t.who.label} onClose={() => setOpen(false)}>
          <label class="field">
            <span class="label">{t.who.label}</span>
            <span class="help">{t.who.help}</span>
            <input
              type="text"
              maxLength={80}
              autocomplete="name"
              value={person.value}
              onInput={(event) => tellPerson(event.currentTarget.value)}
            />
          </label>
        </Dialog>
      ) : null}
    </>
  );
}

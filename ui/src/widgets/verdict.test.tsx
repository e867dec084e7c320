import { act, cleanup, render, screen } from "@testing-library/preact";
import { afterEach, beforeEach, describe, expect, it } from "vitest";

import { CaseStore, KitStore } from "../state/store";
import type { CaseSaid, Fault, PlanSaid } from "../state/types";
import { Verdict } from "./Verdict";

const said = (revision: number): CaseSaid => ({
  id: "c",
  revision,
  title: "",
  changed_at: "",
  document: {},
  undo_what: null,
  redo_what: null,
  shown: {},
  kit_id: "k",
  kit_revision: 1,
  parent: null,
  variant: null,
});

const answer = (revision: number, more: Partial<PlanSaid> = {}): PlanSaid => ({
  case_id: "c",
  revision,
  kit_revision: 1,
  digest: "",
  plan: { verdict: { line: "No stop found in what you told me.", stops: 0, unanswered: 0, cautions: 2, lifted: 0 } },
  faults: [],
  stages: {},
  findings: [],
  missing: [],
  numbers: [],
  ...more,
});

describe("the verdict", () => {
  let store: CaseStore;
  const shown = () => document.querySelector("[data-verdict]")?.getAttribute("data-verdict");

  beforeEach(() => {
    localStorage.clear();
    store = new CaseStore("c", () => new KitStore("k"));
    store.said.value = said(2);
  });
  afterEach(cleanup);

  it("stands there for exactly this revision", () => {
    store.answer.value = answer(2);
    render(<Verdict store={store} />);
    expect(shown()).toBe("known");
    expect(screen.getByText(/No stop found/)).toBeTruthy();
    expect(screen.getByText("2 cautions")).toBeTruthy();
  });

  it("is away, word and all, for any other revision of case or kit", () => {
    for (const other of [answer(1), answer(3), answer(2, { kit_revision: 2 })]) {
      store.answer.value = other;
      render(<Verdict store={store} />);
      expect(shown()).toBe("working");
      expect(screen.queryByText(/No stop found/)).toBeNull();
      cleanup();
    }
  });

  it("goes away as soon as something is heard of, without being asked", () => {
    store.answer.value = answer(2);
    render(<Verdict store={store} />);
    act(() => {
      store.newest.value = 3;
    });
    expect(shown()).toBe("working");
  });

  it("names what cannot be read, and leads to it", () => {
    const fault: Fault = {
      path: ["site", "depth"],
      key: "site.depth",
      of: "case",
      what: "the unit is missing",
      given: null,
      allowed: null,
      do: null,
    };
    store.answer.value = answer(2, { plan: null, faults: [fault, { ...fault, of: "kit", key: "bag[1].id" }] });
    render(<Verdict store={store} />);
    expect(shown()).toBe("wrong");
    const links = screen.getAllByRole("link").map((link) => link.getAttribute("href"));
    expect(links).toEqual(["#/case/c/call?at=site.depth", "#/kit/k?at=bag%5B1%5D.id"]);
  });

  it("says stop with its shape and its word", () => {
    const line = "STOP: 2 stops hold.";
    store.answer.value = answer(2, { plan: { verdict: { line, stops: 2, unanswered: 0, cautions: 0, lifted: 0 } } });
    render(<Verdict store={store} />);
    expect(document.querySelector(".mark-stop svg")).toBeTruthy();
    expect(screen.getByText(line)).toBeTruthy();
  });
});

import { cleanup, fireEvent, render, screen, within } from "@testing-library/preact";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";

import { applied } from "../state/paths";
import { KitStore } from "../state/store";
import type { Change, Document, Fault, FormField, KitSaid } from "../state/types";
import { Field, Fields } from "./Fields";
import { Rows } from "./Rows";

const field = (more: Partial<FormField>): FormField => ({
  key: "mass",
  label: "Mass",
  help: "Mass in air.",
  type: "value",
  kind: "mass",
  units: ["kg", "lb"],
  choices: [],
  open: true,
  kit: null,
  needed: false,
  unknown_ok: true,
  default: null,
  fields: [],
  ...more,
});

/** A store that keeps what is written, and sends nothing. */
function open(document: Document, more: Partial<KitSaid> = {}): KitStore {
  const store = new KitStore("k");
  store.said.value = {
    id: "k",
    revision: 1,
    title: "",
    changed_at: "",
    document,
    undo_what: null,
    redo_what: null,
    shown: {},
    faults: [],
    ...more,
  };
  vi.spyOn(store, "edit").mockImplementation((changes: Change[]) => {
    const said = store.said.value;
    if (said) store.said.value = { ...said, document: applied(said.document, changes) };
  });
  return store;
}

beforeEach(() => localStorage.clear());
afterEach(cleanup);

describe("a value", () => {
  it("shows its text, both systems of units, and writes every letter", () => {
    const store = open(
      { bag: [{ mass: "46 ± 4 kg" }] },
      { shown: { "bag[1].mass": { metric: "46 kg (42 to 50)", imperial: "101 lb (93 to 110)", range: null } } },
    );
    render(<Field store={store} field={field({})} path={["bag", 0, "mass"]} />);
    const box = screen.getByLabelText<HTMLInputElement>("Mass");
    expect(box.value).toBe("46 ± 4 kg");
    expect(screen.getByText("46 kg (42 to 50) = 101 lb (93 to 110)")).toBeTruthy();
    fireEvent.input(box, { target: { value: "46 k" } });
    expect(store.document.value).toEqual({ bag: [{ mass: "46 k" }] });
  });

  it("tells its fault beside it, tied to the box", () => {
    const fault: Fault = {
      path: ["bag", 0, "mass"],
      key: "bag[1].mass",
      of: "kit",
      what: "the unit is missing",
      given: "46",
      allowed: "kg, lb",
      do: null,
    };
    const store = open({ bag: [{ mass: "46" }] }, { faults: [fault] });
    const { container } = render(<Field store={store} field={field({})} path={["bag", 0, "mass"]} />);
    const box = screen.getByLabelText("Mass");
    const told = container.querySelector("[data-key='bag[1].mass'] .fault");
    expect(told?.textContent).toBe("The unit is missing. Allowed: kg, lb.");
    expect(box.getAttribute("aria-invalid")).toBe("true");
    expect(box.getAttribute("aria-describedby")?.split(" ")).toContain(told?.id);
  });

  it("offers units, a spread and 'not known' when it is entered", () => {
    const store = open({ bag: [{ mass: "46" }] });
    render(<Field store={store} field={field({})} path={["bag", 0, "mass"]} />);
    expect(screen.queryByRole("button")).toBeNull();
    fireEvent.focus(screen.getByLabelText("Mass"));
    fireEvent.click(screen.getByRole("button", { name: "lb" }));
    expect(store.document.value).toEqual({ bag: [{ mass: "46 lb" }] });
    fireEvent.click(screen.getByRole("button", { name: "Not known" }));
    expect(store.document.value).toEqual({ bag: [{ mass: "unknown" }] });
  });

  it("lets Tab go on to the next field, and arrows go to the picks and back", () => {
    const store = open({ bag: [{ mass: "46" }] });
    render(<Field store={store} field={field({})} path={["bag", 0, "mass"]} />);
    const box = screen.getByLabelText("Mass");
    fireEvent.focus(box);
    expect(screen.getAllByRole("button").map((pick) => pick.tabIndex)).toEqual([-1, -1, -1, -1, -1]);
    fireEvent.keyDown(box, { key: "ArrowDown" });
    fireEvent.keyDown(document.activeElement ?? box, { key: "ArrowRight" });
    expect(document.activeElement?.textContent).toBe("lb");
    fireEvent.keyDown(document.activeElement ?? box, { key: "Escape" });
    expect(document.activeElement).toBe(box);
  });

  it("takes its key away when it is emptied", () => {
    const store = open({ bag: [{ mass: "46 kg" }] });
    render(<Field store={store} field={field({})} path={["bag", 0, "mass"]} />);
    fireEvent.input(screen.getByLabelText("Mass"), { target: { value: "" } });
    expect(store.document.value).toEqual({ bag: [{}] });
  });
});

describe("words", () => {
  it("that are no choice stay visible", () => {
    const store = open({ team: { country: "open" } });
    render(
      <Field
        store={store}
        field={field({ key: "country", label: "Style", type: "word", choices: ["closed", "flap"] })}
        path={["team", "country"]}
      />,
    );
    expect(screen.getByText("open")).toBeTruthy();
    fireEvent.click(screen.getByLabelText("flap"));
    expect(store.document.value).toEqual({ team: { country: "flap" } });
  });

  it("of a number keep half a number as text", () => {
    const store = open({ team: {} });
    render(
      <Field
        store={store}
        field={field({ key: "n", label: "Count", type: "number", units: [] })}
        path={["team", "n"]}
      />,
    );
    const box = screen.getByLabelText("Count");
    fireEvent.input(box, { target: { value: "1x" } });
    expect(store.document.value).toEqual({ team: { n: "1x" } });
    fireEvent.input(box, { target: { value: "12" } });
    expect(store.document.value).toEqual({ team: { n: 12 } });
  });

  it("that are rare lie behind a button until something stands in them", () => {
    const store = open({ team: { spare: "x" } });
    const fields = ["name", "spare", "rare"].map((key) => field({ key, label: key, type: "text", units: [] }));
    render(<Fields store={store} fields={fields} path={["team"]} more={["spare", "rare"]} />);
    expect(screen.getByLabelText("spare")).toBeTruthy();
    expect(screen.queryByLabelText("rare")).toBeNull();
    fireEvent.click(screen.getByRole("button", { name: "More: rare" }));
    expect(screen.getByLabelText("rare")).toBeTruthy();
  });
});

describe("rows", () => {
  const bags = { label: "Bags", fields: [field({ key: "id", label: "Id", type: "text", units: [] })] };
  const ids = (store: KitStore) => (store.document.value["bag"] as { id?: string }[]).map((row) => row.id);

  it("are added where there were none", () => {
    const store = open({});
    render(<Rows store={store} field={bags} path={["bag"]} />);
    fireEvent.click(screen.getByRole("button", { name: "Add: Bags" }));
    expect(store.document.value).toEqual({ bag: [{}] });
  });

  it("are copied, moved and taken out by buttons that say of which row", () => {
    const store = open({ bag: [{ id: "A" }, { id: "B" }] });
    render(<Rows store={store} field={bags} path={["bag"]} />);
    fireEvent.click(screen.getByRole("button", { name: "Copy: A" }));
    expect(ids(store)).toEqual(["A", "A", "B"]);
    fireEvent.click(screen.getByRole("button", { name: "Up: B" }));
    expect(ids(store)).toEqual(["A", "B", "A"]);
    fireEvent.click(screen.getByRole("button", { name: "Take out: B" }));
    expect(ids(store)).toEqual(["A", "A"]);
    const first = screen.getAllByRole("group", { name: "A" })[0];
    expect(first && within(first).getByRole<HTMLButtonElement>("button", { name: "Up: A" }).disabled).toBe(true);
  });
});

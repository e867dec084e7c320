import { act, cleanup, fireEvent, render, screen } from "@testing-library/preact";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { Questions } from "./questions";

const question = (n: number, key: string, ask: string, type: string, choices: string[] = [], kind: string | null = null) => ({
  n,
  key,
  ask,
  help: "",
  type,
  kind,
  choices,
  path: [key],
  also: [],
});

const QUESTIONS = [
  question(1, "water", "Fresh water or sea?", "word", ["fresh", "sea"]),
  question(2, "depth", "How deep?", "value", [], "length"),
  question(3, "hazards", "May it be touched?", "words", ["fuel or oil", "ordnance", "none of these"]),
];

let sent: { path: string; body: unknown }[] = [];

beforeEach(() => {
  sent = [];
  localStorage.clear();
  vi.stubGlobal("scrollTo", () => undefined);
  vi.stubGlobal("fetch", (path: string, how?: RequestInit) => {
    if (how?.method === "POST") sent.push({ path, body: JSON.parse(String(how.body)) });
    const said = path.endsWith("/questions") ? { questions: QUESTIONS } : path.endsWith("/kits") ? { kits: [] } : { id: "made" };
    return Promise.resolve(new Response(JSON.stringify(said), { status: 200 }));
  });
});
afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
});

const settle = () => act(() => new Promise<void>((done) => setTimeout(done, 5)));
const press = async (name: string) => {
  fireEvent.click(screen.getByRole("button", { name }));
  await settle();
};

it("goes on at one press where one word is the whole answer, and back with that word kept", async () => {
  render(<Questions />);
  await settle();
  expect(screen.getByText("Question 1 of 3")).toBeTruthy();
  await press("sea");
  expect(screen.getByText("Question 2 of 3")).toBeTruthy();
  await press("Back");
  expect(screen.getByRole("button", { name: "sea" }).getAttribute("aria-pressed")).toBe("true");
});

it("keeps what was answered when the page is opened again", async () => {
  const page = render(<Questions />);
  await settle();
  await press("fresh");
  fireEvent.input(screen.getByLabelText("About, or at least"), { target: { value: "8" } });
  fireEvent.input(screen.getByLabelText("At most, if you are not sure"), { target: { value: "14" } });
  await settle();
  page.unmount();
  render(<Questions />);
  await settle();
  expect(screen.getByText("Question 2 of 3")).toBeTruthy();
  expect(screen.getByText("Written: 8..14 m")).toBeTruthy();
});

it("sends what was told, as it was typed, and nothing for what is left open", async () => {
  render(<Questions />);
  await settle();
  await press("sea");
  await press("I do not know yet");
  await press("fuel or oil");
  await press("none of these");
  await press("ordnance");
  await press("Next question");
  expect(screen.getByText("2 answered, 1 left open")).toBeTruthy();
  await press("Make the case and answer");
  expect(sent[0]?.path).toBe("/api/cases");
  expect(sent[0]?.body).toMatchObject({ answers: { water: "sea", hazards: ["ordnance"] }, kit: null });
  expect(Object.keys((sent[0]?.body as { answers: object }).answers)).toEqual(["water", "hazards"]);
});

it("cannot say next to a question that nobody answered", async () => {
  render(<Questions />);
  await settle();
  expect(screen.getByRole("button", { name: "Next question" }).hasAttribute("disabled")).toBe(true);
});

import { act, cleanup, render, screen } from "@testing-library/preact";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { Refusal } from "../state/api";
import { tellNews } from "../state/news";
import { refusalWords, troubleWords, useAsked } from "./ask";

/** Answers that come when the test lets them come. */
let waiting: { path: string; say: (body: unknown, status?: number) => void }[] = [];

beforeEach(() => {
  waiting = [];
  vi.stubGlobal("fetch", (path: string) => {
    return new Promise((done) =>
      waiting.push({ path, say: (body, status = 200) => done(new Response(JSON.stringify(body), { status })) }),
    );
  });
});
afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
});

function Shown({ version, path = "/cases/a/tonight" }: { version: string | null; path?: string }) {
  const said = useAsked<{ line: string }>(path, version);
  return (
    <p>
      {said.holds ? said.data?.line : "away"} | {said.trouble ?? "no trouble"}
    </p>
  );
}

const words = () => document.querySelector("p")?.textContent ?? "";
const come = (index: number, body: unknown, status?: number) =>
  act(async () => {
    waiting[index]?.say(body, status);
    await Promise.resolve();
    await new Promise((done) => setTimeout(done));
  });

it("shows an answer only for the version that it was asked for", async () => {
  const page = render(<Shown version="1 1" />);
  await come(0, { line: "first" });
  expect(words()).toContain("first");
  page.rerender(<Shown version="2 1" />);
  expect(words()).toContain("away");
  await come(1, { line: "second" });
  expect(words()).toContain("second");
});

it("drops the answer to an earlier asking, in whichever order they come", async () => {
  const page = render(<Shown version="1 1" />);
  page.rerender(<Shown version="2 1" />);
  await come(1, { line: "second" });
  await come(0, { line: "first" });
  expect(words()).toContain("second");
});

it("shows nothing and asks nothing while it is not known what stands on the screen", async () => {
  const page = render(<Shown version="1 1" />);
  await come(0, { line: "first" });
  page.rerender(<Shown version={null} />);
  expect(words()).toContain("away");
  expect(waiting).toHaveLength(1);
});

it("never shows the answer to another address", async () => {
  const page = render(<Shown version="1 1" />);
  await come(0, { line: "first" });
  page.rerender(<Shown version="1 1" path="/cases/b/tonight" />);
  expect(words()).toContain("away");
});

it("tells a refusal in the words of the server, and takes the number away", async () => {
  const page = render(<Shown version="1 1" />);
  await come(0, { line: "first" });
  page.rerender(<Shown version="2 1" />);
  await come(1, { error: { what: "there is no plan: 1 values are written wrongly." } }, 422);
  expect(words()).toContain("there is no plan");
  expect(words()).not.toContain("first");
  expect(screen.queryByText("first")).toBeNull();
});

it("says who changed the same thing, and when", () => {
  const told = { what: "Look at it.", by: "Ada", at: "2026-11-25T21:00:00+00:00" };
  expect(refusalWords(409, told)).toMatch(/^Ada changed the same thing at .+\. Look at it\.$/);
  expect(troubleWords(new Refusal(404, { what: "no case with the id x is kept here" }))).toContain("no case");
  expect(refusalWords(409, { what: "" })).toContain("changed elsewhere");
});

it("asks again by itself when the server can be heard again", async () => {
  render(<Shown version="1 1" />);
  await come(0, {}, 503);
  expect(words()).toContain("does not answer");
  await act(async () => tellNews(null));
  await come(1, { line: "back" });
  expect(words()).toContain("back | no trouble");
});

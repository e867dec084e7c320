import { cleanup, render, screen } from "@testing-library/preact";
import { afterEach, expect, it } from "vitest";
import type { Missing } from "../state/types";
import { MissingList, weightOf } from "./missing_list";

afterEach(cleanup);

const row = (what: string, why: string, share: number | null, path: (string | number)[] = []): Missing => ({
  what,
  why,
  key: "object.part.anchor.mass",
  stage: "object",
  share,
  of: "case",
  path,
});

it("lists by how much it matters, and leads to the field", () => {
  const rows = [
    row("temperature", "a wide default stands in", null),
    row("the mass", "told with a spread", 0.63, ["object", "part", 0, "mass"]),
    row("who said yes", "Ask.", null),
    row("the depth", "needed", null),
  ];
  expect(rows.map(weightOf)).toEqual(["default", "spread", "open", "needed"]);
  render(<MissingList id="a" rows={rows} />);
  const links = screen.getAllByRole("link").map((link) => link.textContent);
  expect(links).toEqual(["the depth", "who said yes", "the mass", "temperature"]);
  const href = screen.getByRole("link", { name: "the mass" }).getAttribute("href") ?? "";
  expect(decodeURIComponent(href)).toBe("#/case/a/object?at=object.part[1].mass");
});

it("says it when nothing is missing", () => {
  render(<MissingList id="a" rows={[]} />);
  expect(screen.getByText("Nothing is missing.")).toBeTruthy();
});

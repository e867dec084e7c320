import { cleanup, fireEvent, render, screen } from "@testing-library/preact";
import { afterEach, expect, it } from "vitest";
import { SideBySide } from "./side_by_side";

afterEach(cleanup);

const SAID = {
  columns: [
    { id: "a", title: "Drum", variant: null, revision: 3 },
    { id: "b", title: "Drum", variant: "One open bag", revision: 1 },
  ],
  rows: [
    { section: "Lift", name: "Bags", cells: ["C25", "P50"], differs: true },
    { section: "Lift", name: "Way up", cells: ["bags", "bags"], differs: false },
    { section: "What the rules say", name: "STOP", cells: ["—", "It grows away."], differs: true },
  ],
};

it("marks what differs in words and shows the rest when asked", () => {
  render(<SideBySide said={SAID} holds below={() => null} />);
  expect(screen.getByText("2 rows differ, of 3.")).toBeTruthy();
  expect(screen.queryByText("Way up")).toBeNull();
  fireEvent.click(screen.getByRole("button", { name: "Only what differs" }));
  const alike = screen.getByText("Way up").closest("tr");
  const other = screen.getByText("Bags").closest("tr");
  expect(alike?.textContent).not.toContain("differs");
  expect(other?.textContent).toContain("differs");
});

it("takes the numbers away while they belong to another revision", () => {
  render(<SideBySide said={SAID} holds={false} below={() => null} />);
  expect(screen.getByText("P50").className).toBe("away");
  expect(screen.queryByText("2 rows differ, of 3.")).toBeNull();
});

import { expect, it } from "vitest";
import { kitDocument, type FirstRow } from "./kit_document";

it("keeps rows that have a name, and no empty ones", () => {
  const rows: Record<string, FirstRow[]> = {
    bag: [{ id: "B1", style: "open", capacity: " 50 l " }, { style: "open" }],
    cylinder: [{ use: "lifting" }],
    person: [{ name: "Ines", may: "bag tender" }, { may: "supervisor" }],
  };
  expect(kitDocument(" Crew ", rows)).toEqual({
    schema: 1,
    team: { name: "Crew" },
    bag: [{ id: "B1", style: "open", capacity: "50 l" }],
    person: [{ name: "Ines", may: ["bag tender"] }],
  });
});

it("is a kit without anything in it where nothing was typed", () => {
  expect(kitDocument("", { bag: [{ style: "open" }] })).toEqual({ schema: 1 });
});

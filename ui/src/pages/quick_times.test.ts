import { expect, it } from "vitest";
import { quickTimes } from "./quick_times";

it("tells tomorrow in the form that the case keeps, over the end of a year too", () => {
  expect(quickTimes(new Date(2026, 11, 31, 22, 5)).map((row) => row.value)).toEqual([
    "2027-01-01T08:00",
    "2027-01-01T10:00",
    "2027-01-01T13:00",
  ]);
});

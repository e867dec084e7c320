import { expect, it } from "vitest";
import { digits } from "./checks";

it("shows enough figures to compare two numbers, and no noise", () => {
  expect(digits(0.23553774789914073)).toBe("0.235538");
  expect(digits(0.30643000000000004, 2)).toBe("0.31");
  expect(digits(6)).toBe("6");
});

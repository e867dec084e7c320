/** A number that decides: large, with its band smaller behind it and its unit lighter. */
import { figure, THIN, type Band as Spread } from "./figures";
import { forms as t } from "../texts/forms";

interface Props {
  likely: number;
  low?: number;
  high?: number;
  unit?: string;
  digits?: number;
  large?: boolean;
}

/** 37 kg (34 to 40). */
export function NumberBand({ likely, low, high, unit = "", digits = 2, large = false }: Props) {
  const [from, to] = [low, high].map((value) => (value === undefined ? null : figure(value, digits)));
  return (
    <span class={large ? "number number-large" : "number"}>
      <span class="number-likely">{figure(likely, digits)}</span>
      {unit ? <span class="number-unit">{THIN + unit}</span> : null}
      {from && to && from !== to ? <span class="number-band">{` (${from} ${t.to} ${to})`}</span> : null}
    </span>
  );
}

/** The same from a band of the plan. */
export function Band({ of, ...rest }: { of: Spread } & Omit<Props, "likely" | "low" | "high">) {
  return <NumberBand {...rest} low={of.low} likely={of.likely} high={of.high} />;
}

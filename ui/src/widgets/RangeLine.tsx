/** A thin line from low to high with a tick at the likely value; lines under one another share one scale. */
interface Props {
  low: number;
  likely: number;
  high: number;
  from: number;
  to: number;
  label: string;
  limit?: number;
}

const HEIGHT = 16;

/** Drawn in hundredths of its width; the number itself stands in words above it. */
export function RangeLine({ low, likely, high, from, to, label, limit }: Props) {
  const span = to - from || 1;
  const place = (value: number) => `${Math.max(0, Math.min(100, (100 * (value - from)) / span))}%`;
  return (
    <svg class="range-line" width="100%" height={HEIGHT} role="img" aria-label={label}>
      <line x1="0" x2="100%" y1="8" y2="8" class="range-scale" />
      <line x1={place(low)} x2={place(high)} y1="8" y2="8" class="range-band" />
      <line x1={place(likely)} x2={place(likely)} y1="2" y2="14" class="range-likely" />
      {limit === undefined ? null : <line x1={place(limit)} x2={place(limit)} y1="0" y2={HEIGHT} class="range-limit" />}
    </svg>
  );
}

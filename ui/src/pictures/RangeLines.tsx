/** Bands compared on one scale that begins at zero: a thin line from low to high, a tick at the likely value. */
import type { JSX } from "preact";
import { pictures } from "../texts/pictures";
import { type Board, Picture } from "./board";
import { type Kind, band, one } from "./figures";
import { Labels, widthOf } from "./labels";
import type { Band, Units } from "./plan";

const words = pictures.range;
const ROW = 50;

export type RangeRow = { name: string; band: Band | null | undefined };

export function RangeLines(props: {
  rows: RangeRow[];
  kind?: Kind;
  units?: Units;
  limit?: { at: number; text: string } | null;
  title?: string;
  caption?: string;
}): JSX.Element {
  const { kind = "mass", units = "metric", limit = null } = props;
  const rows = props.rows.filter((row): row is { name: string; band: Band } => Boolean(row.band));
  if (!rows.length) return <p class="pic-empty">{pictures.nothing}</p>;
  const top = limit ? 26 : 2;
  return (
    <Picture
      title={props.title ?? words.title}
      caption={props.caption ?? words.caption}
      heightOf={() => rows.length * ROW + top + 6}
      draw={(board) => drawLines(board, rows, top, limit, kind, units)}
      table={{
        head: [...words.columns],
        rows: [
          ...rows.map((row) => [row.name, one(row.band.low, kind, units), one(row.band.likely, kind, units), one(row.band.high, kind, units)]),
          ...(limit ? [[limit.text, "", one(limit.at, kind, units), ""]] : []),
        ],
      }}
    />
  );
}

function drawLines(board: Board, rows: { name: string; band: Band }[], top: number, limit: { at: number; text: string } | null, kind: Kind, units: Units): JSX.Element {
  const { width, height } = board;
  const most = Math.max(limit?.at ?? 0, ...rows.map((row) => row.band.high)) * 1.06 || 1;
  const x = (value: number): number => 2 + (value / most) * (width - 4);
  const free = new Labels(width, height);
  return (
    <g aria-hidden="true">
      {rows.map((row, n) => {
        const y = top + n * ROW + 32;
        const text = band(row.band, kind, units);
        const value = width - widthOf(text, 15, true);
        return (
          <g key={row.name}>
            <text x={0} y={y - 14} class="pic-word">
              {value < widthOf(row.name) + 12 ? `${row.name.slice(0, 18)}…` : row.name}
            </text>
            <text x={free.width} y={y - 14} text-anchor="end" class="pic-word pic-bold">
              {text}
            </text>
            <path d={`M${x(0)},${y}H${x(most)}`} class="pic-grid" />
            <path d={`M${x(row.band.low)},${y - 5}V${y + 5}M${x(row.band.low)},${y}H${x(row.band.high)}M${x(row.band.high)},${y - 5}V${y + 5}`} class="pic-firm" />
            <path d={`M${x(row.band.likely)},${y - 9}V${y + 9}`} class="pic-line pic-go" />
          </g>
        );
      })}
      {limit ? (
        <g>
          <path d={rows.map((_, n) => `M${x(limit.at)},${top + n * ROW + 22}v20`).join("")} class="pic-line" />
          <text x={x(limit.at)} y={15} text-anchor={limit.at / most > 0.5 ? "end" : "start"} class="pic-word pic-bold">
            {limit.text}
          </text>
        </g>
      ) : null}
    </g>
  );
}

/** Bars on one scale, each with its name over it: what rigging carries, what drives the weight, chances by pattern. */
import type { JSX } from "preact";
import { type Board, Picture, type Rows } from "./board";
import { widthOf } from "./labels";

export type BarRow = {
  name: string;
  value: number | null; // share of the scale's unit
  text: string;
  bad?: boolean; // over the limit: crossed, and the words say so
  low?: number;
  high?: number;
};

const ROW = 52;
const THICK = 14;

export function Bars(props: {
  title: string;
  caption: string;
  rows: BarRow[];
  table: Rows;
  most?: number;
  line?: { at: number; text: string } | null;
}): JSX.Element {
  const top = props.line ? 26 : 4;
  return (
    <Picture
      title={props.title}
      caption={props.caption}
      table={props.table}
      heightOf={() => props.rows.length * ROW + top + 4}
      draw={(board) => drawBars(board, props.rows, top, props.most, props.line ?? null)}
    />
  );
}

function drawBars(board: Board, rows: BarRow[], top: number, told: number | undefined, line: { at: number; text: string } | null): JSX.Element {
  const { width } = board;
  const most = told ?? Math.max(line?.at ?? 0, ...rows.map((row) => row.high ?? row.value ?? 0), 1e-9) * 1.04;
  const x = (value: number): number => 1 + (Math.min(Math.max(value, 0), most) / most) * (width - 3);
  return (
    <g aria-hidden="true">
      {rows.map((row, n) => {
        const y = top + n * ROW;
        const room = width - widthOf(row.text, 15, row.bad) - 18;
        return (
          <g key={`${row.name}${n}`}>
            <text x={0} y={y + 16} class="pic-word">
              {short(row.name, room)}
            </text>
            <text x={width - 1} y={y + 16} text-anchor="end" class={row.bad ? "pic-word pic-bold pic-alarm-fill" : "pic-word pic-bold"}>
              {row.text}
            </text>
            <path d={`M${x(0)},${y + 24 + THICK}H${x(most)}`} class="pic-grid" />
            {row.value === null ? (
              <rect x={x(0)} y={y + 24} width={x(most) - x(0)} height={THICK} class="pic-hair pic-dash" />
            ) : (
              <g>
                <rect x={x(0)} y={y + 24} width={Math.max(x(row.value) - x(0), 2)} height={THICK} class={row.bad ? "pic-paper" : "pic-ink"} />
                {row.bad ? <rect x={x(0)} y={y + 24} width={x(row.value) - x(0)} height={THICK} fill={board.hatch("short")} /> : null}
                {row.bad ? <rect x={x(0)} y={y + 24} width={x(row.value) - x(0)} height={THICK} class="pic-firm pic-alarm" /> : null}
              </g>
            )}
          </g>
        );
      })}
      {line ? (
        <g>
          <path d={rows.map((_, n) => `M${x(line.at)},${top + n * ROW + 19}v${THICK + 10}`).join("")} class="pic-line" />
          <text x={Math.min(x(line.at), width - 2)} y={15} text-anchor={line.at / most > 0.6 ? "end" : "start"} class="pic-word">
            {line.text}
          </text>
        </g>
      ) : null}
    </g>
  );
}

/** A name that fits: cut at a word, with a sign that something was cut; the table holds it whole. */
export function short(name: string, room: number): string {
  if (widthOf(name) <= room) return name;
  let text = name;
  while (text.length > 1 && widthOf(`${text}…`) > room) text = text.slice(0, -1);
  const space = text.lastIndexOf(" ");
  return `${space > text.length * 0.6 ? text.slice(0, space) : text}…`;
}

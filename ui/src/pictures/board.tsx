/** The frame of every picture: redrawn at its real width, a caption that says what to see, and the same as a table. */
import type { ComponentChildren, JSX } from "preact";
import { useCallback, useEffect, useId, useRef, useState } from "preact/hooks";
import { pictures as words } from "../texts/pictures";
import { type Box, Labels, type Word, forgetWidths } from "./labels";
import "./pictures.css";

export type Rows = { head: string[]; rows: string[][] };

/** What a drawing gets: its size, the hatches it may fill with, and a board for its words. */
export type Board = { width: number; height: number; hatch: (name: HatchName) => string; labels: Labels };
export type HatchName = "ground" | "nogo" | "rise" | "water" | "gas" | "short" | "load";

type Props = {
  title: string;
  caption?: ComponentChildren;
  table?: Rows;
  heightOf: (width: number) => number;
  draw: (board: Board) => ComponentChildren;
  below?: ComponentChildren;
  class?: string;
  least?: number;
  live?: boolean; // holds marks that can be moved
};

/** Width of an element, followed as it changes; the element may come and go. */
export function useWidth(first = 640): [(node: HTMLElement | null) => void, number] {
  const [width, setWidth] = useState(first);
  const paper = usePaper();
  const watch = useRef<ResizeObserver | null>(null);
  const hold = useCallback((node: HTMLElement | null): void => {
    watch.current?.disconnect();
    watch.current = null;
    if (!node) return;
    const read = (): void => {
      const wide = Math.floor(node.getBoundingClientRect().width);
      if (wide > 0) setWidth(wide);
    };
    read();
    if (typeof ResizeObserver === "undefined") return;
    watch.current = new ResizeObserver(read);
    watch.current.observe(node);
  }, []);
  return [hold, paper ? Math.min(width, PAPER) : width];
}

const PAPER = 640; // px of a page of A4 or Letter between its margins

/** True from just before the page is printed until it is done: pictures are drawn again at the width of the paper. */
function usePaper(): boolean {
  const [paper, setPaper] = useState(false);
  useEffect(() => {
    const [on, off] = [() => setPaper(true), () => setPaper(false)];
    window.addEventListener("beforeprint", on);
    window.addEventListener("afterprint", off);
    return () => {
      window.removeEventListener("beforeprint", on);
      window.removeEventListener("afterprint", off);
    };
  }, []);
  return paper;
}

/** Draw again when the typeface has come, so that words are measured with it. */
export function useTypeface(): void {
  const [, again] = useState(0);
  useEffect(() => {
    let there = true;
    const fonts = typeof document === "undefined" ? undefined : document.fonts;
    void fonts?.ready?.then(() => {
      if (!there) return;
      forgetWidths();
      again((n) => n + 1);
    });
    return () => {
      there = false;
    };
  }, []);
}

export function Picture({ title, caption, table, heightOf, draw, below, class: name, least = 240, live = false }: Props): JSX.Element {
  const id = useId();
  const [place, wide] = useWidth();
  useTypeface();
  const width = Math.max(wide, least);
  const height = Math.round(heightOf(width));
  const hatch = (one: HatchName): string => `url(#${id}-${one})`;
  const labels = new Labels(width, height);
  const drawn = draw({ width, height, hatch, labels });
  return (
    <figure class={`pic ${name ?? ""}`}>
      <div class="pic-room" ref={place}>
        <svg class="pic-svg" width={width} height={height} viewBox={`0 0 ${width} ${height}`} role={live ? "group" : "img"} aria-label={title}>
          <Hatches id={id} />
          {drawn}
          <Written labels={labels} />
        </svg>
      </div>
      {below}
      {caption ? <figcaption class="pic-caption">{caption}</figcaption> : null}
      {table?.rows.length ? <AsTable title={title} table={table} /> : null}
    </figure>
  );
}

/** The words of a board, with paper behind them. */
export function Written({ labels }: { labels: Labels }): JSX.Element {
  return (
    <g aria-hidden="true">
      {labels.strings.map((row, n) => (
        <line key={`s${n}`} class="pic-hair" {...row} />
      ))}
      {labels.words.map((word, n) => (
        <Said key={n} word={word} />
      ))}
    </g>
  );
}

function Said({ word }: { word: Word }): JSX.Element {
  return (
    <text x={word.x} y={word.y} text-anchor={word.anchor} class={word.bold ? "pic-word pic-bold" : "pic-word"}>
      {word.text}
    </text>
  );
}

export function AsTable({ title, table }: { title: string; table: Rows }): JSX.Element {
  return (
    <details class="pic-table">
      <summary>{words.asTable}</summary>
      <div class="pic-scroll" tabIndex={0} role="region" aria-label={title}>
        <table>
          <caption class="pic-unseen">{title}</caption>
          <thead>
            <tr>
              {table.head.map((cell) => (
                <th key={cell} scope="col">
                  {cell}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {table.rows.map((row, n) => (
              <tr key={n}>
                {row.map((cell, k) =>
                  k === 0 ? (
                    <th key={k} scope="row">
                      {cell}
                    </th>
                  ) : (
                    <td key={k}>{cell}</td>
                  ),
                )}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </details>
  );
}

/** Hatches instead of tints: ground at 45°, keep out crossed at 30°, may come up at 45° wide, water level. */
export function Hatches({ id }: { id: string }): JSX.Element {
  return (
    <defs>
      <Hatch id={`${id}-ground`} gap={6} turns={[45]} />
      <Hatch id={`${id}-nogo`} gap={8} turns={[30, 150]} />
      <Hatch id={`${id}-rise`} gap={11} turns={[45]} />
      <Hatch id={`${id}-water`} gap={4} turns={[0]} />
      <Hatch id={`${id}-gas`} gap={9} turns={[135]} />
      <Hatch id={`${id}-short`} gap={5} turns={[45, 135]} />
      <Hatch id={`${id}-load`} gap={5} turns={[90]} />
    </defs>
  );
}

function Hatch({ id, gap, turns }: { id: string; gap: number; turns: number[] }): JSX.Element {
  // One tile holds one set of lines; two sets need two rectangles, so a crossed hatch is drawn as a rhombus tile.
  const [turn = 0] = turns;
  if (turns.length === 1) {
    return (
      <pattern id={id} width={gap} height={gap} patternUnits="userSpaceOnUse" patternTransform={`rotate(${-turn})`}>
        <line x1={0} y1={gap / 2} x2={gap} y2={gap / 2} class="pic-hatch" />
      </pattern>
    );
  }
  const lean = Math.tan((turn * Math.PI) / 180);
  const wide = gap / Math.sin((turn * Math.PI) / 180);
  const high = wide * lean;
  return (
    <pattern id={id} width={wide} height={high} patternUnits="userSpaceOnUse">
      <path d={`M0,0 L${wide},${high} M0,${high} L${wide},0`} class="pic-hatch" />
    </pattern>
  );
}

export const path = (points: readonly (readonly [number, number])[], close = false): string =>
  points.length ? `M${points.map(([x, y]) => `${x.toFixed(1)},${y.toFixed(1)}`).join("L")}${close ? "Z" : ""}` : "";

export const boxOf = (x: number, y: number, half: number): Box => [x - half, y - half, x + half, y + half];

/** A scale bar: its length in shown units, drawn from its left end. */
export function ScaleBar({ x, y, length, text }: { x: number; y: number; length: number; text: string }): JSX.Element {
  return (
    <g aria-hidden="true">
      <path d={`M${x},${y - 4}V${y + 4}M${x},${y}H${x + length}M${x + length},${y - 4}V${y + 4}`} class="pic-firm" />
      <text x={x + length + 5} y={y + 5} class="pic-word">
        {text}
      </text>
    </g>
  );
}

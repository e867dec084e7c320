/** Words on a drawing: never one over another. Widths are measured where the browser can. */

export type Anchor = "start" | "middle" | "end";
export type Box = [number, number, number, number]; // left, top, right, bottom
export type Word = { text: string; x: number; y: number; anchor: Anchor; bold: boolean; size: number };
export type Try = [number, number, Anchor];

export const TYPE = 15; // px; never smaller
const GAP = 18;

let brush: CanvasRenderingContext2D | null | undefined;
const widths = new Map<string, number>();

export function widthOf(text: string, size = TYPE, bold = false): number {
  const key = `${size}|${bold}|${text}`;
  const known = widths.get(key);
  if (known !== undefined) return known;
  if (brush === undefined) brush = canvas();
  let wide = text.length * size * (bold ? 0.53 : 0.5);
  if (brush) {
    brush.font = `${bold ? 600 : 400} ${size}px "Source Sans 3", "Source Sans Pro", "Helvetica Neue", Arial, sans-serif`;
    wide = brush.measureText(text).width || wide;
  }
  widths.set(key, wide);
  return wide;
}

function canvas(): CanvasRenderingContext2D | null {
  try {
    return document.createElement("canvas").getContext("2d") ?? null;
  } catch {
    return null;
  }
}

/** Widths that were measured before the typeface was there are measured again. */
export function forgetWidths(): void {
  widths.clear();
}

export class Labels {
  readonly words: Word[] = [];
  readonly strings: { x1: number; y1: number; x2: number; y2: number }[] = [];
  private taken: Box[] = [];

  constructor(
    readonly width: number,
    readonly height: number,
    readonly size = TYPE,
  ) {}

  keep(box: Box): void {
    this.taken.push(box);
  }

  /** Keep a line free of words. */
  keepLine(points: readonly (readonly [number, number])[], half = 2): void {
    for (let n = 1; n < points.length; n += 1) {
      const [a, b] = [points[n - 1], points[n]];
      if (!a || !b) continue;
      const steps = Math.max(1, Math.ceil(Math.hypot(b[0] - a[0], b[1] - a[1]) / 8));
      for (let k = 0; k <= steps; k += 1) {
        const x = a[0] + ((b[0] - a[0]) * k) / steps;
        const y = a[1] + ((b[1] - a[1]) * k) / steps;
        this.taken.push([x - half, y - half, x + half, y + half]);
      }
    }
  }

  /** Write at the first place with room; false where there is none. */
  put(text: string, tries: Try[], bold = false, must = false): boolean {
    for (const [x, y, anchor] of tries) {
      const box = this.box(text, x, y, anchor, bold);
      if (this.free(box)) {
        this.write(text, x, y, anchor, bold, box);
        return true;
      }
    }
    const first = tries[0];
    if (!must || !first) return false;
    const wide = widthOf(text, this.size, bold);
    const left = { start: 0, middle: wide / 2, end: wide }[first[2]];
    const x = Math.min(Math.max(first[0], left + 1), this.width - (wide - left) - 1);
    this.write(text, x, first[1], first[2], bold, this.box(text, x, first[1], first[2], bold));
    return true;
  }

  /** Write beside a mark, right or left of it, with a hair line where the words stand off. */
  beside(text: string, mark: [number, number], sides: [number, number], bold = false, rows = 4): boolean {
    const moves = [0];
    for (let n = 1; n <= rows; n += 1) moves.push(-n * GAP, n * GAP);
    const [right, left] = sides;
    for (const move of moves) {
      for (const [x, anchor] of [
        [right, "start"],
        [left, "end"],
      ] as [number, Anchor][]) {
        const y = mark[1] + 5 + move;
        const box = this.box(text, x, y, anchor, bold);
        if (!this.free(box)) continue;
        this.write(text, x, y, anchor, bold, box);
        if (Math.abs(x - mark[0]) > 10 || move) this.strings.push({ x1: mark[0], y1: mark[1], x2: x + (anchor === "start" ? -2 : 2), y2: y - 5 });
        return true;
      }
    }
    return false;
  }

  private write(text: string, x: number, y: number, anchor: Anchor, bold: boolean, box: Box): void {
    this.taken.push(box);
    this.words.push({ text, x, y, anchor, bold, size: this.size });
  }

  private box(text: string, x: number, y: number, anchor: Anchor, bold: boolean): Box {
    const wide = widthOf(text, this.size, bold) + 4;
    const left = x - { start: 2, middle: wide / 2, end: wide - 2 }[anchor];
    return [left, y - this.size * 0.82, left + wide, y + this.size * 0.28];
  }

  private free(box: Box): boolean {
    if (box[0] < 0 || box[1] < 0 || box[2] > this.width || box[3] > this.height) return false;
    return !this.taken.some((o) => box[0] < o[2] && o[0] < box[2] && box[1] < o[3] && o[1] < box[3]);
  }
}

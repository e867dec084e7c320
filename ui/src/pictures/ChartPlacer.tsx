/** The team's own chart under the map: a picture laid by two places that are known on it. For looking only. */
import type { JSX } from "preact";
import { useRef, useState } from "preact/hooks";
import { pictures } from "../texts/pictures";
import { inMinutes, readPlace, toMetres, type LatLon } from "./geo";
import type { View } from "./map_view";

const words = pictures.map;

export type Chart = { url: string; width: number; height: number; points: [ChartPoint, ChartPoint] };
export type ChartPoint = { x: number; y: number; place: LatLon }; // x and y in pixels of the picture

/** Turn, size and shift that bring both places where they belong; north need not be up on the chart. */
export function chartMatrix(chart: Chart, datum: LatLon, view: View): string {
  const [p, q] = chart.points;
  const [a, b] = [view.at(toMetres(datum, p.place)), view.at(toMetres(datum, q.place))];
  const [ux, uy] = [q.x - p.x, q.y - p.y];
  const [vx, vy] = [b[0] - a[0], b[1] - a[1]];
  const square = ux * ux + uy * uy || 1;
  const re = (vx * ux + vy * uy) / square;
  const im = (vy * ux - vx * uy) / square;
  return `matrix(${re} ${im} ${-im} ${re} ${a[0] - re * p.x + im * p.y} ${a[1] - im * p.x - re * p.y})`;
}

export function ChartPlacer(props: { chart: Chart | null; datum: LatLon; onChart: (chart: Chart | null) => void }): JSX.Element {
  const file = useRef<HTMLInputElement | null>(null);
  const [image, setImage] = useState<{ url: string; width: number; height: number } | null>(null);
  const [spots, setSpots] = useState<[number, number][]>([]);
  const [texts, setTexts] = useState<[string, string]>([inMinutes(props.datum), ""]);
  const [fault, setFault] = useState("");
  if (props.chart)
    return (
      <button type="button" onClick={() => props.onChart(null)}>
        {words.chartAway}
      </button>
    );
  const open = (picked: File | undefined): void => {
    if (!picked) return;
    const url = URL.createObjectURL(picked);
    const probe = new Image();
    probe.onload = () => {
      setImage({ url, width: probe.naturalWidth, height: probe.naturalHeight });
      setSpots([]);
    };
    probe.src = url;
  };
  const lay = (): void => {
    const [one, two] = texts.map(readPlace);
    const [a, b] = spots;
    if (!image || !a || !b) return;
    if (!one || !two) return setFault(words.chartBad);
    const [dx, dy] = toMetres(one, two);
    if (Math.hypot(dx, dy) < 1 || Math.hypot(a[0] - b[0], a[1] - b[1]) < 5) return setFault(words.chartSame);
    setFault("");
    props.onChart({ ...image, points: [{ x: a[0], y: a[1], place: one }, { x: b[0], y: b[1], place: two }] });
    setImage(null);
  };
  return (
    <>
      <button type="button" onClick={() => file.current?.click()}>
        {words.chart}
      </button>
      <input ref={file} class="pic-unseen" type="file" accept="image/*" tabIndex={-1} aria-label={words.chart} onChange={(event) => open(event.currentTarget.files?.[0])} />
      {image ? (
        <div class="pic-chart">
          <p>{spots.length < 2 ? `${words.chartAsk} ${words.chartPress(spots.length + 1)}.` : words.chartAsk}</p>
          <div class="pic-chart-room">
            <img
              src={image.url}
              alt={words.chartAsk}
              onClick={(event) => {
                const box = event.currentTarget.getBoundingClientRect();
                const spot: [number, number] = [((event.clientX - box.left) / box.width) * image.width, ((event.clientY - box.top) / box.height) * image.height];
                setSpots((then) => (then.length < 2 ? [...then, spot] : [spot]));
              }}
            />
            {spots.map(([x, y], n) => (
              <span key={n} class="pic-chart-spot" style={{ left: `${(x / image.width) * 100}%`, top: `${(y / image.height) * 100}%` }}>
                {n + 1}
              </span>
            ))}
          </div>
          {[0, 1].map((n) => (
            <label key={n}>
              {words.chartPoint(n + 1)}
              <input
                type="text"
                value={texts[n]}
                onInput={(event) => {
                  const text = event.currentTarget.value;
                  setTexts((then) => (n === 0 ? [text, then[1]] : [then[0], text]));
                }}
              />
            </label>
          ))}
          {fault ? <p role="alert">{fault}</p> : null}
          <button type="button" disabled={spots.length < 2} onClick={lay}>
            {words.chartLay}
          </button>
          <button type="button" onClick={() => setImage(null)}>
            {words.leave}
          </button>
        </div>
      ) : null}
    </>
  );
}

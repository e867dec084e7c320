/** Outlines of things at their real size: a bag, the water in it, a diver. */

export type Point = readonly [number, number];

/** A full bag above its ring. */
export function balloon(x: number, y: number, width: number, height: number): Point[] {
  const half: Point[] = [
    [0.06, 0],
    [0.3, 0.22],
    [0.46, 0.45],
    [0.5, 0.68],
    [0.42, 0.86],
    [0.24, 0.97],
    [0, 1],
  ];
  const right = half.map(([across, up]): Point => [x + across * width, y - up * height]);
  const left = half
    .slice(0, -1)
    .reverse()
    .map(([across, up]): Point => [x - across * width, y - up * height]);
  return [...right, ...left];
}

/** What of an outline lies below a level line; empty where nothing does. */
export function cutBelow(outline: readonly Point[], level: number): Point[] {
  const kept: Point[] = [];
  outline.forEach((a, n) => {
    const b = outline[(n + 1) % outline.length];
    if (!b) return;
    if (a[1] >= level) kept.push(a);
    if (a[1] < level !== b[1] < level) {
      const share = (level - a[1]) / (b[1] - a[1]);
      kept.push([a[0] + share * (b[0] - a[0]), level]);
    }
  });
  return kept;
}

/** A diver who lies level, from the head back to the fins: outlines at real size. */
export function diver(
  x: number,
  y: number,
  length: number,
  towards: 1 | -1,
): { head: [number, number, number]; body: string; tank: string; legs: string; fins: string } {
  const back = (share: number): number => x - towards * length * share;
  const down = (share: number): number => y + length * share;
  const [neck, hip, knee, foot, tip] = [0.09, 0.42, 0.6, 0.76, 1];
  return {
    head: [x, y, length * 0.068],
    body: `M${back(neck)},${down(-0.03)}C${back(0.18)},${down(-0.085)} ${back(0.32)},${down(-0.06)} ${back(hip)},${down(-0.035)}L${back(hip)},${down(0.05)}C${back(0.3)},${down(0.075)} ${back(0.18)},${down(0.085)} ${back(neck)},${down(0.05)}Z`,
    tank: `M${back(0.13)},${down(-0.125)}H${back(0.4)}V${down(-0.065)}H${back(0.13)}Z`,
    legs: `M${back(hip - 0.02)},${down(-0.01)}L${back(knee)},${down(-0.03)}L${back(foot)},${down(-0.055)}M${back(hip - 0.02)},${down(0.03)}L${back(knee)},${down(0.04)}L${back(foot)},${down(0.03)}`,
    fins: `M${back(foot - 0.02)},${down(-0.065)}L${back(tip)},${down(-0.12)}L${back(tip)},${down(-0.07)}L${back(foot)},${down(-0.045)}ZM${back(foot - 0.02)},${down(0.02)}L${back(tip)},${down(0.02)}L${back(tip)},${down(0.07)}L${back(foot)},${down(0.045)}Z`,
  };
}

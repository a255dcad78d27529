/** An elliptical arc of an SVG path as cubic curves (SVG 2, appendix B.2: from end points to centre). */

export interface Arc { readonly rx: number; readonly ry: number; /** of the x axis of the ellipse [degrees] */ readonly turn: number; readonly large: boolean; readonly clockwise: boolean }

/** Control points and end of one cubic curve. */
export type Curve = readonly [number, number, number, number, number, number];

/**
 * Curves of at most a quarter turn each; off by less than 0.03 % of the radius. Undefined: a radius is 0, and the arc is a straight line.
 * Where the radii cannot reach they grow until they do, as SVG asks.
 */
export function arcToCurves([x1, y1]: readonly [number, number], arc: Arc, [x2, y2]: readonly [number, number]): readonly Curve[] | undefined {
  if (x1 === x2 && y1 === y2) return [];
  let [rx, ry] = [Math.abs(arc.rx), Math.abs(arc.ry)];
  if (rx === 0 || ry === 0) return undefined;
  const [cos, sin] = [Math.cos((arc.turn * Math.PI) / 180), Math.sin((arc.turn * Math.PI) / 180)];
  // half the chord, in the axes of the ellipse
  const [hx, hy] = [(cos * (x1 - x2) + sin * (y1 - y2)) / 2, (-sin * (x1 - x2) + cos * (y1 - y2)) / 2];
  const reach = Math.hypot(hx / rx, hy / ry);
  if (reach > 1) [rx, ry] = [rx * reach, ry * reach];
  const share = (arc.large === arc.clockwise ? -1 : 1) * Math.sqrt(Math.max(0, 1 / Math.min(1, reach) ** 2 - 1));
  const [mx, my] = [(share * rx * hy) / ry, (-share * ry * hx) / rx];
  const [centreX, centreY] = [cos * mx - sin * my + (x1 + x2) / 2, sin * mx + cos * my + (y1 + y2) / 2];
  const from = Math.atan2((hy - my) / ry, (hx - mx) / rx);
  let sweep = Math.atan2((-hy - my) / ry, (-hx - mx) / rx) - from;
  if (arc.clockwise && sweep < 0) sweep += 2 * Math.PI;
  if (!arc.clockwise && sweep > 0) sweep -= 2 * Math.PI;
  const pieces = Math.max(1, Math.ceil(Math.abs(sweep) / (Math.PI / 2) - 1e-9));
  const step = sweep / pieces;
  const handle = (4 / 3) * Math.tan(step / 4);
  const place = (u: number, v: number): readonly [number, number] => [centreX + cos * rx * u - sin * ry * v, centreY + sin * rx * u + cos * ry * v];
  return Array.from({ length: pieces }, (_, index) => {
    const [a, b] = [from + index * step, from + (index + 1) * step];
    const end = index === pieces - 1 ? [x2, y2] as const : place(Math.cos(b), Math.sin(b));
    return [...place(Math.cos(a) - handle * Math.sin(a), Math.sin(a) + handle * Math.cos(a)), ...place(Math.cos(b) + handle * Math.sin(b), Math.sin(b) - handle * Math.cos(b)), ...end] as const;
  });
}

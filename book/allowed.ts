/** The elements and attributes of SVG that a sheet may use: what the book can paint, whole. */

const geometry: Readonly<Record<string, readonly string[]>> = {
  svg: ['xmlns', 'viewBox', 'width', 'height'],
  g: [],
  rect: ['x', 'y', 'width', 'height', 'rx', 'ry'],
  line: ['x1', 'y1', 'x2', 'y2'],
  path: ['d'],
  circle: ['cx', 'cy', 'r'],
  ellipse: ['cx', 'cy', 'rx', 'ry'],
  polyline: ['points'],
  polygon: ['points'],
  text: ['x', 'y'],
};

const look: ReadonlySet<string> = new Set([
  'fill', 'fill-rule', 'fill-opacity', 'stroke', 'stroke-width', 'stroke-dasharray', 'stroke-dashoffset', 'stroke-linecap', 'stroke-linejoin', 'stroke-miterlimit',
  'stroke-opacity', 'opacity', 'text-anchor', 'font-family', 'font-size', 'font-weight',
]);

/** names for the screen and its readers: nothing to paint */
const unseen = /^(data-.+|aria-.+|role|tabindex)$/;

export const isElement = (name: string): boolean => Object.hasOwn(geometry, name);

export function isAllowed(element: string, attribute: string): boolean {
  return geometry[element]?.includes(attribute) === true || look.has(attribute) || unseen.test(attribute) || (attribute === 'transform' && element !== 'svg');
}

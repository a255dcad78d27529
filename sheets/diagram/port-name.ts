/** `in` of `K1.in`. */
export const portName = (point: string): string => point.slice(point.indexOf('.') + 1);

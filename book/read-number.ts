/** Numbers in the attributes of SVG. A sheet that writes none where one belongs is a programmer's mistake. */

/** @throws Error on anything but one finite number without a unit */
export function readNumber(text: string, what: string): number {
  const number = text.trim() === '' ? NaN : Number(text);
  if (!Number.isFinite(number)) throw new Error(`${what}="${text}" is no number`);
  return number;
}

/** Numbers with spaces or commas between. */
export function readNumbers(text: string, what: string): number[] {
  return text.split(/[\s,]+/).filter((piece) => piece !== '').map((piece) => readNumber(piece, what));
}

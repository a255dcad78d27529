/** Text broken into lines of at most `width` characters, at spaces; a word longer than that keeps a line of its own. */
export function wrapped(text: string, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const piece of text.split(/\s+/)) {
    if (line !== '' && line.length + 1 + piece.length > width) {
      lines.push(line);
      line = piece;
    } else line = line === '' ? piece : `${line} ${piece}`;
  }
  if (line !== '' || lines.length === 0) lines.push(line);
  return lines;
}

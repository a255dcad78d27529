/**
 * A page of a sheet as a tree of the plain elements that sheets may draw (`book/allowed.ts`). Anything else is a
 * programmer's mistake and throws by name, so that a sheet fails in a test rather than losing lines on paper.
 */
import { parseXml, XmlElement, XmlText } from '@rgrove/parse-xml';
import { isAllowed, isElement } from './allowed.ts';

export interface DrawnElement {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly DrawnElement[];
  /** of a `text` element; white space as SVG reads it */
  readonly text: string;
}

/** what XML cannot hold, such as a control character in a name of the file */
const notXml = /[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu;

/**
 * @param svg  text of an SVG file, as `renderPage` writes it
 * @throws Error on an element, an attribute or loose text that the painter does not know
 */
export function readDrawing(svg: string): DrawnElement {
  const { root } = parseXml(svg.replace(notXml, '\u{FFFD}'));
  if (root?.name !== 'svg') throw new Error(`a page is one <svg>, not <${root?.name ?? 'nothing'}>`);
  return read(root);
}

function read({ name, attributes, children }: XmlElement): DrawnElement {
  if (!isElement(name)) throw new Error(`sheets may not draw <${name}>: the book cannot paint it`);
  for (const attribute of Object.keys(attributes)) if (!isAllowed(name, attribute)) throw new Error(`sheets may not use ${attribute} on <${name}>: the book cannot paint it`);
  const elements: DrawnElement[] = [];
  let text = '';
  for (const child of children) {
    if (child instanceof XmlElement && name !== 'text') elements.push(read(child));
    else if (child instanceof XmlText && (name === 'text' || child.text.trim() === '')) text += child.text;
    else throw new Error(`sheets may not put ${child instanceof XmlElement ? `<${child.name}>` : `“${child instanceof XmlText ? child.text : child.type}”`} inside <${name}>: the book cannot paint it`);
  }
  return { name, attributes, children: elements, text: text.replace(/[\t\n\r ]+/g, ' ').trim() };
}

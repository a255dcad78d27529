/**
 * The text of the build file as it stands on the screen, every step that led to it, and what of it is on disk.
 * Pure: what a change gives is a new document; time is handed in.
 *
 * Invariants: undoing every step gives the text that was opened, to the byte; a step that changes nothing is no step.
 */
import { applySplices, inverseOf } from '../../core/build/splice.ts';
import type { Splice } from '../../core/build/splice.ts';

export interface Step {
  /** what was done, in a few words: "mass of M1" */
  readonly label: string;
  readonly splices: readonly Splice[];
  /** [ms], when letters were last typed into it; absent: not typed, nothing joins it */
  readonly typedAt?: number;
}

/** What the file held when screen and disk last agreed. `etag` names that text towards the server. */
export interface OnDisk { readonly text: string; readonly etag: string }

export interface TextDocument {
  readonly text: string;
  /** oldest first */
  readonly past: readonly Step[];
  /** what redo does next is the last */
  readonly future: readonly Step[];
  readonly disk: OnDisk;
}

/** Typing that goes on within this time joins the step before [ms]. */
const ONE_STRETCH = 600;

export function openDocument(disk: OnDisk): TextDocument {
  return { text: disk.text, past: [], future: [], disk };
}

/** @returns undefined when the splices were made for another text */
export function withStep(document: TextDocument, splices: readonly Splice[], label: string): TextDocument | undefined {
  return changed(document, { label, splices });
}

/** Letters typed by hand at a time [ms]. */
export function withTyping(document: TextDocument, splices: readonly Splice[], now: number): TextDocument | undefined {
  const last = document.past.at(-1);
  const next = changed(document, { label: 'typing', splices, typedAt: now });
  if (!next || next === document || last?.typedAt === undefined || now - last.typedAt > ONE_STRETCH || document.future.length > 0) return next;
  return { ...next, past: [...document.past.slice(0, -1), { label: last.label, splices: [...last.splices, ...splices], typedAt: now }] };
}

/** The whole text replaced, as one step that touches only what differs. */
export function withText(document: TextDocument, text: string, label: string): TextDocument {
  const splice = differenceOf(document.text, text);
  return splice ? (changed(document, { label, splices: [splice] }) as TextDocument) : document;
}

export function undone(document: TextDocument): TextDocument {
  const step = document.past.at(-1);
  if (!step) return document;
  const text = applySplices(document.text, inverseOf(step.splices));
  if (text === undefined) throw new Error(`the step ${step.label} does not fit the text it was made in`);
  return { ...document, text, past: document.past.slice(0, -1), future: [...document.future, withoutTime(step)] };
}

export function redone(document: TextDocument): TextDocument {
  const step = document.future.at(-1);
  if (!step) return document;
  const text = applySplices(document.text, step.splices);
  if (text === undefined) throw new Error(`the step ${step.label} does not fit the text it was taken back from`);
  return { ...document, text, past: [...document.past, step], future: document.future.slice(0, -1) };
}

export function withDisk(document: TextDocument, disk: OnDisk): TextDocument {
  return { ...document, disk };
}

export const isUnsaved = ({ text, disk }: Pick<TextDocument, 'text' | 'disk'>): boolean => text !== disk.text;

function changed(document: TextDocument, step: Step): TextDocument | undefined {
  const text = applySplices(document.text, step.splices);
  if (text === undefined || text === document.text) return text === undefined ? undefined : document;
  return { ...document, text, past: [...document.past, step], future: [] };
}

const withoutTime = ({ label, splices }: Step): Step => ({ label, splices });

/** The one stretch between the shared beginning and the shared end; undefined when nothing differs. */
function differenceOf(before: string, after: string): Splice | undefined {
  if (before === after) return undefined;
  const least = Math.min(before.length, after.length);
  let head = 0;
  while (head < least && before[head] === after[head]) head++;
  let tail = 0;
  while (tail < least - head && before[before.length - 1 - tail] === after[after.length - 1 - tail]) tail++;
  return { at: head, removed: before.slice(head, before.length - tail), inserted: after.slice(head, after.length - tail) };
}

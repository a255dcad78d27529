/**
 * Something on a sheet that the builder can take hold of: a part, a run, a number of the file.
 * On the screen it can be reached by keyboard (the screen moves the focus from one to the next) and named by a reader.
 */
import type { ReactElement, ReactNode } from 'react';
import { useDrawing } from '../drawing-context.ts';

export function Subject({ path, label, children }: { /** `parts.M1`, `runs.W1`, `parts.M1.mass` */ readonly path: string; /** what a listener hears */ readonly label: string; readonly children: ReactNode }): ReactElement {
  const { live } = useDrawing();
  if (!live) return <g data-subject={path}>{children}</g>;
  return <g data-subject={path} role="button" tabIndex={-1} aria-label={label} {...(live.selected === path ? { 'data-selected': '' } : {})}>{children}</g>;
}

/** A place where a probe can touch. */
export function Probe({ point, x, y, colour }: { readonly point: string; readonly x: number; readonly y: number; readonly colour?: string }): ReactElement {
  const { palette, live } = useDrawing();
  return <circle data-point={point} cx={x} cy={y} r={0.9} fill={palette.sheet} stroke={colour ?? palette.ink} strokeWidth={0.3} {...(live ? { role: 'button', tabIndex: -1, 'aria-label': `point ${point}` } : {})} />;
}

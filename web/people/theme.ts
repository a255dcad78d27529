/** Paper by day, blueprint by night: the palette of the sheets as CSS custom properties of the whole page. */
import { blueprint, paper } from '../../sheets/palette.ts';
import type { Palette } from '../../sheets/palette.ts';

export type ThemeName = Palette['name'];
export const palettes: Readonly<Record<ThemeName, Palette>> = { paper, blueprint };

/** What the machine asks for, as long as the builder has not chosen. */
export const themeOfMachine = (): MediaQueryList => matchMedia('(prefers-color-scheme: dark)');

/** Hands the colours of a palette to the style sheets: `--sheet`, `--ink`, `--high-voltage`, … */
export function applyPalette(palette: Palette): void {
  const root = document.documentElement;
  root.dataset['theme'] = palette.name;
  root.style.colorScheme = palette.name === 'paper' ? 'light' : 'dark';
  for (const [name, colour] of Object.entries(palette)) {
    if (name !== 'name') root.style.setProperty(`--${name.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)}`, String(colour));
  }
}

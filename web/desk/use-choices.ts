/** What lies on the desk besides the text: sheet, selection, meter, state, units, theme. */
import { useCallback, useEffect, useMemo, useState } from 'react';
import type { Choices, SheetName } from '../../sheets/sheet.ts';
import type { Acts, Bench } from '../bench.ts';
import { useRemembered } from '../people/remembered.ts';
import { palettes, applyPalette, themeOfMachine } from '../people/theme.ts';
import type { ThemeName } from '../people/theme.ts';
import { asTheFileSays, choiceOf, readPreference } from '../people/unit-preference.ts';
import type { UnitPreference } from '../people/unit-preference.ts';

export function useTheme(): { readonly chosen: ThemeName | undefined; readonly palette: Bench['palette']; readonly choose: (theme: ThemeName | undefined) => void } {
  const [chosen, choose] = useRemembered<ThemeName>('theme', (value) => (value === 'paper' || value === 'blueprint' ? value : undefined));
  const [isDark, setDark] = useState(() => themeOfMachine().matches);
  useEffect(() => {
    const media = themeOfMachine();
    const hear = (): void => setDark(media.matches);
    media.addEventListener('change', hear);
    return () => media.removeEventListener('change', hear);
  }, []);
  const palette = palettes[chosen ?? (isDark ? 'blueprint' : 'paper')];
  useEffect(() => { applyPalette(palette); }, [palette]);
  return { chosen, palette, choose };
}

/** The file's own units, read without waiting for the analysis. */
const unitsOfText = (text: string): 'metric' | 'imperial' => (/^units:\s*["']?imperial\b/m.test(text) ? 'imperial' : 'metric');

export function useChoices(text: string): { readonly choices: Choices; readonly choose: Acts['choose']; readonly preference: UnitPreference; /** units of the file itself */ readonly ofFile: 'metric' | 'imperial'; readonly prefer: (preference: UnitPreference) => void } {
  const [remembered, remember] = useRemembered('units', readPreference);
  const [state, setState] = useState<Choices['state']>({});
  const preference = remembered ?? asTheFileSays;
  const ofFile = useMemo(() => unitsOfText(text), [text]);
  const choices = useMemo(() => ({ units: choiceOf(preference, ofFile), state }), [preference, ofFile, state]);
  const choose = useCallback<Acts['choose']>((next) => {
    if (next.state) setState(next.state);
    if (next.units) remember({ system: next.units.system, byQuantity: next.units.byQuantity ?? {} });
  }, [remember]);
  return { choices, choose, preference, ofFile, prefer: remember };
}

/** Which sheet and page; kept in the address after #, so that going back goes back. */
export function useSheet(known: (name: string) => SheetName | undefined): { readonly sheet: SheetName; readonly page: number; readonly show: Acts['show'] } {
  const read = useCallback((): { readonly sheet: SheetName; readonly page: number } => {
    const [name = '', number = '1'] = decodeURIComponent(location.hash.slice(1)).split('/');
    return { sheet: known(name) ?? 'cover', page: Math.max(0, (Number(number) || 1) - 1) };
  }, [known]);
  const [at, setAt] = useState(read);
  useEffect(() => {
    const hear = (): void => setAt(read());
    addEventListener('popstate', hear);
    return () => removeEventListener('popstate', hear);
  }, [read]);
  const show = useCallback<Acts['show']>((sheet, page = 0) => {
    const name = known(sheet) ?? 'cover';
    setAt((now) => {
      if (now.sheet === name && now.page === page) return now;
      history.pushState(null, '', `#${name}${page === 0 ? '' : `/${page + 1}`}`);
      return { sheet: name, page };
    });
  }, [known]);
  return { ...at, show };
}

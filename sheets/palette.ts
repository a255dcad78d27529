/**
 * The colours of a sheet. Colour has meaning only: orange is high voltage, blue-grey low voltage, violet signals, teal coolant;
 * red, amber and green never stand alone but with a shape. Every one is readable as text on the sheet (tested).
 */
export interface Palette {
  readonly name: 'paper' | 'blueprint';
  readonly sheet: string; readonly ink: string; readonly muted: string; readonly hairline: string;
  /** behind a row, a part, a selected thing */
  readonly wash: string;
  readonly highVoltage: string; readonly lowVoltage: string; readonly signal: string; readonly coolant: string;
  readonly red: string; readonly amber: string; readonly green: string;
  /** what has changed and was not looked at yet; what is selected */
  readonly mark: string;
}

export const paper: Palette = {
  name: 'paper', sheet: '#fbf8f1', ink: '#22252b', muted: '#5f5b52', hairline: '#b8b1a1', wash: '#f1ebdd',
  highVoltage: '#ad4500', lowVoltage: '#3f5b73', signal: '#6b3fa0', coolant: '#0b6b63', red: '#b3261e', amber: '#7f5300', green: '#2b6632', mark: '#1f5fbf',
};

export const blueprint: Palette = {
  name: 'blueprint', sheet: '#10294d', ink: '#e8f0fc', muted: '#adc1de', hairline: '#46628c', wash: '#183763',
  highVoltage: '#ffab5e', lowVoltage: '#a3c4e0', signal: '#cbaaf6', coolant: '#74d8cb', red: '#ff9c92', amber: '#ffd073', green: '#97d99e', mark: '#8fd3ff',
};

/** Contrast of two colours by WCAG 2.2, 1..21. */
export function contrast(a: string, b: string): number {
  const [light, dark] = [luminance(a), luminance(b)].sort((x, y) => y - x) as [number, number];
  return (light + 0.05) / (dark + 0.05);
}

function luminance(colour: string): number {
  const channel = (at: number): number => {
    const share = parseInt(colour.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  };
  return 0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5);
}

/**
 * The two states of the cells between which everything lies that a battery can give: full and warm it drives the highest
 * fault current, nearly empty and cold the lowest. Our choice, no source.
 */
export const extremeStates = {
  high: { stateOfCharge: 1, cellTemperature: 318.15 },
  low: { stateOfCharge: 0.1, cellTemperature: 253.15 },
} as const;

export type ExtremeState = keyof typeof extremeStates;

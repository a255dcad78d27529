/** Date and time of the log, without its seconds. */
export const whenWords = (when: string): string => `${when.slice(0, 16).replace('T', ' ')}${when.endsWith('Z') ? ' UTC' : ''}`;

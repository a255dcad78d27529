export function findBrowser(): string | undefined;
export function readyBrowser(): string | undefined;

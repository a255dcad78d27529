/** Revision of a build file: the first characters of the SHA-256 of its text, as title blocks and lines of readings.csv have it. */
import { createHash } from 'node:crypto';

export const revisionOf = (text: string): string => createHash('sha256').update(text).digest('hex').slice(0, 8);

/** A study on its way from another program to the page. JSON alone loses what is undefined or endless; this keeps it. */
import { parse, stringify } from 'devalue';
import type { Study } from './study.ts';

export const writeStudy = (study: Study): string => stringify(study);

/** @throws when it is no text that `writeStudy` made */
export const readStudy = (text: string): Study => parse(text) as Study;

/** The pieces that lie around the paper. The desk takes them from here. */
import { lazy } from 'react';

/** fields, ends and findings of `selected`; drawn only while something is selected */
export { Card } from '../card/card.tsx';
/** the text of the file; drawn only while `isTextOpen`. `at` changes identity whenever a place is asked for */
export const TextDrawer = lazy(() => import('../drawer/text-drawer.tsx'));
export type TextPlace = { readonly path: string } | { readonly offset: number };
/** alternatives side by side; draws nothing while there are none */
export { WhatIfTray } from '../what-if/what-if-tray.tsx';
/** drawn on electrical sheets while the meter is out */
export { MeterPanel } from '../meter/meter-panel.tsx';
/** a conversation: what happens, what may be wrong, what to look at next; drawn while the conversation is open */
export const FaultPanel = lazy(() => import('../faults/fault-panel.tsx').then(({ FaultPanel: piece }) => ({ default: piece })));
/** single failures to choose from; in place of the drawing of that sheet */
export const FailuresView = lazy(() => import('../faults/failures-view.tsx').then(({ FailuresView: piece }) => ({ default: piece })));
/** drawn while ports are being joined */
export { JoinPanel } from '../joining/join-panel.tsx';
/** a dialog's content: choose a kind, name it, say what only the builder knows */
export { AddPart } from '../card/add-part.tsx';
/** listens on the drawing; what it returns is drawn over the sheet, in millimetres of the page */
export { useDrag } from '../drag/use-drag.tsx';
/** chances of the text of `study`, drawn on a worker, refined while the builder thinks */
export { useChances } from '../analysis/sampling.ts';
/** assembly and first power-up, one step at a time, and better numbers from what was read; takes the place of the desk */
export const GuidedPowerUp = lazy(() => import('../readings/guide.tsx').then(({ GuidedPowerUp: piece }) => ({ default: piece })));

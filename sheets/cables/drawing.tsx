/** Draws the schedules of runs and fuses. */
import { area } from '../frame/page-size.ts';
import type { Page, SheetDrawing } from '../sheet.ts';
import { FlowPage, flowTables, flowText } from '../table/flow.tsx';
import type { CablesModel } from './model.ts';

export const cablesDrawing: SheetDrawing<CablesModel> = {
  name: 'cables', title: 'Cables and fuses', meaning: 'Every run and every fuse with what it carries, what it may carry, and what opens.',
  pages: (model) => {
    const pages = flowTables(model.sections, area.height);
    return pages.map((placed): Page => ({ ...(pages.length > 1 ? { subtitle: subtitleOf(placed.map(({ section }) => section.title)) } : {}), body: <FlowPage placed={placed} />, text: flowText(placed) }));
  },
};

const subtitleOf = (titles: readonly string[]): string => titles.map((title, index) => (index === 0 || title.startsWith('12 V') ? title : `${title.charAt(0).toLowerCase()}${title.slice(1)}`)).join(', ');

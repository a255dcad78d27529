/** Entry of the page. Small, so that it runs early. */
import { open } from './opening.ts';

const opening = open();
const { layOut } = await import('./page.tsx');
layOut(opening);

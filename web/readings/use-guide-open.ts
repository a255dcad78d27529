/** Whether the guided power-up lies on the desk; kept in the address after #, so that reloading stays and going back leaves. */
import { useEffect, useState } from 'react';

const HERE = '#first-power-up';

/** @param back  what the address says of the desk itself */
export function useGuideOpen(back: string): { readonly isOpen: boolean; readonly open: () => void; readonly leave: () => void } {
  const [isOpen, setOpen] = useState(() => location.hash === HERE);
  useEffect(() => {
    const hear = (): void => setOpen(location.hash === HERE);
    addEventListener('popstate', hear);
    return () => removeEventListener('popstate', hear);
  }, []);
  return {
    isOpen,
    open: () => { history.pushState(null, '', HERE); setOpen(true); },
    leave: () => { history.pushState(null, '', `#${back}`); setOpen(false); },
  };
}

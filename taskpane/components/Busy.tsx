import { useEffect, useState } from 'preact/hooks';
import own from './Busy.module.css';

/** After so long a person wonders whether anything happens. */
const SLOW_MS = 3000;

/** What is going on. The program takes nothing while a cell is open for typing, and does not say so. */
export function Busy({ doing }: { readonly doing: string }) {
  const [slow, setSlow] = useState('');
  useEffect(() => {
    if (doing === '') return;
    const timer = setTimeout(() => setSlow(doing), SLOW_MS);
    return () => {
      clearTimeout(timer);
      setSlow('');
    };
  }, [doing]);
  const isSlow = doing !== '' && slow === doing;
  return (
    <div class={own.busy}>
      <p class={isSlow ? own.slow : undefined} role="status">
        {doing && `${doing} \u2026`}
        {isSlow && ' If a cell is being edited, press Enter in the sheet: it waits for that.'}
      </p>
    </div>
  );
}

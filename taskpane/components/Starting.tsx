import type { Trouble } from '../store/trouble';
import look from './look.module.css';
import { TroubleBox } from './TroubleBox';

/** What the pane shows until the spreadsheet program answers, or if it never does. */
export function Starting({ trouble }: { readonly trouble?: Trouble }) {
  return (
    <>
      <header>
        <h1>Light Output Workbook</h1>
      </header>
      <main>
        {trouble ? (
          <TroubleBox
            trouble={trouble}
            facts={{ platform: '', isWorkbench: false, decimalComma: false, workbook: '' }}
          />
        ) : (
          <p class={look.quiet} role="status">
            Waiting for the spreadsheet. This page works inside Excel; by itself it stays like this.
          </p>
        )}
      </main>
    </>
  );
}

import type { Host } from '../../src/excel/host';
import type { Surroundings } from '../../src/excel/selfcheck/scratch';
import { EMPTY_SHEET } from '../../src/sheets/book';

/** How long a worker may take to begin, ms. */
const PATIENCE_MS = 15_000;

export function surroundingsOf(host: Host): Surroundings {
  return {
    host,
    smallFile: async () => {
      const { writeXlsx } = await import('../../src/xlsx');
      const bytes = await writeXlsx({
        sheets: [
          {
            ...EMPTY_SHEET,
            name: 'Filed',
            cells: {
              A2: { value: 100 },
              A3: { value: 200 },
              B2: { value: 100, formula: '=LIGHT.ILLUMINANCE(A2)' },
              B3: { value: 200, formula: '=INDEX(A2:A3,2)' },
            },
          },
        ],
        names: [],
      });
      return btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(''));
    },
    worker: () =>
      new Promise((resolve) => {
        const worker = new Worker(new URL('./answer.ts', import.meta.url), { type: 'module' });
        const end = (runs: boolean) => {
          clearTimeout(timer);
          worker.terminate();
          resolve(runs);
        };
        const timer = setTimeout(() => end(false), PATIENCE_MS);
        worker.addEventListener('message', () => end(true));
        worker.addEventListener('error', () => end(false));
      }),
  };
}

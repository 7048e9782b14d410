import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { it } from 'vitest';
import { isSame } from '../../src/audit/number';
import { renewedSheets } from '../../src/audit/older/renew';
import { ourSheets, valueAt } from '../../src/audit/view';
import { cellsOf } from '../../src/sheets/address';
import { readXlsx } from '../../src/xlsx';
import { GENERATIONS } from './record';

it('x', async () => {
  const out: string[] = [];
  const miss = new Map<string, Set<string>>();
  const add = (k: string, v: string) => miss.set(k, (miss.get(k) ?? new Set()).add(v));
  for (const g of GENERATIONS)
    for (const f of g.files) {
      const book = await readXlsx(new Uint8Array(readFileSync(join(g.folder, `${f}.xlsx`))));
      const t = Date.now();
      const r = renewedSheets(book);
      out.push(`${f} ${Date.now() - t} ms: ${ourSheets(book).length} ours, ${r.size} renewed`);
      for (const { older, anew, plan, places } of r.values()) {
        const k = older.identity!.kind;
        for (const { name, range } of plan.names)
          for (const at of cellsOf(range)) {
            const was = places.get(at);
            if (was === undefined) continue;
            const c = plan.cells[at];
            const [a, b] = [valueAt(older, was), valueAt(anew, at)];
            if (!isSame(a, b))
              add(
                `${k} ${c?.formula === undefined ? 'fixed' : 'formula'} ${name}`,
                `${f}!${at}: ${JSON.stringify(a)} -> ${JSON.stringify(b)}`,
              );
          }
      }
    }
  for (const [k, v] of miss) out.push(`== ${k} (${v.size}): ${[...v].slice(0, 4).join('; ')}`);
  writeFileSync('/tmp/ol/explore.txt', out.join('\n'));
}, 300000);

import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { it } from 'vitest';
import { check } from '../../src/audit/check/check';
import { readXlsx } from '../../src/xlsx';
import { frozenOf, GENERATIONS } from './record';

it('x', async () => {
  const out: string[] = [];
  for (const g of GENERATIONS)
    for (const f of g.files) {
      const fr = frozenOf(g, f);
      const was = new Set(fr.findings.map((x) => `${x.sheet} ${x.at} ${x.kind}`));
      const book = await readXlsx(new Uint8Array(readFileSync(join(g.folder, `${f}.xlsx`))));
      const { findings } = await check(book);
      for (const x of findings)
        if (!was.has(`${x.sheet} ${x.at} ${x.kind}`))
          out.push(
            `${f} ${x.severity} ${x.kind} ${x.sheet} ${x.at}: ${x.message} | ${x.expected.slice(0, 120)} | ${x.found.slice(0, 120)}`,
          );
      const now = new Set(findings.map((x) => `${x.sheet} ${x.at} ${x.kind}`));
      for (const x of fr.findings)
        if (!now.has(`${x.sheet} ${x.at} ${x.kind}`))
          out.push(`${f} GONE ${x.severity} ${x.kind} ${x.sheet} ${x.at}: ${x.message}`);
    }
  writeFileSync('/tmp/ol/explore2.txt', out.join('\n'));
}, 300000);

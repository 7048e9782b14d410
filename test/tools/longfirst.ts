import { readdirSync, readFileSync } from 'node:fs';
import { relative } from 'node:path';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** Files that take long, in seconds of processor time as measured; those of the browser in seconds of a quiet machine. */
const SECONDS: Readonly<Record<string, number>> = {
  'test/e2e/fields.test.ts': 90,
  'test/e2e/fieldswindow.test.ts': 87,
  'test/e2e/mainjob.test.ts': 75,
  'test/e2e/captureshown.test.ts': 69,
  'test/e2e/example.test.ts': 68,
  'test/e2e/audit.test.ts': 62,
  'test/e2e/capture.test.ts': 60,
  'test/e2e/keyboard.test.ts': 45,
  'test/e2e/badinput.test.ts': 40,
  'test/e2e/capturefaults.test.ts': 40,
  'test/e2e/late.test.ts': 35,
  'test/e2e/uncertainty.test.ts': 30,
  'test/e2e/templates.test.ts': 25,
  'test/sheets/recalculate.test.ts': 60,
  'test/cli/light.test.ts': 35,
  'test/excel/uncertainty.test.ts': 33,
  'test/sheets/commalocale.test.ts': 30,
  'test/audit/trace.test.ts': 28,
  'test/excel/sealed.test.ts': 28,
  'test/xlsx/untrusted.test.ts': 25,
  'test/audit/calculate.test.ts': 23,
  'test/excel/host.test.ts': 20,
  'test/audit/everychange.test.ts': 18,
  'test/cli/kinds.test.ts': 18,
  'test/metrology/propagation.test.ts': 17,
  'test/template/set.test.ts': 17,
  'test/sheets/acceptance.test.ts': 16,
  'test/build/pane.test.ts': 15,
  'test/sheets/certificate.test.ts': 14,
  'test/frozen/frozen.test.ts': 14,
  'test/audit/batch.test.ts': 13,
  'test/excel/agree.test.ts': 13,
  'test/excel/restore.test.ts': 13,
  'test/xlsx/handover.test.ts': 13,
  'test/sheets/comparison.recalculate.test.ts': 13,
  'test/sheets/ageing.test.ts': 12,
  'test/excel/cells.test.ts': 11,
  'test/audit/tracekinds.test.ts': 11,
  'test/sheets/batch.test.ts': 10,
  'test/sheets/batchunit.test.ts': 10,
  'test/sheets/example.test.ts': 10,
  'test/workbench/names.test.ts': 10,
  'test/audit/seal.test.ts': 10,
  'test/excel/build.test.ts': 9,
  'test/excel/file.test.ts': 9,
  'test/excel/book.test.ts': 9,
  'test/sheets/overview.test.ts': 9,
  'test/workbench/build.test.ts': 9,
  'test/cli/example.test.ts': 12,
  'test/cli/help.test.ts': 5,
  'test/excel/rewrite.test.ts': 5,
  'test/sheets/run.test.ts': 7,
  'test/xlsx/roundtrip.test.ts': 7,
  'test/taskpane/capture/tiled.test.ts': 20,
  'test/taskpane/pane.test.tsx': 15,
  'test/taskpane/batch/batch.test.tsx': 10,
  'test/taskpane/trace/checkcard.test.tsx': 9,
  'test/taskpane/templates/templates.test.tsx': 7,
  'test/taskpane/trace/signing.test.tsx': 7,
  'test/taskpane/sure.test.tsx': 6,
};

/** What the quick run is without: files of so many seconds and more, and those that ask LibreOffice. */
export function notQuick(quickest = 5): string[] {
  const files = readdirSync('test', { recursive: true, encoding: 'utf8' }).map(
    (file) => `test/${file.replaceAll('\\', '/')}`,
  );
  const asksOffice = (file: string) =>
    /\.test\.tsx?$/.test(file) && /from '[./a-z]*\/libreoffice'/.test(readFileSync(file, 'utf8'));
  return files.filter((file) => (SECONDS[file] ?? 0) >= quickest || asksOffice(file));
}

/** Long files begin first, so that no worker is left alone with one at the end; a fresh clone knows no times of its own. */
export default class LongFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sorted = await super.sort(files);
    const seconds = ({ moduleId }: TestSpecification) =>
      SECONDS[relative(this.ctx.config.root, moduleId).replaceAll('\\', '/')] ?? 0;
    const place = ({ project }: TestSpecification) => `${project.config.sequence.groupOrder} ${project.name}`;
    return sorted.sort((a, b) => place(a).localeCompare(place(b)) || seconds(b) - seconds(a));
  }
}

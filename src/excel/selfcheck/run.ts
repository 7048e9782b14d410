import { toHostError } from '../trouble';
import { FORMULA_PROBES } from './formulas';
import { FUNCTION_PROBES } from './functions';
import { PAGE_PROBES } from './page';
import type { Probe, ProbeResult, Where } from './probe';
import { type Scratch, type Surroundings, withScratch } from './scratch';
import { SHEET_PROBES } from './sheets';
import { SIZE_PROBES } from './sizes';

export const PROBES: readonly Probe[] = [
  ...FUNCTION_PROBES,
  ...FORMULA_PROBES,
  ...SHEET_PROBES,
  ...SIZE_PROBES,
  ...PAGE_PROBES,
];

export interface SelfCheckCourse {
  readonly signal: AbortSignal;
  /** Before each probe: which, and how many are done. */
  begin(probe: Probe, done: number): void;
  ended(result: ProbeResult): void;
}

/**
 * Asks the spreadsheet program every question on a scratch sheet, which is taken away whatever happens. A probe that
 * fails is told as such and the others go on; a stop takes effect after the probe under way.
 */
export async function selfCheck(
  surroundings: Surroundings,
  probes: readonly Probe[],
  { signal, begin, ended }: SelfCheckCourse,
): Promise<void> {
  await withScratch(surroundings, async (scratch) => {
    for (const [done, probe] of probes.entries()) {
      if (signal.aborted) return;
      begin(probe, done);
      ended(await resultOf(probe, scratch));
    }
  });
}

async function resultOf(probe: Probe, scratch: Scratch): Promise<ProbeResult> {
  const begun = performance.now();
  const result = (state: ProbeResult['state'], came: string): ProbeResult => ({
    probe,
    state,
    came,
    took: Math.round(performance.now() - begun),
  });
  if (probe.needs && !Office.context.requirements.isSetSupported(...probe.needs))
    return result('not offered', `needs ${probe.needs.join(' ')}`);
  try {
    const { came, isAsExpected } = await probe.run(scratch);
    return result(isAsExpected ? 'as expected' : 'otherwise', came);
  } catch (error) {
    const { message, detail } = toHostError(error);
    const isAbsent = (error as { code?: unknown }).code === 'ApiNotAvailable';
    return result(isAbsent ? 'not offered' : 'failed', [message, detail].filter(Boolean).join(' '));
  }
}

export function whereItRan(): Where {
  const { diagnostics, displayLanguage, contentLanguage } = Office.context;
  return {
    platform: String(diagnostics.platform),
    version: String(diagnostics.version),
    language: `${displayLanguage}, data ${contentLanguage}`,
    sets: apiSets(),
    page: navigator.userAgent,
  };
}

function apiSets(): string {
  const highest = (set: string, most: number) => {
    const versions = Array.from({ length: most }, (_, i) => `1.${most - i}`);
    return versions.find((version) => Office.context.requirements.isSetSupported(set, version)) ?? 'none';
  };
  return [
    `ExcelApi ${highest('ExcelApi', 40)}`,
    `CustomFunctionsRuntime ${highest('CustomFunctionsRuntime', 9)}`,
    `SharedRuntime ${highest('SharedRuntime', 9)}`,
    `DialogApi ${highest('DialogApi', 9)}`,
  ].join(', ');
}

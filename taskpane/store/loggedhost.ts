import type { Course, Host } from '../../src/excel/host';
import type { Plan, SheetKind } from '../../src/sheets/plan';
import type { Author } from './author';
import type { Log } from './log';

/** Sheets that write down what is there already. */
const REPORTS: Partial<Record<SheetKind, string>> = {
  findings: 'Findings of a check, as a sheet',
  trace: 'Chain of a result, as a sheet',
};

/**
 * The host, with every sheet it builds noted in the log, whichever step asks for it. Whatever else the host can do
 * goes through as it is.
 */
export function loggedHost(host: Host, author: Author, log: Log): Host {
  const build = async (plan: Plan, course?: Course) => {
    const built = await host.build(plan, course);
    author.suppose(measuredBy(plan));
    const report = REPORTS[plan.kind];
    // Not waited for: the sheet is there, and the person goes on.
    if (report) void log.note('exported', built.sheet, report);
    else void log.note('built', built.sheet, `Sheet of the kind "${plan.kind}"`);
    return built;
  };
  return new Proxy(host, {
    get: (target, key: keyof Host) => {
      if (key === 'build') return build;
      const member: unknown = target[key];
      return typeof member === 'function' ? member.bind(target) : member;
    },
  });
}

/** Who measures, as a sheet of readings says. */
function measuredBy({ names, cells }: Plan): string {
  const range = names.find(({ name }) => name === 'MeasuredBy')?.range;
  const value = range && cells[range]?.value;
  return typeof value === 'string' ? value : '';
}

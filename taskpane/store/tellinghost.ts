import type { Course, Host, Lacking } from '../../src/excel/host';
import type { Plan } from '../../src/sheets/plan';
import type { Trouble, Troubles } from './trouble';

const WORDS: Readonly<Record<Lacking['part'], { readonly what: string; readonly remedy: string }>> = {
  view: {
    what: 'its place in front',
    remedy: 'Go to it by its tab; another workbook may have been in front just then.',
  },
  page: {
    what: 'its page set-up',
    remedy:
      'Before printing, fit it to one page across under Page Layout; some programs want a printer for that.',
  },
  charts: { what: 'its charts', remedy: 'The figures of every chart stand on the sheet as a table.' },
  notes: { what: 'the notes on its cells', remedy: 'They only explain; nothing is computed from them.' },
  protection: {
    what: 'its protection',
    remedy: 'Protect it under Review, Protect Sheet, without a password; a check of the sheet does it too.',
  },
};

/** The host, which tells what a sheet has to do without: the sheet stands, so its build is no failure. */
export function tellingHost(host: Host, troubles: Troubles): Host {
  const told: { sheet: string; lacking: readonly Lacking[] }[] = [];
  const build = async (plan: Plan, course?: Course) => {
    const built = await host.build(plan, course);
    if (built.lacking && built.lacking.length > 0) {
      // Of sheets that are built in one go the pane tells together.
      if (!troubles.trouble.peek()) told.length = 0;
      told.push({ sheet: built.sheet, lacking: built.lacking });
      troubles.tell(troubleOf(told));
    }
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

function troubleOf(told: readonly { sheet: string; lacking: readonly Lacking[] }[]): Trouble {
  const parts = new Set(told.flatMap(({ lacking }) => lacking.map(({ part }) => part)));
  return {
    message: told
      .map(
        ({ sheet, lacking }) =>
          `\u201c${sheet}\u201d was built, but without ${lacking.map(({ part }) => WORDS[part].what).join(', ')}.`,
      )
      .join(' '),
    remedy: [...parts].map((part) => WORDS[part].remedy).join(' '),
    detail: told
      .flatMap(({ sheet, lacking }) => lacking.map(({ part, detail }) => `${sheet}, ${part}: ${detail}`))
      .join('\n'),
  };
}

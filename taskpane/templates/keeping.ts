import { effect, type ReadonlySignal, signal } from '@preact/signals';
import { HostError } from '../../src/excel/host';
import {
  forgetTemplate,
  type KeptTemplate,
  keepTemplate,
  keptTemplates,
  MOST_KEPT,
} from '../../src/template/kept';
import { checkTemplate } from '../../src/template/read';
import type { Template } from '../../src/template/template';
import type { Store } from '../store';
import { lastLook } from '../store/lastlook';
import type { Trouble } from '../store/trouble';

/** The templates this workbook keeps. */
export interface Keeping {
  /** Undefined until the workbook was read. */
  readonly kept: ReadonlySignal<readonly KeptTemplate[] | undefined>;
  readonly trouble: ReadonlySignal<Trouble | undefined>;
  readonly report: ReadonlySignal<string>;
  /** The template of a title, however it is written. */
  titled(title: string): KeptTemplate | undefined;
  /** Keeps a template, in place of the one with its title if there is one; answers whether it is kept. */
  keep(template: Template): Promise<boolean>;
  rename(kept: KeptTemplate, title: string): Promise<boolean>;
  forget(kept: KeptTemplate): Promise<void>;
}

export function createKeeping({ host, workbook, troubles, page, makeId }: Store): Keeping {
  const kept = signal<readonly KeptTemplate[] | undefined>(undefined);
  const trouble = signal<Trouble | undefined>(undefined);
  const report = signal('');

  const namesNow = async () => (await host.book({ sheets: [] })).names;
  const look = lastLook(async () => keptTemplates(await namesNow()), {
    what: 'Reading the templates of the workbook',
    trouble,
    isKept: true,
    take: (found) => {
      kept.value = found;
    },
  });
  effect(() => {
    if (workbook.survey.value && page.value === 'templates' && troubles.busy.value === '') void look();
  });
  const titled = (title: string) =>
    kept.value?.find(
      ({ read }) => read.ok && read.template.title.toLowerCase() === title.trim().toLowerCase(),
    );

  /** Does something with the names as they are now, and looks again. */
  async function change(doing: string, done: string, action: () => Promise<void>): Promise<boolean> {
    report.value = '';
    const attempt = await troubles.attempt(doing, action);
    if (attempt.ok) report.value = done;
    await look();
    return attempt.ok;
  }

  return {
    kept,
    trouble,
    report,
    titled,
    keep: (template) => {
      const there = titled(template.title);
      return change(
        'Keeping the template',
        there
          ? `“${template.title}” was replaced. Sheets built from it earlier stay as they are.`
          : `“${template.title}” is kept in this workbook.`,
        async () => {
          if (!there && (kept.peek()?.length ?? 0) >= MOST_KEPT)
            throw new HostError(
              'refused',
              `A workbook keeps ${MOST_KEPT} templates.`,
              'Delete one first, or export this one as a file.',
            );
          await host.editNames([keepTemplate(there?.id ?? makeId(), template, await namesNow())]);
        },
      );
    },
    rename: async (one, title) => {
      if (!one.read.ok) return false;
      const other = titled(title);
      if (other && other.id !== one.id) {
        report.value = `There is a template “${title.trim()}” already.`;
        return false;
      }
      const renamed = checkTemplate({ ...one.read.template, title });
      if (!renamed.ok) {
        report.value = renamed.problems.join(' ');
        return false;
      }
      return change('Renaming the template', `It is called “${renamed.template.title}” now.`, async () => {
        await host.editNames([keepTemplate(one.id, renamed.template, await namesNow())]);
      });
    },
    forget: async (one) => {
      const title = one.read.ok ? one.read.template.title : 'The damaged template';
      await change('Deleting the template', `“${title}” is deleted. Sheets built from it stay.`, async () => {
        await host.editNames([{ remove: forgetTemplate(one.id, await namesNow()), set: [] }]);
      });
    },
  };
}

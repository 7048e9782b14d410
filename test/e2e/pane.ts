import type { Frame } from 'playwright-core';
import { FORMS, TOOLS } from '../../taskpane/pages/entries';

/** A run in the invented regional library network that these tests and the picture use. */
export interface RunForm {
  readonly projector: string;
  readonly mode?: string;
  /** Width of a 16:9 image in metres. */
  readonly width: string;
  /** Further answers by the label of their field. */
  readonly further?: Readonly<Record<string, string>>;
}

/** Goes to a page of the pane by the ways a person has: a place at its head, or what is listed there. */
export async function toPage(pane: Frame, id: string): Promise<void> {
  const at = (title: string) =>
    pane.getByRole('navigation').getByRole('button', { name: title, exact: true }).click();
  const form = FORMS.find((entry) => entry.id === id);
  const tool = TOOLS.find((entry) => entry.id === id);
  const entry = form ?? tool;
  if (!entry) await at(id === 'sheet' ? 'This sheet' : 'Home');
  else {
    await at(form ? 'New' : 'More');
    await pane
      .locator('.EntryList_entries')
      .getByRole('button', { name: entry.question ?? entry.title, exact: true })
      .click();
    await pane.locator('.Crumb_crumb', { hasText: entry.title }).waitFor();
  }
  // Pages are fetched when they are first opened.
  await pane.locator('main h2').first().waitFor();
}

/** A pane that finds sheets of ours begins with what there is; from there to the sheet in front. */
export async function toMeasure(pane: Frame): Promise<void> {
  await pane.getByRole('heading', { name: 'In this workbook' }).waitFor();
  await toPage(pane, 'sheet');
}

/** Fills in the pane's form as a person does: unfolds what is folded, types and chooses by label. */
export async function fillForm(
  pane: Frame,
  { projector, mode, width, further = {} }: RunForm,
): Promise<void> {
  const answers = {
    Projector: projector,
    ...(mode === undefined ? {} : { 'Picture mode': mode }),
    Measured: 'width',
    'Unit of lengths': 'm',
    Length: width,
    'Aspect ratio': '16:9',
    ...further,
  };
  // The form of a batch asks the same of its model.
  if (!(await pane.getByRole('heading', { name: /^New (run|batch)$/ }).isVisible()))
    await toPage(pane, 'run');
  await pane.locator('#field-projector').waitFor();
  const folded = pane.locator('.Fold_group:not([open]) > summary');
  while ((await folded.count()) > 0) await folded.first().click();
  for (const [label, answer] of Object.entries(answers)) {
    // A needed field says so behind its label.
    const field = pane.getByLabel(labelled(label));
    if ((await field.evaluate((element) => element.tagName)) === 'SELECT') await field.selectOption(answer);
    else await field.fill(answer);
  }
}

/** Presses "Build the run sheet" and answers the name of the sheet that the pane says it built. */
export async function build(pane: Frame): Promise<string> {
  const button = pane.getByRole('button', { name: 'Build the run sheet' });
  // What was typed before is still in the form.
  if (!(await button.isVisible())) await toPage(pane, 'run');
  await button.click();
  const done = pane.locator('p.look_done[tabindex]', { hasText: 'Built the sheet' });
  const text = (await done.textContent()) ?? '';
  const name = /“(.+)”/.exec(text)?.[1];
  if (!name) throw new Error(`The pane said: ${text}`);
  return name;
}

/** The label of a field, while it is empty and after. */
export function labelled(label: string): RegExp {
  return new RegExp(`^${label.replace(/[()]/g, '\\$&')}( \\(needed\\))?$`);
}

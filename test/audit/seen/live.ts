import type { Engine } from '../../../src/workbench/engine/engine';
import { rowOf } from './parts';
import { own, plain, reading, result, verdict } from './sealedsheet';

/*
 * The changes of the table, as somebody makes them who has the workbook open: through the client library, or in the
 * grid where that has no call. What they cannot make there stands with the reason, and so do those that the embedded
 * spreadsheet cannot make but that a program's file would tell.
 */

export interface Stage {
  readonly context: Excel.RequestContext;
  readonly sheet: Excel.Worksheet;
  readonly engine: Engine;
}
type Undo = (stage: Stage) => unknown;

/** Made on the sheet itself, and undone. */
interface Live {
  readonly make: (stage: Stage) => Promise<Undo>;
  /** Protected again only when it is undone. */
  readonly staysOpen?: true;
  /** What the seal names, as `group key`. */
  readonly seal?: RegExp;
  readonly damaged?: RegExp;
  /** What the check says: of the cells, or of the file that the program hands over. */
  readonly check?: RegExp;
  /** Why nobody looks at it. */
  readonly outside?: string;
}
/** Made in the file that the program hands over: why it was not made on the sheet. */
interface InFile {
  readonly inFile: string;
}
/** Why it cannot be made in an open workbook, or is the same there as another one. */
interface Never {
  readonly never: string;
}

/** Sets one property of something, which is as before afterwards. */
const setting =
  <T extends object, K extends keyof T & string>(
    of: (stage: Stage) => T,
    property: K,
    change: (before: T[K]) => T[K],
  ) =>
  async (stage: Stage): Promise<Undo> => {
    const found = of(stage);
    (found as T & { load(names: string): unknown }).load(property);
    await stage.context.sync();
    const before = found[property];
    found[property] = change(before);
    await stage.context.sync();
    return (then) => {
      of(then)[property] = before;
    };
  };

const range = (at: () => string) => (stage: Stage) => stage.sheet.getRange(at());
const format = (at: () => string) => (stage: Stage) => stage.sheet.getRange(at()).format;
const font = (at: () => string) => (stage: Stage) => stage.sheet.getRange(at()).format.font;
const rule = (at: () => string) => (stage: Stage) => stage.sheet.getRange(at()).dataValidation;
const ownName = (name: string) => (stage: Stage) => stage.sheet.names.getItem(name);
const bookName = (name: string) => (stage: Stage) => stage.context.workbook.names.getItem(name);

const typed = (at: () => string, what: unknown) => setting(range(at), 'formulas', () => [[what]]);
const formatted = (at: () => string, code: string) => setting(range(at), 'numberFormat', () => [[code]]);
const locked = (at: () => string, isLocked: boolean) =>
  setting(
    (stage: Stage) => stage.sheet.getRange(at()).format.protection,
    'locked',
    () => isLocked,
  );
const renamed = (of: (stage: Stage) => Excel.NamedItem, change: (formula: string) => string) =>
  setting(of, 'formula', (before) => change(String(before)));

/** Takes a name away. */
const unnamed =
  (list: (stage: Stage) => Excel.NamedItemCollection, name: string) =>
  async (stage: Stage): Promise<Undo> => {
    const item = list(stage).getItem(name);
    item.load('formula,comment,visible');
    await stage.context.sync();
    const { formula, comment, visible } = item;
    item.delete();
    await stage.context.sync();
    return async (then) => {
      const added = list(then).add(name, formula, comment);
      await then.context.sync();
      // In the batch that adds a name a program does not hide it.
      added.visible = visible;
    };
  };

const newName =
  (name: () => string, refersTo: string) =>
  async ({ context }: Stage): Promise<Undo> => {
    context.workbook.names.add(name(), refersTo);
    await context.sync();
    return (then) => then.context.workbook.names.getItem(name()).delete();
  };

const alsoUndone =
  (...all: ((stage: Stage) => Promise<Undo>)[]) =>
  async (stage: Stage): Promise<Undo> => {
    const undo: Undo[] = [];
    for (const make of all) undo.unshift(await make(stage));
    return async (then) => {
      for (const each of undo) await each(then);
    };
  };

const [PLAIN, READING, RESULT, VERDICT] = [() => plain, () => reading, () => result, () => verdict];
/** The first cell with an input rule of its layout. */
const RULED = () => own.validations[0]!.range;
const CALLED = () =>
  /LIGHT\.[A-Z]+/.exec(
    Object.values(own.cells).find(({ formula }) => /LIGHT\./.test(formula ?? ''))!.formula!,
  )![0];

/** Hides or shows lines in the grid. */
const hidden = (what: 'row' | 'column') => async (stage: Stage) => {
  const at = what === 'row' ? Number(rowOf(RESULT())) - 1 : 1;
  const { shown } = stage.engine.sheetByName(own.name)!;
  const inGrid = (work: () => unknown) => stage.engine.port.ours(work);
  inGrid(() => (what === 'row' ? shown.hideRows(at, 1) : shown.hideColumns(at, 1)));
  return () => inGrid(() => (what === 'row' ? shown.showRows(at, 1) : shown.showColumns(at, 1)));
};

const EMBEDDED = 'the embedded spreadsheet has it not; other programs do, and their file tells it';
const NO_CALL = 'the library has no call for it; a person can do it, and the file tells it';
const NOTES = 'the library has calls for notes (ExcelApi 1.18), the embedded spreadsheet not';
const SAVED = 'a program that saves writes its file anew and would not write this';
const CALCULATED = 'in an open workbook a formula shows what it calculates';

export const LIVE: Readonly<Record<string, Live | InFile | Never>> = {
  'a result': { make: typed(RESULT, 3999), seal: /^(?:cell|result)/, check: /A constant stands in/ },
  'a verdict': { make: typed(VERDICT, 'fail'), seal: /^(?:cell|result)/, check: /A constant stands in/ },
  'a row hidden': { make: hidden('row'), seal: /^sheet row \d+$/, check: /Row \d+ is hidden/ },
  'a row of no height': {
    make: setting(format(RESULT), 'rowHeight', () => 0),
    seal: /^sheet row \d+$/,
    check: /Row \d+ is hidden/,
  },
  'a column hidden': { make: hidden('column'), seal: /^sheet column B$/, check: /Column B is hidden/ },
  'a column of no width': {
    make: setting(
      format(() => 'B1'),
      'columnWidth',
      () => 0,
    ),
    seal: /^sheet column B$/,
    check: /Column B is hidden/,
  },
  'rows hidden unless they say otherwise': { inFile: NO_CALL },
  'the tab’s name': {
    make: async ({ sheet, context }) => {
      sheet.name = 'Run approved';
      await context.sync();
      return (then) => {
        then.sheet.name = own.name;
      };
    },
    seal: /^sheet tab$/,
  },
  'letters as white as the paper': {
    make: setting(font(RESULT), 'color', () => '#FFFFFF'),
    seal: /^cell/,
    check: /cannot be read/,
  },
  'letters of 1 point': {
    make: setting(font(RESULT), 'size', () => 1),
    seal: /^cell/,
    check: /cannot be read/,
  },
  'another colour': { make: setting(font(RESULT), 'color', () => '#00AA00'), seal: /^cell/ },
  'a font of signs': { inFile: 'the embedded spreadsheet keeps no fonts in its file; other programs do' },
  'struck out': { inFile: EMBEDDED },
  'a coloured fill': {
    make: async ({ sheet, context }) => {
      sheet.getRange(result).format.fill.color = '#00FF00';
      await context.sync();
      return (then) => {
        const { fill } = own.cells[result]!.style ?? {};
        if (fill) then.sheet.getRange(result).format.fill.color = fill;
        else then.sheet.getRange(result).format.fill.clear();
      };
    },
    seal: /^cell/,
  },
  'a pattern behind it': { inFile: EMBEDDED },
  'pushed out of its cell': { inFile: EMBEDDED },
  'a conditional format with a number format': { inFile: EMBEDDED },
  'a conditional format of another kind': { inFile: EMBEDDED },
  'the alert of a check taken away': {
    make: async ({ sheet, context }) => {
      const [first] = own.alerts;
      sheet.getRange(first!.range).conditionalFormats.clearAll();
      await context.sync();
      return (then) => {
        for (const { range: area, begins, fill, color } of own.alerts.filter(
          (each) => each.range === first!.range,
        )) {
          const added = then.sheet.getRange(area).conditionalFormats.add('ContainsText');
          added.textComparison.rule = { operator: 'BeginsWith', text: begins };
          added.textComparison.format.fill.color = fill;
          added.textComparison.format.font.color = color;
        }
      };
    },
    check: /conditional formats of \w+ are not those of the layout/,
  },
  'cells merged over a reading': {
    make: async ({ sheet, context }) => {
      const below = reading.replace(/\d+/, (row) => String(Number(row) + 1));
      const area = sheet.getRange(`${reading}:${below}`);
      area.load('formulas');
      await context.sync();
      const { formulas } = area;
      area.merge(false);
      await context.sync();
      return (then) => {
        const again = then.sheet.getRange(`${reading}:${below}`);
        again.unmerge();
        again.formulas = formulas;
      };
    },
    // What was below is lost, so that the seal tells of it, too.
    seal: /^cell/,
    check: /are merged: only the first of them is seen/,
  },
  'a note of ours': { inFile: NOTES },
  'a note of ours taken away': { inFile: NOTES },
  'all notes of ours taken away': { inFile: NOTES },
  'a comment that people answer': { inFile: EMBEDDED },
  'a link out of the workbook': { inFile: EMBEDDED },
  'a link within the workbook': { inFile: EMBEDDED },
  'a text box': { inFile: EMBEDDED },
  'a picture': { inFile: EMBEDDED },
  'an opened range': { inFile: EMBEDDED },
  'a protection that allows more': { inFile: 'the embedded spreadsheet’s file has our own options only' },
  'protection taken off': {
    // Whoever changes anything has the sheet open; here it stays so.
    make: async () => () => undefined,
    staysOpen: true,
    seal: /^sheet protection$/,
    check: /not protected/,
  },
  'precision as displayed': { inFile: EMBEDDED },
  iteration: { inFile: EMBEDDED },
  'manual calculation': {
    inFile: 'the embedded spreadsheet does not write it into its file; other programs do',
  },
  'days from 1904': { inFile: EMBEDDED },
  'zeros left out': { inFile: NO_CALL },
  'formulas shown': { inFile: NO_CALL },
  'a function that shadows one of a program': {
    make: newName(() => 'AVERAGE', '=LAMBDA(x,3999)'),
    seal: /^sheet name of the workbook AVERAGE$/,
    check: /has a name AVERAGE/,
  },
  'a name that shadows a function of ours': {
    make: newName(CALLED, '=3999'),
    seal: /^sheet name of the workbook LIGHT\./,
    check: /has a name LIGHT\./,
  },
  'a name that moves with the cell': {
    make: renamed(ownName('WhiteReadings'), (formula) => formula.replaceAll('$', '')),
    seal: /^name WhiteReadings$/,
  },
  'what a person is told at a cell': {
    make: setting(rule(RULED), 'prompt', (before) => ({
      ...before,
      message: `Type 3999. ${before.message}`,
    })),
    seal: /^rule/,
    check: /words of the input rule/,
  },
  'an input rule that stops nothing': {
    make: setting(rule(RULED), 'errorAlert', (before) => ({ ...before, style: 'Warning' as const })),
    seal: /^rule/,
    check: /no longer stops/,
  },
  'who sealed': {
    make: renamed(ownName('LightSeal'), (formula) => formula.replace('A.%20Nobody', 'B.%20Nobody')),
    seal: /^sheet made$/,
  },
  'when it was sealed': {
    make: renamed(ownName('LightSeal'), (formula) =>
      formula.replace('2026-11-25T09:30:00Z', '2026-11-20T09:30:00Z'),
    ),
    seal: /^sheet made$/,
  },
  'its history': {
    make: renamed(ownName('LightSealHistory'), (formula) =>
      formula.replace('light-history|1|', 'light-history|1|reopened~2026-11-01T00:00:00Z~B~x~|'),
    ),
    seal: /^sheet history$/,
  },
  'a sheet of a foreign namespace': { inFile: SAVED },
  'two links of one id': { inFile: SAVED },
  'the mark of the sheet taken away': {
    make: unnamed(({ sheet }) => sheet.names, 'LightSheet'),
    damaged: /seal belongs to another sheet/,
    check: /no sheet bears it/,
  },
  'heads and feet of the print': {
    make: setting(
      ({ sheet }: Stage) => sheet.pageLayout.headersFooters.defaultForAllPages,
      'centerFooter',
      () => 'Approved',
    ),
    outside: 'it is on paper only, and says nothing of a figure',
  },
  'bold letters': {
    make: setting(font(RESULT), 'bold', (before) => !before),
    outside: 'weight and slant hide nothing',
  },
  'a reading typed anew': { make: typed(READING, 999), seal: /^cell/ },
  'a reading deleted': { make: typed(READING, ''), seal: /^cell/ },
  'a result that is an error, and a verdict in its place': {
    make: alsoUndone(typed(RESULT, '=NA()'), typed(VERDICT, 'fail')),
    seal: /^(?:cell|result)/,
    check: /is not the one built/,
  },
  'a number format that says another number': {
    make: formatted(RESULT, '"3999"'),
    seal: /^cell/,
    check: /number format of \w+ was altered/,
  },
  'a number format that says another verdict': {
    make: formatted(VERDICT, ';;;"fail"'),
    seal: /^cell/,
    check: /number format of \w+ was altered/,
  },
  'a number format that shows nothing': {
    make: formatted(RESULT, ';;;'),
    seal: /^cell/,
    check: /number format of \w+ was altered/,
  },
  'a formula’s value in its place': {
    make: async ({ sheet, context }) => {
      const cell = sheet.getRange(result);
      cell.load('values,formulas');
      await context.sync();
      const { values, formulas } = cell;
      cell.values = values;
      await context.sync();
      return (then) => {
        then.sheet.getRange(result).formulas = formulas;
      };
    },
    seal: /^cell/,
    check: /A constant stands in/,
  },
  'a formula altered': {
    make: setting(range(PLAIN), 'formulas', (before) => [[String(before[0]![0]).replace('=', '=1*')]]),
    seal: /^cell/,
    check: /is not the one built/,
  },
  'a cell split by a space': {
    make: setting(range(PLAIN), 'formulas', (before) => [
      [String(before[0]![0]).replace('=', '=$A$1 $A:$A+')],
    ]),
    seal: /^cell/,
    check: /is not the one built/,
  },
  'a lock taken off a formula': {
    make: locked(RESULT, false),
    seal: /^cell/,
    check: /is not locked/,
  },
  'a lock put on a reading': {
    make: locked(READING, true),
    seal: /^cell/,
    check: /is for input and is locked/,
  },
  'the sheet hidden': {
    make: setting(
      ({ sheet }: Stage) => sheet,
      'visibility',
      () => 'Hidden' as const,
    ),
    seal: /^sheet state$/,
    check: /sheet is hidden/,
  },
  'the sheet hidden from the menu, too': {
    make: setting(
      ({ sheet }: Stage) => sheet,
      'visibility',
      () => 'VeryHidden' as const,
    ),
    seal: /^sheet state$/,
    check: /sheet is hidden/,
  },
  'a row of 1 point': {
    make: setting(format(RESULT), 'rowHeight', () => 1),
    seal: /^sheet row \d+$/,
    check: /Row \d+ is hidden/,
  },
  'rows folded into a group': { never: 'folded rows are hidden rows to whoever asks: see there' },
  'a column folded into a group': { never: 'a folded column is a hidden column to whoever asks: see there' },
  'a row hidden as if by a filter': {
    make: async (stage) => {
      stage.sheet.autoFilter.apply('A1:Z200');
      await stage.context.sync();
      const show = await hidden('row')(stage);
      return (then) => {
        then.sheet.autoFilter.remove();
        show();
      };
    },
    seal: /^sheet row \d+$/,
    check: /Row \d+ is hidden/,
  },
  'an input rule taken away': {
    make: async ({ sheet, context }) => {
      const asked = sheet.getRange(RULED()).dataValidation;
      asked.load('rule,prompt,errorAlert');
      await context.sync();
      const before = asked.toJSON();
      asked.clear();
      await context.sync();
      return (then) => {
        Object.assign(then.sheet.getRange(RULED()).dataValidation, {
          rule: before.rule,
          prompt: before.prompt,
          errorAlert: before.errorAlert,
        });
      };
    },
    seal: /^rule/,
    check: /has lost its input rule/,
  },
  'what a refusal says': {
    make: setting(rule(RULED), 'errorAlert', (before) => ({
      ...before,
      message: `Type 3999. ${before.message}`,
    })),
    seal: /^rule/,
    check: /words of the input rule/,
  },
  'a name that points elsewhere': {
    make: renamed(ownName('WhiteReadings'), (formula) => formula.replace(/\$(\d+)(?=$|:)/, '$99')),
    seal: /^name WhiteReadings$/,
    check: /name WhiteReadings does not point/,
  },
  'a name deleted': {
    make: unnamed(({ sheet }) => sheet.names, 'WhiteReadings'),
    seal: /^name WhiteReadings$/,
    check: /name WhiteReadings is missing/,
  },
  'a name of another sheet’s figure': {
    make: newName(() => 'WhiteReadings', '=3999'),
    outside: 'a name of the sheet goes before one of the workbook',
  },
  'a conditional format with white letters': { inFile: EMBEDDED },
  'icons beside figures': { inFile: EMBEDDED },
  'a scale of colours': {
    make: async ({ sheet, context }) => {
      const added = sheet.getRange(result).conditionalFormats.add('ColorScale');
      added.colorScale.criteria = {
        minimum: { type: 'LowestValue', color: '#FFFFFF' },
        maximum: { type: 'HighestValue', color: '#FFFFFF' },
      };
      await context.sync();
      return (then) => then.sheet.getRange(result).conditionalFormats.clearAll();
    },
    check: /conditional formats of \w+ are not those of the layout/,
  },
  'a conditional format in the list of extensions': { inFile: EMBEDDED },
  'the threshold of a check': { inFile: EMBEDDED },
  'a chart of a stranger': { inFile: EMBEDDED },
  'letters turned upside': { inFile: EMBEDDED },
  'letters below one another': { inFile: EMBEDDED },
  'a figure repeated over its cell': { inFile: EMBEDDED },
  'letters shrunk to fit': { inFile: EMBEDDED },
  'a figure centred over its neighbours': { inFile: EMBEDDED },
  'read from right to left': { inFile: EMBEDDED },
  'seen at a tenth': { inFile: NO_CALL },
  'without heads of rows and columns': { inFile: EMBEDDED },
  'the colour of the tab': { inFile: EMBEDDED },
  'a word of a text in white': {
    make: typed(() => 'A1', 'Not approved'),
    seal: /^cell A1$/,
    check: /fixed text in A1 was altered/,
  },
  'views of one’s own that hide rows': { inFile: NO_CALL },
  'other colours by their numbers': { inFile: NO_CALL },
  'the program that sealed': {
    make: renamed(ownName('LightSeal'), () => '="light-seal|2|x"'),
    damaged: /seal itself is damaged/,
  },
  'the seal taken away': {
    make: unnamed(({ sheet }) => sheet.names, 'LightSeal'),
    damaged: /seal itself is damaged/,
  },
  'the register of seals taken away': {
    make: unnamed(({ context }) => context.workbook.names, 'LightSealRegister'),
    damaged: /register does not know this seal/,
  },
  'the mark of the workbook altered': {
    make: renamed(bookName('LightBook'), (formula) =>
      formula.replace(/light-book\|1\|\w/, 'light-book|1|zz'),
    ),
    damaged: /sealed in another workbook/,
  },
  'the sheet made a log': {
    make: renamed(ownName('LightSheet'), (formula) => formula.replace(/run;\d+/, 'log;1')),
    damaged: /seal belongs to another sheet/,
  },
  'a foreign row': { inFile: SAVED },
  'a choice between contents': { inFile: SAVED },
  'a prefix of another namespace': { inFile: SAVED },
  'a cell that stands twice': { inFile: SAVED },
  'a row that stands twice': { inFile: SAVED },
  'a second list of rows': { inFile: SAVED },
  'two sheets of one name': { inFile: SAVED },
  'a comment within a figure': { inFile: SAVED },
  'a cell in small letters': { never: SAVED },
  'a cell without a place': { never: SAVED },
  'a formula over a whole sheet': { inFile: SAVED },
  'a table of what would be': { never: `${CALCULATED}, and its formula is then another: see there` },
  'a figure that is a picture in its cell': { inFile: EMBEDDED },
  'a value of a workbook elsewhere': {
    make: setting(range(PLAIN), 'formulas', () => [['=[Other.xlsx]Run!$A$1']]),
    seal: /^cell/,
    check: /is not the one built/,
  },
  'an entity of its own': { inFile: SAVED },
};

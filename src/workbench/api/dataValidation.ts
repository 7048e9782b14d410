import { dayNumber } from '../../sheets/days';
import type { AlertStyle, ValidationItem, ValidationRuleData } from '../engine/rules';
import { isValid, validationType } from '../engine/validity';
import { ApiError } from '../errors';
import { type Area, absoluteReference } from './area';
import { type ApiHost, ApiObject } from './object';

/** Excel's limits: "Add data validation to Excel ranges" (Office Add-ins documentation); error text [MS-OI29500] 2.1.613. */
const TITLE_MAX = 32;
const PROMPT_MAX = 255;
const ERROR_MAX = 224;
const LIST_MAX = 255;

export class DataValidation extends ApiObject {
  readonly typeName = 'DataValidation';
  override readonly scalars = ['errorAlert', 'ignoreBlanks', 'prompt', 'rule', 'type', 'valid'];
  constructor(
    host: ApiHost,
    readonly range: Area,
  ) {
    super(host);
  }
  get type() {
    return validationType(this.#item?.rule ?? {});
  }
  get rule() {
    return told(this.#item?.rule ?? {});
  }
  set rule(rule: ValidationRuleData) {
    this.#change({ rule: checkedRule(rule) });
  }
  get prompt() {
    return this.#item?.prompt ?? { showPrompt: true, title: '', message: '' };
  }
  set prompt(prompt: ValidationItem['prompt']) {
    checkLength(prompt.title, TITLE_MAX, 'prompt title');
    checkLength(prompt.message, PROMPT_MAX, 'prompt');
    this.#change({
      prompt: {
        showPrompt: prompt.showPrompt ?? true,
        title: prompt.title ?? '',
        message: prompt.message ?? '',
      },
    });
  }
  get errorAlert() {
    return this.#item?.errorAlert ?? { showAlert: true, style: 'Stop', title: '', message: '' };
  }
  set errorAlert(alert: ValidationItem['errorAlert']) {
    checkLength(alert.title, TITLE_MAX, 'error title');
    checkLength(alert.message, ERROR_MAX, 'error message');
    const style: AlertStyle = alert.style ?? 'Stop';
    if (!['Stop', 'Warning', 'Information'].includes(style)) throw new ApiError('InvalidArgument');
    this.#change({
      errorAlert: {
        showAlert: alert.showAlert ?? true,
        style,
        title: alert.title ?? '',
        message: alert.message ?? '',
      },
    });
  }
  get ignoreBlanks() {
    return this.#item?.ignoreBlanks ?? true;
  }
  set ignoreBlanks(ignoreBlanks: boolean) {
    this.#change({ ignoreBlanks });
  }
  /** True, false, or null where some cells are valid and some are not. */
  get valid() {
    const { sheet } = this.range;
    const { row, column, rows, columns } = sheet.clip(this.range.rect);
    const verdicts = new Set<boolean>();
    for (let r = row; r < row + rows; r++)
      for (let c = column; c < column + columns; c++) {
        const item = sheet.validationAt(r, c);
        verdicts.add(!item || isValid(item, sheet.value(r, c), sheet));
      }
    return verdicts.size === 1 ? [...verdicts][0] : null;
  }
  clear() {
    this.range.sheet.requireAllowed('allowFormatCells');
    this.range.sheet.setValidation(this.range.rect, undefined);
    this.engine.looksChanged(this.range.sheet);
  }

  /** The one validation that covers the whole range. */
  get #item(): ValidationItem | undefined {
    const { sheet, rect } = this.range;
    return sheet.validationOf(rect);
  }
  #change(change: Partial<ValidationItem>): void {
    const { sheet, rect } = this.range;
    sheet.requireAllowed('allowFormatCells');
    const before = this.#item ?? {
      rule: {},
      prompt: { showPrompt: true, title: '', message: '' },
      errorAlert: { showAlert: true, style: 'Stop' as const, title: '', message: '' },
      ignoreBlanks: true,
    };
    sheet.setValidation(rect, { ...before, ...change, range: rect });
    this.engine.looksChanged(sheet);
  }
}

function checkLength(text: string | undefined, most: number, what: string): void {
  if ((text ?? '').length > most)
    throw new ApiError('InvalidArgument', `The ${what} has ${text!.length} characters; Excel takes ${most}.`);
}

/** A rule with its bounds as they are told: as text formulas, whatever they were given as. */
function told(rule: ValidationRuleData): ValidationRuleData {
  return Object.fromEntries(
    Object.entries(rule).map(([kind, told]) => [
      kind,
      'formula1' in told
        ? {
            ...told,
            formula1: bound(told.formula1),
            ...(told.formula2 === undefined ? {} : { formula2: bound(told.formula2) }),
          }
        : told,
    ]),
  );
}

/** "Always returned as a string formula, for example: "=10"" (reference of BasicDataValidation.formula1). */
function bound(given: string | number): string {
  const text = String(given);
  if (text.startsWith('=')) return text;
  const [, iso] = /^(\d{4}-\d\d-\d\d)$/.exec(text) ?? [];
  return `=${iso ? dayNumber(iso) : text.toUpperCase()}`;
}

/** Exactly one kind of rule; ranges given as a list's source become references. */
function checkedRule(rule: ValidationRuleData): ValidationRuleData {
  const kinds = Object.keys(rule ?? {}).filter((kind) => rule[kind as keyof ValidationRuleData] != null);
  if (kinds.length !== 1 || validationType(rule) === 'None')
    throw new ApiError('InvalidArgument', 'A rule has exactly one kind.');
  if (!rule.list) return rule;
  const given: unknown = rule.list.source;
  const source =
    given instanceof ApiObject ? absoluteReference(given as ApiObject & Area) : String(given ?? '');
  if (!source.startsWith('=')) checkLength(source, LIST_MAX, 'list');
  if (source === '') throw new ApiError('InvalidArgument', 'The list is empty.');
  return { list: { source, inCellDropDown: rule.list.inCellDropDown ?? true } };
}

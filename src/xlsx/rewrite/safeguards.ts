/*
 * What stands behind a sheet's cells has an order (ECMA-376-1, 18.3.1.99, CT_Worksheet): each comes before the first of
 * those that follow it.
 */
const AFTER_PROTECTION = [
  'protectedRanges',
  'scenarios',
  'autoFilter',
  'sortState',
  'dataConsolidate',
  'customSheetViews',
  'mergeCells',
  'phoneticPr',
  'conditionalFormatting',
  'dataValidations',
];
const AFTER_RULES = [
  'hyperlinks',
  'printOptions',
  'pageMargins',
  'pageSetup',
  'headerFooter',
  'rowBreaks',
  'colBreaks',
  'customProperties',
  'cellWatches',
  'ignoredErrors',
  'smartTags',
  'drawing',
  'legacyDrawing',
  'legacyDrawingHF',
  'drawingHF',
  'picture',
  'oleObjects',
  'controls',
  'webPublishItems',
  'tableParts',
  'extLst',
];

/** A worksheet's XML with the input rules of another that we have written; none if that has none. */
export function putRules(xml: string, donor: string): string {
  const rules = elementOf(donor, 'dataValidations') ?? '';
  return put(xml, 'dataValidations', rules, AFTER_RULES);
}

/** A worksheet's XML with the protection of another that we have written, where it has none. */
export function putProtection(xml: string, donor: string): string {
  const protection = elementOf(donor, 'sheetProtection') ?? '';
  return put(xml, 'sheetProtection', protection, [...AFTER_PROTECTION, ...AFTER_RULES]);
}

function pattern(tag: string): RegExp {
  return new RegExp(`<((?:\\w+:)?)${tag}(?:\\s[^<>]*?)?(?:/>|>[\\s\\S]*?</\\1${tag}\\s*>)`);
}

function elementOf(xml: string, tag: string): string | undefined {
  return pattern(tag).exec(xml)?.[0];
}

function put(xml: string, tag: string, element: string, after: readonly string[]): string {
  const p = /<((?:\w+:)?)worksheet[\s>]/.exec(xml)?.[1] ?? '';
  const own = p === '' ? element : element.replace(/<(\/?)(?=\w)/g, `<$1${p}`);
  const standing = elementOf(xml, tag);
  if (standing !== undefined) return xml.replace(standing, () => own);
  const next = new RegExp(`<${p}(?:${after.join('|')})[\\s/>]|</${p}worksheet\\s*>`);
  const behind = xml.search(new RegExp(`</${p}sheetData\\s*>|<${p}sheetData\\s*/>`));
  const at = xml.slice(behind).search(next) + behind;
  return xml.slice(0, at) + own + xml.slice(at);
}

import type { FileRemark } from '../../sheets/book';
import { elements } from '../xml';

/** Kinds of conditional formats that a Book holds; a check compares them with the layout. */
const KNOWN: ReadonlySet<string> = new Set(['beginsWith', 'colorScale']);

/** Conditional formats that a Book does not hold, and any that changes what number is shown. */
export function ruleRemarks(sheet: string, xml: string, styles: string): FileRemark[] {
  const looks = [...(/<(?:\w+:)?dxfs[\s>][\s\S]*?<\/(?:\w+:)?dxfs>/.exec(styles)?.[0] ?? '').matchAll(DXF)];
  const found: FileRemark[] = [];
  for (const [, open = '', inner = ''] of xml.matchAll(FORMATTING)) {
    const at = /\bsqref\s*=\s*["']([^"']*)["']/.exec(open)?.[1]?.trim().split(/\s+/)[0];
    for (const { attribute } of elements(inner, 'cfRule')) {
      const type = attribute('type') ?? '';
      const look = looks[Number(attribute('dxfId') ?? -1)]?.[0] ?? '';
      const showsOther = /<(?:\w+:)?numFmt\s/.test(look);
      if (KNOWN.has(type) && !showsOther) continue;
      found.push({
        sheet,
        ...(at ? { at } : {}),
        message: showsOther
          ? 'A conditional format shows other figures than the cells hold.'
          : 'A conditional format is not of the layout.',
        expected: 'the conditional formats of the layout',
        found: showsOther ? (elements(look, 'numFmt')[0]?.attribute('formatCode') ?? type) : type,
        isGrave: true,
      });
    }
  }
  // Those of later versions of the program stand apart (MS-XLSX, 2.6.13).
  for (const [, sqref = ''] of xml.matchAll(NEWER)) {
    found.push({
      sheet,
      ...(sqref.trim() ? { at: sqref.trim().split(/\s+/)[0]! } : {}),
      message: 'A conditional format is not of the layout.',
      expected: 'the conditional formats of the layout',
      found: sqref.trim(),
      isGrave: true,
    });
  }
  return found;
}

const DXF = /<(?:\w+:)?dxf(?:\s[^<>]*?)?(?:\/>|>[\s\S]*?<\/(?:\w+:)?dxf>)/g;
const FORMATTING = /<conditionalFormatting(\s[^<>]*)>([\s\S]*?)<\/conditionalFormatting>/g;
const NEWER =
  /<\w+:conditionalFormatting(?=[\s>])[\s\S]*?(?:<\w+:sqref>([^<]*)<\/\w+:sqref>\s*)?<\/\w+:conditionalFormatting>/g;

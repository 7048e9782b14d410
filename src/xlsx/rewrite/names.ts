import type { DefinedName } from '../../sheets/book';
import { storeFormula } from '../formula';
import { xmlText } from '../handover/xml';
import { storeText } from '../text';

/** A name of a sheet, by the sheet's place among all, or of the workbook. */
export interface PlacedName extends DefinedName {
  readonly sheet?: number;
}

const NAME = /<((?:\w+:)?)definedName\s([^<>]*?)(?:\/>|>[^<]*<\/\1definedName>)/g;

/** workbook.xml without some names and with others. Names are told apart by their sheet, without regard to case. */
export function changeNames(xml: string, gone: readonly PlacedName[], added: readonly PlacedName[]): string {
  const key = (name: string, sheet: number | undefined) => `${sheet ?? ''} ${name.toLowerCase()}`;
  const away = new Set([...gone, ...added].map(({ name, sheet }) => key(name, sheet)));
  const kept = xml.replace(NAME, (whole, _, attributes: string) => {
    const name = /(?:^|\s)name\s*=\s*["']([^"']*)["']/.exec(attributes)?.[1];
    const sheet = /(?:^|\s)localSheetId\s*=\s*["'](\d+)["']/.exec(attributes)?.[1];
    const isGone = name !== undefined && away.has(key(name, sheet === undefined ? undefined : Number(sheet)));
    return isGone ? '' : whole;
  });
  const p = /<((?:\w+:)?)workbook[\s>]/.exec(xml)?.[1] ?? '';
  const list = added
    .map(({ name, refersTo, hidden, comment, sheet }) => {
      const attributes = [
        `name="${xmlText(name)}"`,
        ...(sheet === undefined ? [] : [`localSheetId="${sheet}"`]),
        ...(comment === undefined ? [] : [`comment="${xmlText(storeText(comment))}"`]),
        ...(hidden ? ['hidden="1"'] : []),
      ];
      return `<${p}definedName ${attributes.join(' ')}>${xmlText(storeFormula(refersTo))}</${p}definedName>`;
    })
    .join('');
  const end = `</${p}definedNames>`;
  const empty = new RegExp(`<${p}definedNames\\s*>\\s*${end}`);
  if (list === '') return kept.replace(empty, '');
  if (kept.includes(end)) return kept.replace(end, () => list + end);
  // The list stands behind the sheets and the links to other workbooks (ECMA-376-1, CT_Workbook).
  const bare = kept.replace(new RegExp(`<${p}definedNames\\s*/>`), '');
  const after = ['externalReferences', 'functionGroups', 'sheets'].find((tag) =>
    bare.includes(`</${p}${tag}>`),
  );
  return bare.replace(`</${p}${after}>`, (tag) => `${tag}<${p}definedNames>${list}${end}`);
}

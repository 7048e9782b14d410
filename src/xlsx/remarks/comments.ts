import type { FileRemark } from '../../sheets/book';
import type { Link } from '../parts';
import { elements } from '../xml';

/** Comments that people answer (MS-XLSX, 2.6.205), one remark a cell: our sheets are built with notes only. */
export function commentRemarks(
  sheet: string,
  listed: readonly Link[],
  text: (path: string) => string | undefined,
): FileRemark[] {
  const found = new Map<string, string[]>();
  for (const { part } of listed.filter(({ kind }) => kind === 'threadedComment')) {
    for (const [, open = '', inner = ''] of (text(part) ?? '').matchAll(COMMENT)) {
      const at = elements(open, 'threadedComment')[0]?.attribute('ref') ?? '';
      found.set(at, [...(found.get(at) ?? []), elements(inner, 'text')[0]?.text ?? '']);
    }
  }
  return [...found].map(([at, said]) => ({
    sheet,
    ...(at === '' ? {} : { at }),
    message: `${at} has a comment that is not of the layout.`,
    expected: 'no comment',
    found: said.join(' / '),
    isGrave: false,
    isComment: true,
  }));
}

const COMMENT =
  /(<(?:\w+:)?threadedComment\s[^<>]*>)([\s\S]*?)(?=<(?:\w+:)?threadedComment\s|<\/(?:\w+:)?ThreadedComments)/g;

import type { FileRemark } from '../../sheets/book';
import type { Link } from '../parts';
import { elements } from '../xml';

/** Links on cells (ECMA-376-1, 18.3.1.47): what a cell shows stays, and whoever clicks it is led elsewhere. */
export function linkRemarks(sheet: string, xml: string, listed: readonly Link[]): FileRemark[] {
  return elements(xml, 'hyperlink').map(({ attribute }): FileRemark => {
    const at = attribute('ref') ?? '';
    const outside = listed.find(({ id, kind }) => kind === 'hyperlink' && id === attribute('id'))?.target;
    const inside = attribute('location');
    const to = `${outside ?? ''}${inside === undefined ? '' : `#${inside}`}`;
    const tip = attribute('tooltip') ?? '';
    return {
      sheet,
      ...(at === '' ? {} : { at }),
      message: `A link that is not of the layout lies on ${at}.`,
      expected: 'no link',
      found: tip === '' ? to : `${to}, which says “${tip}”`,
      isGrave: true,
      link: { to, tip },
    };
  });
}

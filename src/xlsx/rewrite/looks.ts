import type { Style } from '../../sheets/book';
import { xmlText } from '../handover/xml';
import { append } from './graft';

/** What of a cell's look is put back: its number format, and whether the protection of the sheet holds it. */
export interface Safeguard {
  readonly format: string;
  readonly isLocked: boolean;
}

export function safeguardOf(style: Style | undefined): Safeguard {
  return { format: style?.format ?? GENERAL, isLocked: style?.locked !== false };
}
const GENERAL = 'General';

/**
 * Looks of a workbook that are wanted besides those it has: each like one that is there but for its number format and
 * its lock.
 */
export class FurtherLooks {
  private readonly p: string;
  private readonly own: readonly string[];
  private readonly formats = new Map<string, number>();
  private readonly newFormats: string[] = [];
  private readonly looks = new Map<string, number>();
  private readonly newLooks: string[] = [];
  private free: number;

  constructor(private readonly xml: string) {
    this.p = /<((?:\w+:)?)styleSheet[\s>]/.exec(xml)?.[1] ?? '';
    this.own = this.elements('cellXfs', 'xf');
    for (const item of this.elements('numFmts', 'numFmt')) {
      const code = /\sformatCode\s*=\s*["']([^"']*)["']/.exec(item)?.[1];
      const id = /\snumFmtId\s*=\s*["'](\d+)["']/.exec(item)?.[1];
      if (code !== undefined && id !== undefined) this.formats.set(code, Number(id));
    }
    this.free = Math.max(163, ...this.formats.values());
  }

  /** The number of the look that is like another but for these. */
  like(look: number, { format, isLocked }: Safeguard): number {
    const key = `${look} ${isLocked} ${format}`;
    const known = this.looks.get(key);
    if (known !== undefined) return known;
    const own = this.own[look] ?? `<${this.p}xf numFmtId="0"/>`;
    const isSame =
      isLocked === !/\slocked\s*=\s*["'](?:0|false)["']/.test(own) && this.formatOf(own) === format;
    const number = isSame ? look : this.own.length + this.newLooks.length;
    this.looks.set(key, number);
    if (!isSame) this.newLooks.push(this.changed(own, format, isLocked));
    return number;
  }

  /** The part with the looks that were asked for. */
  written(): string {
    const { p } = this;
    const formats = { list: 'numFmts', child: 'numFmt', added: this.newFormats, before: ['fonts'] };
    const looks = { list: 'cellXfs', child: 'xf', added: this.newLooks, before: ['cellStyles', 'dxfs'] };
    return append(append(this.xml, p, formats).xml, p, looks).xml;
  }

  /** The number format of a look, where the file says it; those that every program knows by their number are not told. */
  private formatOf(look: string): string | undefined {
    const id = Number(/\snumFmtId\s*=\s*["'](\d+)["']/.exec(look)?.[1] ?? 0);
    if (id === 0) return GENERAL;
    const code = [...this.formats].find(([, number]) => number === id)?.[0];
    return code === undefined ? undefined : plainText(code);
  }

  private elements(list: string, child: string): string[] {
    const { p } = this;
    const inside = new RegExp(`<${p}${list}(?:\\s[^<>]*)?>([\\s\\S]*?)</${p}${list}>`).exec(this.xml)?.[1];
    const each = new RegExp(`<${p}${child}(?:\\s[^<>]*?)?(?:/>|>[\\s\\S]*?</${p}${child}>)`, 'g');
    return [...(inside ?? '').matchAll(each)].map(([item]) => item);
  }

  private changed(look: string, format: string, isLocked: boolean): string {
    const { p } = this;
    const [, attributes = '', contents = ''] =
      new RegExp(`^<${p}xf((?:\\s[^<>]*?)?)(?:/>|>([\\s\\S]*)</${p}xf>)$`).exec(look) ?? [];
    const others = attributes.replace(
      /\s(?:numFmtId|applyNumberFormat|applyProtection)\s*=\s*(?:"[^"]*"|'[^']*')/g,
      '',
    );
    const rest = contents.replace(new RegExp(`<${p}protection(?:\\s[^<>]*)?/>`), '');
    // The lock stands behind the alignment and before what extends a look (ECMA-376-1, 18.8.45, CT_Xf).
    const lock = isLocked ? '' : `<${p}protection locked="0"/>`;
    const at = rest.indexOf(`<${p}extLst`);
    const inside = at < 0 ? rest + lock : rest.slice(0, at) + lock + rest.slice(at);
    const start = `<${p}xf numFmtId="${this.numberOf(format)}"${others} applyNumberFormat="1" applyProtection="1"`;
    return inside === '' ? `${start}/>` : `${start}>${inside}</${p}xf>`;
  }

  private numberOf(format: string): number {
    if (format === GENERAL) return 0;
    const code = xmlText(format).replace(/"/g, '&quot;').replace(/'/g, '&apos;');
    const known = this.formats.get(code) ?? this.formats.get(code.replace(/&apos;/g, "'"));
    if (known !== undefined) return known;
    const id = ++this.free;
    this.formats.set(code, id);
    this.newFormats.push(`<${this.p}numFmt numFmtId="${id}" formatCode="${code}"/>`);
    return id;
  }
}

function plainText(code: string): string {
  const marks: Readonly<Record<string, string>> = { lt: '<', gt: '>', quot: '"', apos: "'", amp: '&' };
  return code.replace(/&(lt|gt|quot|apos|amp);/g, (_, mark: string) => marks[mark]!);
}

const CELL = /<((?:\w+:)?)c(\s[^<>]*?)(\/?)>/g;

/** A worksheet's XML whose cells have other number formats and locks; those that are not there stay so. */
export function putLooks(xml: string, cells: ReadonlyMap<string, Safeguard>, looks: FurtherLooks): string {
  return xml.replace(CELL, (whole, p: string, attributes: string, end: string) => {
    const at = /\sr\s*=\s*["']([A-Z]+[0-9]+)["']/.exec(attributes)?.[1];
    const wanted = at === undefined ? undefined : cells.get(at);
    if (!wanted) return whole;
    const before = /\ss\s*=\s*["'](\d+)["']/.exec(attributes)?.[1] ?? '0';
    const others = attributes.replace(/\ss\s*=\s*["']\d+["']/, '').trimEnd();
    return `<${p}c${others} s="${looks.like(Number(before), wanted)}"${end}>`;
  });
}

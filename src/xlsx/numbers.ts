/**
 * Numbers of a worksheet as they stand in the file, by address. The library turns numbers in cells with a date
 * format into Date objects, which cuts them to milliseconds and loses those that are no date.
 */
export function storedNumbers(worksheetXml: string): Map<string, number> {
  const found = new Map<string, number>();
  // An opening tag of a cell that is not empty, then its value before the cell ends or the next one starts.
  const cell = /<(?:\w+:)?c\s((?:[^<>/]|\/(?!>))*)>(?:(?!<\/?(?:\w+:)?c[\s/>])[\s\S])*?<(?:\w+:)?v>([^<]+)</g;
  for (const [, attributes = '', value = ''] of worksheetXml.matchAll(cell)) {
    const at = /\br\s*=\s*["']([A-Z]+[0-9]+)["']/.exec(attributes)?.[1];
    if (at !== undefined && !/\bt\s*=\s*["'](?!n["'])/.test(attributes)) found.set(at, Number(value));
  }
  return found;
}

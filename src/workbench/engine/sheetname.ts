/**
 * Excel's rules for sheet names ("Rename a worksheet", support.microsoft.com): 1 to 31 characters, none of
 * `/ \ ? * : [ ]`, no apostrophe at either end, not "History".
 */
export function isSheetName(name: string): boolean {
  return (
    name.length >= 1 &&
    name.length <= 31 &&
    !/[/\\?*:[\]]/.test(name) &&
    !/^'|'$/.test(name) &&
    name.trim() !== '' &&
    name.toLowerCase() !== 'history'
  );
}

/** Excel compares sheet names without regard to case. */
export function sameName(a: string, b: string): boolean {
  return a.toLowerCase() === b.toLowerCase();
}

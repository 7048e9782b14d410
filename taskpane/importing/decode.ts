/** Text of a file with how it was written: UTF-8, UTF-16 with its mark, else the old Windows letters. */
export function decode(bytes: Uint8Array): { readonly text: string; readonly note: string } {
  const [a, b] = bytes;
  if (a === 0xff && b === 0xfe) return { text: new TextDecoder('utf-16le').decode(bytes), note: '' };
  if (a === 0xfe && b === 0xff) return { text: new TextDecoder('utf-16be').decode(bytes), note: '' };
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes), note: '' };
  } catch {
    // Not UTF-8 is no failure: spreadsheets still save CSV in the letters of the country.
    return {
      text: new TextDecoder('windows-1252').decode(bytes),
      note: 'The file is not in UTF-8; it was read with the letters of western Windows. Check names with accents.',
    };
  }
}

import { plainText } from '../parse/number';

/** How serial numbers are told apart. */
export const keyOf = (serial: string): string => plainText(serial).normalize('NFC');

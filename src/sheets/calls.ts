import { tokens } from './tokens';

/** Our custom functions, as the manifest names them. */
const OWN_CALL = /^LIGHT\./i;

/** True if a formula calls one of our functions. */
export function callsOurs(formula: string): boolean {
  return (
    /LIGHT\./i.test(formula) &&
    tokens(formula).some(({ kind, text }) => kind === 'call' && OWN_CALL.test(text))
  );
}

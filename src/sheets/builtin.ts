/*
 * Names that a program keeps for itself on a sheet: what is printed, its titles, what is filtered (ECMA-376-1, 18.2.5).
 * A file holds them with a prefix; Excel tells an add-in of them without.
 */
const OWN = /^(?:_xlnm\..*|Print_Area|Print_Titles|_FilterDatabase)$/i;

/** Whether a name is the program's and nobody's. */
export function isBuiltIn(name: string): boolean {
  return OWN.test(name);
}

import { associateAll } from '../src/functions/wrap';

/*
 * Registers the custom functions as soon as the script runs: the host looks for them before it says that it is
 * ready. The page opened outside a spreadsheet program has no `CustomFunctions`; it then only shows the pane.
 */
if (typeof CustomFunctions !== 'undefined') {
  associateAll(
    (id, implementation) => CustomFunctions.associate(id, implementation),
    // Office.js brings the class only with the script of its program, which may come after ours. The program's own enum
    // of codes is made of these same texts.
    () => CustomFunctions.Error as unknown as ReturnType<Parameters<typeof associateAll>[1]>,
  );
}

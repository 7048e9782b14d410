import { basename } from 'node:path';
import type { CSSModulesOptions } from 'vite';

/** A class is called after its file, `Progress_fields`: the same in every build, so that tests can ask for it. */
export const looks: CSSModulesOptions = {
  generateScopedName: (name, file) => `${basename(file.replace(/\?.*$/, ''), '.module.css')}_${name}`,
};

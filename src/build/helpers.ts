import type { Plugin } from 'vite';

const ENTRY = './src/index.ts';
const STORAGE = './src/helpers/storage.ts';

/**
 * Of `@microsoft/office-js-helpers` only its storage is used, but it comes as one bundle with all else: addresses of
 * sign-in services, a banner with inline styles, calls that delete sheets. What the storage does not ask for stays out
 * of the pane.
 */
export const storageOnly: Plugin = {
  name: 'storage-only',
  transform: { filter: { id: /office\.helpers\.js$/ }, handler: (code) => keepStorage(code) },
};

/** Throws if the bundle is not what it was: another version may need another look. */
function keepStorage(code: string): string {
  const begin = code.indexOf('/******/ ({\n');
  const end = code.lastIndexOf('/******/ });');
  const modules = new Map(
    code
      .slice(begin, end)
      .split(/^(?=\/\*\*\*\/ "\.)/m)
      .slice(1)
      .map((text) => [/^\/\*\*\*\/ "([^"]+)"/.exec(text)![1]!, text] as const),
  );
  if (begin < 0 || !modules.has(ENTRY) || !modules.has(STORAGE))
    throw new Error('The bundle of @microsoft/office-js-helpers is not laid out as it was');
  const wanted = new Set<string>();
  const want = (id: string) => {
    const text = modules.get(id);
    if (text === undefined || wanted.has(id)) return;
    wanted.add(id);
    for (const [, asked] of text.matchAll(/__webpack_require__\("([^"]+)"\)/g)) want(asked!);
  };
  want(STORAGE);
  const entry = `"${ENTRY}": (function(module, exports, __webpack_require__) { exports.Storage = __webpack_require__("${STORAGE}").a; }),`;
  const kept = [...wanted].map((id) => modules.get(id)!.replace(/\}\)\s*$/, '}),\n'));
  return `${code.slice(0, begin)}({\n${entry}\n${kept.join('')}\n${code.slice(end).replace('/******/ ', '')}`;
}

/** The host that manifest.xml in the project names: a server on the developer's machine. */
export const LOCAL_HOST = 'https://localhost:3000/';

/**
 * An address given by a person → the folder's address with a slash at its end. Throws with the reason if
 * Excel would not take it.
 */
export function hostFolder(given: string): string {
  if (!URL.canParse(given)) throw new Error(`"${given}" is not an address such as ${LOCAL_HOST}`);
  const url = new URL(given);
  if (url.protocol !== 'https:') throw new Error(`Excel takes add-ins from https only, not from "${given}"`);
  if (url.search || url.hash || url.username) {
    throw new Error(`"${given}" should be a plain folder, without "?", "#" or a user name`);
  }
  return url.href.endsWith('/') ? url.href : `${url.href}/`;
}

/**
 * manifest.xml for a host and a release. The release stands in the version, and in the address of
 * functions.json, which Excel keeps for up to a day.
 */
export function manifestFor(xml: string, host: string, release: string): string {
  const folder = hostFolder(host);
  const at = folder.replace(/&/g, '&amp;');
  return xml
    .replaceAll(LOCAL_HOST, at)
    .replaceAll(
      `<AppDomain>${LOCAL_HOST.slice(0, -1)}</AppDomain>`,
      `<AppDomain>${new URL(folder).origin}</AppDomain>`,
    )
    .replace(/<Version>[^<]*<\/Version>/, `<Version>${release}.0</Version>`)
    .replace(`${at}functions.json"`, `${at}functions.json?v=${release}"`)
    .replace(/\n?<!-- Addresses are those[^>]*-->/, '');
}

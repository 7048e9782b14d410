import { readFileSync } from 'node:fs';
import { join } from 'node:path';

/** The project's folder; npm runs every script from there. */
export const root = process.cwd();
/** What a host serves to Excel. */
export const dist = join(root, 'dist');
/** Where the pane's pages and components are. */
export const taskpane = join(root, 'taskpane');
/** What the workbench serves, built again at every start. */
export const site = join(root, '.workbench', 'site');

/** Where the certificate for this machine is kept while it is valid. */
export const certificates = join(root, '.workbench', 'certificate');

/** The release, from package.json: `0.1.0`. */
export const version: string = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')).version;

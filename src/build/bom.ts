import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { root } from './paths';

/** What is used of a bill in the CycloneDX format. */
interface Bill {
  metadata: { component: { name: string } };
  components: { 'bom-ref': string; name: string; properties?: { name: string; value: string }[] }[];
  dependencies: { ref: string; dependsOn?: string[] }[];
}

/**
 * The bill of materials of what is served: every package with its version, licence and hash, by npm itself in the
 * CycloneDX format (ECMA-424). Throws with what npm said.
 */
export function billOfMaterials(): string {
  const { status, stdout, stderr, error } = spawnSync(
    'npm',
    ['sbom', '--sbom-format=cyclonedx', '--sbom-type=application'],
    { cwd: root, encoding: 'utf8', maxBuffer: 64 * 1024 * 1024, shell: process.platform === 'win32' },
  );
  if (status !== 0) throw new Error(`npm made no bill of materials: ${error?.message ?? stderr}`);
  const bill = JSON.parse(stdout) as Bill;
  // npm takes the folder's name for the project's.
  bill.metadata.component.name = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')).name;
  // Asked to leave development out, npm also leaves out what development uses as well (11.19).
  const isDevelopment = ({ properties = [] }: Bill['components'][number]) =>
    properties.some(({ name, value }) => name === 'cdx:npm:package:development' && value === 'true');
  const out = new Set(bill.components.filter(isDevelopment).map((one) => one['bom-ref']));
  bill.components = bill.components.filter((one) => !out.has(one['bom-ref']));
  bill.dependencies = bill.dependencies
    .filter(({ ref }) => !out.has(ref))
    .map(({ ref, dependsOn = [] }) => ({ ref, dependsOn: dependsOn.filter((each) => !out.has(each)) }));
  return `${JSON.stringify(bill, null, 2)}\n`;
}

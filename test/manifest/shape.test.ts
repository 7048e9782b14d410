import { describe, expect, test } from 'vitest';
import { NAMESPACE } from '../../src/functions/table';
import { addresses, all, childNames, manifestText, parseManifest } from './manifest';

const manifest = parseManifest(manifestText);
const one = (name: string): Element => all(manifest, name)[0]!;

/** Office refuses elements in another order ("How to find the proper order of manifest elements", Office Add-ins documentation). */
describe('elements stand in the order of the schema', () => {
  test.each([
    [
      'OfficeApp',
      'Id Version ProviderName DefaultLocale DisplayName Description IconUrl HighResolutionIconUrl AppDomains Hosts Requirements DefaultSettings Permissions VersionOverrides',
    ],
    ['VersionOverrides', 'Hosts Resources'],
    ['DesktopFormFactor', 'GetStarted FunctionFile ExtensionPoint'],
    ['GetStarted', 'Title Description LearnMoreUrl'],
    ['Group', 'Label Icon Control'],
    ['Control', 'Label Supertip Icon Action'],
    ['Action', 'TaskpaneId SourceLocation'],
    ['Resources', 'Images Urls ShortStrings LongStrings'],
  ])('%s', (name, order) => {
    expect(childNames(one(name)).join(' ')).toBe(order);
  });

  test('the host of the overrides: shared runtime first, then functions, then the ribbon', () => {
    const host = all(one('VersionOverrides'), 'Host')[0]!;
    expect(childNames(host)).toEqual(['Runtimes', 'AllFormFactors', 'DesktopFormFactor']);
    const functions = all(host, 'ExtensionPoint')[0]!;
    expect(functions.getAttribute('xsi:type')).toBe('CustomFunctions');
    expect(childNames(functions)).toEqual(['Script', 'Page', 'Metadata', 'Namespace']);
  });
});

/** Office Add-ins documentation, "Automatically open a task pane with a document": the pane bears this id. */
test('a workbook can open the pane by itself', () => {
  expect(all(manifest, 'TaskpaneId').map((id) => id.textContent)).toEqual([
    'Office.AutoShowTaskpaneWithDocument',
  ]);
});

describe('resources', () => {
  const ids = ['Image', 'Url', 'String'].flatMap((name) =>
    all(one('Resources'), name).map((element) => element.getAttribute('id')!),
  );
  const used = [...manifest.querySelectorAll('[resid]')].map((element) => element.getAttribute('resid')!);

  test('every reference has its resource, every resource a reference, none twice', () => {
    expect(new Set(used)).toEqual(new Set(ids));
    expect(ids).toHaveLength(new Set(ids).size);
  });
  test('a reference has at most 32 characters (Office Add-ins documentation, "Resources element")', () => {
    expect(used.filter((id) => id.length > 32)).toEqual([]);
  });
  test('short strings have at most 125 characters, long ones 250 (the same)', () => {
    const longer = (list: string, limit: number) =>
      all(one(list), 'String').filter((text) => text.getAttribute('DefaultValue')!.length > limit);
    expect(longer('ShortStrings', 125)).toEqual([]);
    expect(longer('LongStrings', 250)).toEqual([]);
  });
});

describe('the shared runtime', () => {
  test('pane, functions and commands name the page of the one runtime', () => {
    const runtimes = all(manifest, 'Runtime');
    expect(runtimes.map((runtime) => runtime.getAttribute('lifetime'))).toEqual(['long']);
    const page = runtimes[0]!.getAttribute('resid');
    const places = [
      all(one('Page'), 'SourceLocation')[0]!,
      all(one('Script'), 'SourceLocation')[0]!,
      one('FunctionFile'),
      all(one('Action'), 'SourceLocation')[0]!,
    ];
    expect(places.map((place) => place.getAttribute('resid'))).toEqual(places.map(() => page));
  });
  test('the namespace is the one of the function table', () => {
    const id = one('Namespace').getAttribute('resid');
    const string = all(manifest, 'String').find((element) => element.getAttribute('id') === id);
    expect(string?.getAttribute('DefaultValue')).toBe(NAMESPACE);
    expect(NAMESPACE).toBe('LIGHT');
  });
});

test('one button, one host, no more rights than a workbook needs', () => {
  expect(all(manifest, 'Control')).toHaveLength(1);
  expect(
    all(manifest, 'Host').map((host) => host.getAttribute('Name') ?? host.getAttribute('xsi:type')),
  ).toEqual(['Workbook', 'Workbook']);
  expect(one('Permissions').textContent).toBe('ReadWriteDocument');
});

test('all addresses are on one host, by https, and the domain is the only one allowed', () => {
  const origins = new Set(addresses(manifest).map((address) => new URL(address).origin));
  expect([...origins]).toEqual([one('AppDomain').textContent]);
  expect([...origins][0]).toMatch(/^https:/);
});

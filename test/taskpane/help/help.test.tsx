import { pathToFileURL } from 'node:url';
import { cleanup, render, screen } from '@testing-library/preact';
import { afterEach, describe, expect, it } from 'vitest';
import { FUNCTIONS } from '../../../src/functions/table';
import { SETUP_FIELDS } from '../../../src/sheets/setup/fields';
import { fieldHelp } from '../../../taskpane/help/fields';
import { HelpPage } from '../../../taskpane/help/HelpPage';
import { STEPS } from '../../../taskpane/help/steps';
import { TERMS } from '../../../taskpane/help/terms';
import { helpText } from '../../../taskpane/help/text';
import { openHelp } from '../../../taskpane/help/topic';
import { FORMS } from '../../../taskpane/pages/entries';
import { PAGES } from '../../../taskpane/pages/pages';
import { createStore } from '../../../taskpane/store';
import { expectGolden } from '../../golden';
import { FakeHost } from '../fakehost';

afterEach(cleanup);

describe('the help', () => {
  it('has a page for everything that can be made, and each leads to a page that is there', () => {
    const explained = STEPS.map(({ page }) => page);
    expect(FORMS.map(({ id }) => id).filter((id) => !explained.includes(id))).toEqual([]);
    const known = PAGES.map(({ id }) => id);
    expect(explained.filter((page) => !known.includes(page))).toEqual([]);
  });

  it('explains every word that it takes for granted, once, with its source', () => {
    const terms = TERMS.map(({ term }) => term);
    expect(STEPS.flatMap((step) => step.terms).filter((term) => !terms.includes(term))).toEqual([]);
    expect(terms).toEqual([...new Set(terms)].sort((a, b) => a.localeCompare(b)));
    for (const { meaning, source } of TERMS) {
      expect(meaning).toMatch(/[.:]$/);
      expect(source.length).toBeGreaterThan(3);
    }
  });

  it('says of each field of a run what its cell says', () => {
    const labels = Object.values(SETUP_FIELDS).map(({ label }) => label as string);
    expect(fieldHelp().length).toBeGreaterThan(30);
    for (const { label } of fieldHelp()) expect(labels).toContain(label);
  });

  it('stands in the repository as one text, and is what a person can save', () => {
    const text = helpText(FUNCTIONS);
    for (const { id } of FUNCTIONS) expect(text).toContain(`**LIGHT.${id}**`);
    expectGolden(text, pathToFileURL('taskpane/help/README.md'));
  });

  it('opens at the step that asks', () => {
    const store = createStore(new FakeHost(), { today: '2026-11-25' });
    openHelp(store, 'lot');
    expect(store.page.value).toBe('help');
    render(<HelpPage store={store} />);
    expect(screen.getByRole('heading', { name: 'Whether they delivered it' })).toBeTruthy();
    store.stop();
  });
});

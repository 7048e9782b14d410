import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { cleanup, fireEvent, render, screen } from '@testing-library/preact';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { Arrival } from '../../taskpane/saving/Arrival';
import { SaveFile } from '../../taskpane/saving/SaveFile';
import { createSaving, csvFile } from '../../taskpane/saving/saving';

/*
 * Excel on a Mac drops what a pane saves, without a word (github.com/OfficeDev/office-js, issue 2700: by design). So
 * nothing is called saved before the person has seen it, and every file has a way round.
 */
let saved: string[];
beforeEach(() => {
  saved = [];
  URL.createObjectURL = () => 'blob:test';
  URL.revokeObjectURL = () => {};
  vi.spyOn(HTMLAnchorElement.prototype, 'click').mockImplementation(function (this: HTMLAnchorElement) {
    saved.push(this.download);
  });
});
afterEach(() => {
  cleanup();
  vi.restoreAllMocks();
});
const press = (name: string) => fireEvent.click(screen.getByRole('button', { name }));

it('hands files to the browser in one place only, behind the question', () => {
  const root = join(import.meta.dirname, '../../taskpane');
  const files = readdirSync(root, { recursive: true, encoding: 'utf8' }).filter((path) =>
    /\.tsx?$/.test(path),
  );
  const hands = files.filter((path) =>
    /createObjectURL|\.download\b|handToBrowser/.test(readFileSync(join(root, path), 'utf8')),
  );
  expect(hands.sort()).toEqual(['saving/download.ts', 'saving/saving.ts']);
});

it('has the text to copy beside it, and asks', () => {
  render(
    <SaveFile file={() => csvFile('a,b\r\n1,2\r\n', 'offers.csv')} copy="Copy as CSV">
      Save as a file
    </SaveFile>,
  );
  expect(screen.getByRole('button', { name: 'Copy as CSV' })).toBeTruthy();
  press('Save as a file');
  expect(saved).toEqual(['offers.csv']);
  expect(screen.getByText(/Did the file appear\?$/)).toBeTruthy();
  expect(document.body.textContent).not.toMatch(/Saved/);
  press('No, nothing came');
  const text = screen.getByLabelText<HTMLTextAreaElement>('Text to copy');
  expect(text.value.replace(/\r/g, '')).toBe('a,b\n1,2\n');
  expect(screen.getByText(/Copy the text below into an empty file of a text editor/)).toBeTruthy();
  press('Save as a file');
  press('Yes, it is there');
  expect(screen.getByText('Saved: offers.csv.')).toBe(document.activeElement);
  expect(screen.queryByRole('button', { name: 'Yes, it is there' })).toBeNull();
});

it('tells the way round in words where a file is no text', () => {
  const told = vi.fn();
  const saving = createSaving(told);
  render(<Arrival saving={saving} />);
  saving.ask({ name: '13-red.png', type: 'image/png', contents: '', otherwise: 'Open another browser.' }, 13);
  return screen.findByText(/^13 files were handed over .* Did the files appear\?$/).then(() => {
    press('No, nothing came');
    expect(screen.getByText(/Open another browser\.$/)).toBeTruthy();
    expect(screen.queryByLabelText('Text to copy')).toBeNull();
    expect(told).toHaveBeenCalledWith('missing');
  });
});

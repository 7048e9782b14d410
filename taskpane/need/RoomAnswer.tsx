import type { Governs } from '../../src/procurement/need/need';
import { roundUp, whole } from '../../src/procurement/wording/format';
import figures from '../components/figures.module.css';
import look from '../components/look.module.css';
import own from './RoomAnswer.module.css';
import type { UnderstoodRoom } from './understoodroom';
import { STEP } from './wording';

const GOVERNS: Readonly<Record<Governs, string>> = {
  contrast: 'The contrast decides.',
  luminance: 'The luminance decides.',
  'both alike': 'Contrast and luminance ask for the same.',
};

/** What one room needs, as soon as its fields say enough. */
export function RoomAnswer({ understood }: { readonly understood: UnderstoodRoom }) {
  const { need, objection } = understood;
  if (objection)
    return (
      <p class={look.error} role="status">
        {objection}
      </p>
    );
  if (!need)
    return (
      <p class={look.quiet} role="status">
        The need comes once name, image and room light are there.
      </p>
    );
  const { white, colour, governs, atEnd, whenNew } = need;
  return (
    <div class={own.answer} role="status">
      <div class={figures.figures}>
        <Asked label="White to ask for" lumens={white} />
        <Asked label="Colour to ask for" lumens={colour} />
      </div>
      <p class={look.sentence}>
        {GOVERNS[governs]} At the end of its use, in the daily mode: {screen(atEnd)}. New, in the rated mode:{' '}
        {screen(whenNew)}.
      </p>
    </div>
  );
}

function Asked({ label, lumens }: { readonly label: string; readonly lumens: number }) {
  return (
    <div class={figures.figure}>
      <p class={look.quiet}>{label}</p>
      <p class={figures.big}>
        {whole(roundUp(lumens, STEP))} <span class={figures.unit}>lm</span>
      </p>
      <p class={figures.basis}>{lumens.toFixed(1)} lm, rounded up</p>
    </div>
  );
}

function screen({ luminance, contrast }: { readonly luminance: number; readonly contrast?: number }): string {
  const light = `${luminance.toFixed(1)} cd/m²`;
  return contrast === undefined ? light : `${light} and ${contrast.toFixed(1)} to 1 on the screen`;
}

import type { Doubt } from '../guards/doubt';
import { fieldTitle } from '../screen';
import { type Step, stepWords } from '../task';
import type { State } from './state';

/** What is on the screen and should not be, or is not there and should. */
export function screenDoubts({ parts, isTypedMarked }: State, step: Step): Doubt[] {
  const { screen, settings } = parts;
  const shown = screen.field.peek();
  const isFollowed = settings.now.peek().screen === 'second screen' && screen.state.peek() === 'linked';
  const isOther = isFollowed && shown !== undefined && shown !== step.field;
  return [
    ...(isTypedMarked.peek()
      ? [
          {
            kind: 'marker' as const,
            isQuestion: true,
            message:
              'You began to type while the mark was still on the screen. Was the display read after it had gone?',
            note: `${stepWords(step)}: typed while the mark was on the screen`,
          },
        ]
      : []),
    ...(isOther
      ? [
          {
            kind: 'screen' as const,
            isQuestion: true,
            message: `The fields window shows \u201c${fieldTitle(shown)}\u201d, and \u201c${fieldTitle(step.field)}\u201d is asked for.`,
            note: `${stepWords(step)}: read while the fields window showed ${fieldTitle(shown)}`,
          },
        ]
      : []),
  ];
}

import type { Question } from '../parse/block';
import type { Decisions } from '../parse/target';
import { Action } from './Action';
import look from './look.module.css';

export interface QuestionsProps {
  readonly questions: readonly Question[];
  readonly onAnswer: (decision: Decisions) => void;
}

/** Questions about a pasted text, each with its answers as buttons. */
export function Questions({ questions, onAnswer }: QuestionsProps) {
  return questions.map(({ asks, message, answers }) => (
    <div key={asks} class={look.notice}>
      <p>{message}</p>
      <div class={look.answers}>
        {answers.map(({ label, decision }) => (
          <Action key={label} onAct={() => onAnswer(decision)}>
            {label}
          </Action>
        ))}
      </div>
    </div>
  ));
}

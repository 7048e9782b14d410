import { retyped } from '../parse/quantity';
import { AskedEntry, type AskedEntryProps } from './AskedEntry';

export interface RetypedEntryProps extends Omit<AskedEntryProps, 'onDecide' | 'isShown'> {
  /** What is wrong, where it is to be shown. */
  readonly problem: string | undefined;
}

/** A number field in which the answer which decimal mark was meant takes the place of what was typed. */
export function RetypedEntry({ read, problem, ...rest }: RetypedEntryProps) {
  const { echo, question } = read;
  return (
    <AskedEntry
      {...rest}
      read={{ ...(echo ? { echo } : {}), ...(question ? { question } : {}), ...(problem ? { problem } : {}) }}
      isShown
      onDecide={(mark) => {
        if (question) rest.onType(retyped(question[mark]));
      }}
    />
  );
}

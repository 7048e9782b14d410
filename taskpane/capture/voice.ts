/** Says prompts aloud. */
export interface Voice {
  /** Whether this browser can speak at all. */
  readonly isThere: boolean;
  /** Says a text, in place of whatever is being said. */
  say(text: string): void;
  hush(): void;
}

/** The browser's own speech; nothing is sent anywhere unless the chosen voice is one that lives elsewhere. */
export function createVoice(
  speech: SpeechSynthesis | undefined = globalThis.speechSynthesis as SpeechSynthesis | undefined,
): Voice {
  return {
    isThere: speech !== undefined,
    say: (text) => {
      if (!speech) return;
      speech.cancel();
      const utterance = new SpeechSynthesisUtterance(spoken(text));
      utterance.lang = 'en';
      const own = speech.getVoices().find(({ lang, localService }) => localService && lang.startsWith('en'));
      if (own) utterance.voice = own;
      speech.speak(utterance);
    },
    hush: () => speech?.cancel(),
  };
}

/** Signs → words. */
export function spoken(text: string): string {
  return text
    .replace(/×/g, 'times')
    .replace(/\u2212 ?/g, 'minus ')
    .replace(/%/g, 'per cent');
}

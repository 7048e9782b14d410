import { describe, expect, it } from 'vitest';
import { createSettings, START } from '../../../taskpane/capture/settings';
import { createSound } from '../../../taskpane/capture/sound';
import { createVoice, spoken } from '../../../taskpane/capture/voice';
import { TestShelf } from './scene';

describe('how a person likes to work', () => {
  it('is kept from one time to the next', () => {
    const shelf = new TestShelf();
    createSettings(shelf, 'settings').change({ sound: true, screen: 'second screen' });
    expect(createSettings(shelf, 'settings').now.value).toEqual({
      ...START,
      sound: true,
      screen: 'second screen',
    });
  });

  it.each(['nonsense', '{"version":1,"sound":"loud"}', '{"version":2}'])(
    'begins with the usual after %j',
    (text) => {
      const shelf = new TestShelf();
      shelf.setItem('settings', text);
      expect(createSettings(shelf, 'settings').now.value).toEqual(START);
    },
  );

  it('a mirrored screen is nothing for a pane, whatever was chosen in a window', () => {
    const shelf = new TestShelf();
    createSettings(shelf, 'settings').change({ screen: 'mirrored', voice: true });
    const inPane = createSettings(shelf, 'settings', ['by hand', 'second screen']);
    expect(inPane.now.value).toEqual({ ...START, voice: true });
    expect(createSettings(shelf, 'settings').now.value.screen).toBe('mirrored');
  });

  it('lasts as long as the window where nothing can be kept', () => {
    const shelf = new TestShelf();
    shelf.isFull = true;
    const settings = createSettings(shelf, 'settings');
    settings.change({ serpentine: true });
    expect(settings.now.value.serpentine).toBe(true);
  });
});

describe('the voice', () => {
  const voices = [
    { lang: 'de-DE', localService: true, name: 'a' },
    { lang: 'en-GB', localService: false, name: 'b' },
    { lang: 'en-GB', localService: true, name: 'c' },
  ];
  function speech() {
    const said: string[] = [];
    return {
      said,
      cancel: () => said.push('hush'),
      getVoices: () => voices,
      speak: (utterance: { text: string; voice?: { name: string } }) =>
        said.push(`${utterance.text} (${utterance.voice?.name})`),
    };
  }
  class Utterance {
    lang = '';
    constructor(readonly text: string) {}
  }

  it('speaks with a voice of the computer itself, in place of what is being said', () => {
    Object.assign(globalThis, { SpeechSynthesisUtterance: Utterance });
    const browser = speech();
    const voice = createVoice(browser as unknown as SpeechSynthesis);
    voice.say('White, point 5.');
    expect(browser.said).toEqual(['hush', 'White, point 5. (c)']);
    voice.hush();
    expect(browser.said.at(-1)).toBe('hush');
  });

  it('is not there in a browser without speech, and does nothing then', () => {
    const voice = createVoice(undefined);
    expect(voice.isThere).toBe(false);
    voice.say('White');
    voice.hush();
  });

  it('has words for signs', () => {
    expect(spoken('43 × 1 changed by −2.8 %')).toBe('43 times 1 changed by minus 2.8 per cent');
  });
});

describe('the sound', () => {
  it('is one tone for taken and two low ones for a question, faded in and out', () => {
    const tones: string[] = [];
    const node = { connect: () => node };
    Object.assign(globalThis, {
      OscillatorNode: class {
        constructor(
          _context: unknown,
          private readonly options: { frequency: number },
        ) {}
        connect = () => node;
        start = (at: number) => tones.push(`${this.options.frequency} Hz at ${at} s`);
        stop = () => undefined;
      },
      GainNode: class {
        gain = { setTargetAtTime: () => undefined };
        connect = () => node;
      },
    });
    const sound = createSound(() => ({ currentTime: 0, destination: node }) as unknown as AudioContext);
    sound.taken();
    expect(tones).toEqual(['880 Hz at 0 s']);
    sound.doubtful();
    expect(tones.slice(1)).toEqual(['330 Hz at 0 s', '262 Hz at 0.25 s']);
  });
});

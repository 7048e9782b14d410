/** Short tones: one for a reading taken, two low ones for a question. */
export interface Sound {
  taken(): void;
  doubtful(): void;
}

const SILENCE_MS = 20;

/** Made when first needed: browsers start sound only after a key or a click. */
export function createSound(open: () => AudioContext = () => new AudioContext()): Sound {
  let context: AudioContext | undefined;
  const tone = (hertz: number, start: number, seconds: number) => {
    context ??= open();
    const oscillator = new OscillatorNode(context, { frequency: hertz });
    const gain = new GainNode(context, { gain: 0 });
    const at = context.currentTime + start;
    // Faded in and out, so that it does not click.
    gain.gain.setTargetAtTime(0.15, at, SILENCE_MS / 4000);
    gain.gain.setTargetAtTime(0, at + seconds, SILENCE_MS / 2000);
    oscillator.connect(gain).connect(context.destination);
    oscillator.start(at);
    oscillator.stop(at + seconds + 5 * (SILENCE_MS / 1000));
  };
  return {
    taken: () => tone(880, 0, 0.08),
    doubtful: () => {
      tone(330, 0, 0.15);
      tone(262, 0.25, 0.25);
    },
  };
}

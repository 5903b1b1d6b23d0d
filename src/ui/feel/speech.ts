// Owns the spoken verdict. Only a voice of the phone itself speaks: others send the words to somebody's server, and
// there may be no network. Must never let an old verdict speak over a newer one.

/** The little of speechSynthesis that is needed. */
type Synth = Pick<SpeechSynthesis, 'speak' | 'cancel' | 'getVoices'>;

export interface Speaker {
  /** False when this phone has no voice of its own, or none that is known yet. */
  say(words: string): boolean;
  silence(): void;
  hasVoice(): boolean;
}

export function createSpeaker(
  synth: Synth | null,
  toUtterance: (words: string, voice: SpeechSynthesisVoice) => SpeechSynthesisUtterance,
): Speaker {
  const own = (): SpeechSynthesisVoice | null => {
    const voices = synth?.getVoices().filter((voice) => voice.localService) ?? [];
    return (
      voices.find(({ lang, default: first }) => first && lang.startsWith('en')) ??
      voices.find(({ lang }) => lang.startsWith('en')) ??
      null
    );
  };
  return {
    say(words) {
      const voice = own();
      if (!synth || !voice) return false;
      synth.cancel();
      synth.speak(toUtterance(words, voice));
      return true;
    },
    silence: () => synth?.cancel(),
    hasVoice: () => own() !== null,
  };
}

// A voice note in a list: who spoke it, when, how long, and the sound itself once it is asked for.
import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import type { VoiceView } from '../../core/report/photosView.ts';
import { PlainButton } from '../parts/form.tsx';
import { dayAndClock } from '../times.ts';
import { lastsToWords } from '../voice.ts';
import { ABSENT, useMediaUrl } from './mediaUrl.ts';
import '../look/photo.css';

export function VoicePlayer(props: {
  voice: VoiceView;
  place?: boolean;
  /** Said instead of who, when and how long. */
  words?: string;
  onTakeBack?: (() => void) | undefined;
}) {
  const { voice } = props;
  const open = useSignal(false);
  const media = useMediaUrl(open.value ? voice.document : null, 'full');
  const refused = useSignal(false);
  const holder = useRef<HTMLSpanElement>(null);
  const url = open.value && media.type === 'here' ? media.url : null;
  useEffect(() => {
    if (url === null) return;
    // Made by hand: there is no text of what was said that a track could bring.
    const sound = new Audio(url);
    sound.controls = true;
    sound.setAttribute('aria-label', `Voice note at ${voice.words}`);
    sound.addEventListener('error', () => {
      refused.value = true;
      sound.remove();
    });
    holder.current?.append(sound);
    // Not allowed to begin by itself, it waits for a press of its own; what cannot be played at all is told above.
    void sound.play().catch(() => undefined);
    return () => {
      sound.pause();
      sound.remove();
    };
  }, [url]);
  return (
    <div class="voice-row">
      <span class="photo-row-text">
        {props.words !== undefined ? (
          <span>{props.words}</span>
        ) : (
          <span>
            Voice note, {lastsToWords(voice.lasts)}
            {props.place && (
              <>
                , <span class="ident">{voice.words}</span>
              </>
            )}
          </span>
        )}
        <span class="row-second">
          {props.words === undefined && `${voice.author}, ${dayAndClock(voice.at)}`}
          {open.value && media.type === 'absent' && `. ${ABSENT}; it comes with the next send and receive.`}
        </span>
        {refused.value && (
          <span class="row-second" role="alert">
            This browser cannot play this recording. It is still here: save it as a file, or play it on another phone.
          </span>
        )}
      </span>
      {url === null && (
        <PlainButton
          onPress={() => {
            open.value = true;
          }}
        >
          Play
        </PlainButton>
      )}
      {refused.value && url !== null && (
        <a class="plain-button" href={url} download={`Voice note ${voice.words}`}>
          Save as file
        </a>
      )}
      {props.onTakeBack && <PlainButton onPress={props.onTakeBack}>Withdraw</PlainButton>}
      <span ref={holder} class="voice-holder" />
    </div>
  );
}

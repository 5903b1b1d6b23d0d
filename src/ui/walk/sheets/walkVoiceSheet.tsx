// Speaking a note at the jack in hand. The camera is let go before the microphone is asked for and comes back after;
// nothing is recorded while the studio is live, and going live ends a recording.

import { useSignal } from '@preact/signals';
import { useEffect, useMemo, useRef } from 'preact/hooks';
import type { AuditId, PlaceId } from '../../../core/plan/identity.ts';
import { useServices } from '../../context.ts';
import type { KeyOf } from '../../drafts/draftNames.ts';
import { VOICE_AT } from '../../drafts/walkDrafts.ts';
import { mediaFailureToMessage, voiceFailureToMessage } from '../../messages.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { PlainButton } from '../../parts/form.tsx';
import type { CellProps } from '../../parts/frame.tsx';
import { Caution } from '../../parts/hazard.tsx';
import { browserVoice, createVoice, lastsToWords, VOICE_MAX_MS } from '../../voice.ts';
import type { WalkFlow } from '../walkFlowType.ts';
import { withRoom } from '../walkPhoto.ts';
import type { SheetProps } from '../walkSheetProps.ts';
import { LINES } from '../walkWords.ts';
import '../../look/photo.css';

/** A voice note that a restart cut short: what was spoken is gone, and that is said. */
export function VoiceCut({ flow }: { flow: WalkFlow }) {
  const services = useServices();
  const cut = useSignal<{ place: PlaceId | null; words: string } | null>(null);
  useEffect(() => {
    void services.draft(voiceDraft(flow.audit), VOICE_AT).then((kept) => {
      cut.value = kept;
    });
  }, []);
  const at = cut.value;
  if (!at) return null;
  const done = () => {
    cut.value = null;
    void services.dropDraft(voiceDraft(flow.audit));
  };
  return (
    <div class="walk-ask">
      <p>A voice note at {at.words} was started and not saved: the app was closed before Stop.</p>
      <PlainButton
        onPress={() => {
          done();
          flow.sheet.value = { type: 'voice', ...at };
        }}
      >
        Record it again
      </PlainButton>
      <PlainButton onPress={done}>Not needed</PlainButton>
    </div>
  );
}

function voiceDraft(audit: AuditId): KeyOf<'voice'> {
  return `voice:${audit}`;
}

/** Speaking at one place: the camera is let go for it, and what is spoken is kept when it stops. */
function useSpeaking({ flow, camera, close, place, words }: VoiceProps) {
  const services = useServices();
  const wrong = useSignal<string | null>(null);
  const keeping = useSignal(false);
  const ran = useRef(false);
  const live = useRef(false);
  const draft = voiceDraft(flow.audit);
  const leave = () => {
    void services.dropDraft(draft);
    close();
    if (ran.current && !live.current) void camera.start();
    ran.current = false;
  };
  const voice = useMemo(
    () =>
      createVoice(browserVoice(services.now), async (sound, lasts) => {
        keeping.value = true;
        const about = { ...(place ? { place } : {}), audit: flow.audit };
        const result = await services.addVoice(sound, lasts, about);
        keeping.value = false;
        if (result.type !== 'saved') {
          const { what, todo } = mediaFailureToMessage(result.why);
          wrong.value = `${what} ${todo}`;
          return;
        }
        flow.did(result.event, place, `the voice note at ${words}`);
        flow.line.value = withRoom(LINES.voiceSaved(lastsToWords(lasts), words), result.nearlyFull);
        leave();
      }),
    [],
  );
  const discard = () => {
    voice.discard();
    leave();
  };
  useStopWhenHidden(voice);
  // However the studio goes live: what was spoken until then is kept, and no microphone is opened after.
  const { paused } = flow.memory.value;
  useEffect(() => {
    if (!paused) return;
    live.current = true;
    if (voice.state.peek().type === 'recording') voice.stop();
    else discard();
  }, [paused]);
  const begin = async () => {
    if (flow.memory.value.paused) return;
    wrong.value = null;
    const { type } = camera.state.value;
    if (type === 'scanning' || type === 'paused' || type === 'starting') {
      ran.current = true;
      await camera.stop();
    }
    if (flow.memory.peek().paused) return;
    void services.saveDraft(draft, { place, words }, VOICE_AT);
    await voice.start();
    // Refused: then nothing was begun either.
    if (voice.state.peek().type === 'failed') void services.dropDraft(draft);
  };
  return { state: voice.state.value, stop: voice.stop, wrong: wrong.value, keeping: keeping.value, begin, discard };
}

function useStopWhenHidden(voice: ReturnType<typeof createVoice>): void {
  useEffect(() => {
    const hidden = () => {
      if (document.visibilityState === 'hidden') voice.stop();
    };
    document.addEventListener('visibilitychange', hidden);
    return () => {
      document.removeEventListener('visibilitychange', hidden);
      voice.discard();
    };
  }, []);
}

/** How long it has been recorded, drawn anew on each beat. */
function Spoken({ since }: { since: number }) {
  const { now } = useServices();
  const clock = useSignal(now());
  useEffect(() => {
    const timer = setInterval(() => {
      clock.value = now();
    }, 500);
    return () => clearInterval(timer);
  }, []);
  return (
    <p class="voice-time" role="timer">
      Recording {lastsToWords(clock.value - since)} of {lastsToWords(VOICE_MAX_MS)}
    </p>
  );
}

type VoiceProps = SheetProps & { place: PlaceId | null; words: string };

export function VoiceSheet(props: VoiceProps) {
  const { flow, camera, words } = props;
  const { state, wrong, keeping, begin, stop, discard } = useSpeaking(props);
  const asking = state.type === 'asking';
  const live: CellProps = {
    big: 'Going live',
    onPress: () => {
      void camera.stop();
      flow.pause(true);
    },
  };
  const rows: CellProps[][] =
    state.type === 'recording'
      ? [
          [{ big: 'Throw away', onPress: discard }, live],
          [{ small: 'Recording', big: 'Stop and save', primary: true, onPress: stop }],
        ]
      : [
          ...(asking ? [[live]] : []),
          [
            { big: 'Cancel', onPress: discard },
            {
              big: asking ? 'Asking' : keeping ? 'Saving' : 'Record',
              primary: true,
              share: 2,
              disabled: asking || keeping,
              onPress: () => void begin(),
            },
          ],
        ];
  const failed = state.type === 'failed' ? voiceFailureToMessage(state.why) : null;
  return (
    <Dialog title={`Voice note at ${words}`} onClose={discard} rows={rows}>
      {state.type === 'recording' ? (
        <Spoken since={state.since} />
      ) : (
        <p>
          Two minutes at most. The camera is off while it records. Stop saves it; locking the phone saves what you said
          so far.
        </p>
      )}
      <Caution>Others may be heard. Never beside a live microphone: what you say would go on air.</Caution>
      {(failed || wrong) && <p role="alert">{failed ? `${failed.what} ${failed.todo}` : wrong}</p>}
    </Dialog>
  );
}

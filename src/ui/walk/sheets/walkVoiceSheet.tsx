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
import { roomWords } from '../walkPhoto.ts';
import type { SheetProps } from '../walkSheetProps.ts';
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

export function VoiceSheet({
  flow,
  camera,
  close,
  place,
  words,
}: SheetProps & { place: PlaceId | null; words: string }) {
  const services = useServices();
  const wrong = useSignal<string | null>(null);
  const keeping = useSignal(false);
  const clock = useSignal(0);
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
        flow.line.value = `Voice note of ${lastsToWords(lasts)} saved at ${words}.${roomWords(result.nearlyFull)}`;
        leave();
      }),
    [],
  );
  const state = voice.state.value;
  const recording = state.type === 'recording';

  useEffect(() => {
    if (!recording) return;
    const timer = setInterval(() => {
      clock.value += 1;
    }, 500);
    return () => clearInterval(timer);
  }, [recording]);
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

  // However the studio goes live: what was spoken until then is kept, and no microphone is opened after.
  const { paused } = flow.memory.value;
  useEffect(() => {
    if (!paused) return;
    live.current = true;
    if (voice.state.peek().type === 'recording') voice.stop();
    else {
      voice.discard();
      leave();
    }
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
  const goLive = () => {
    void camera.stop();
    flow.pause(true);
  };
  const back: CellProps = {
    big: recording ? 'Throw away' : 'Cancel',
    onPress: () => {
      voice.discard();
      leave();
    },
  };
  const rows: CellProps[][] = recording
    ? [
        [back, { big: 'Going live', onPress: goLive }],
        [{ small: 'Recording', big: 'Stop and save', primary: true, onPress: voice.stop }],
      ]
    : [
        ...(state.type === 'asking' ? [[{ big: 'Going live', onPress: goLive }]] : []),
        [
          back,
          {
            big: state.type === 'asking' ? 'Asking' : keeping.value ? 'Saving' : 'Record',
            primary: true,
            share: 2,
            disabled: state.type === 'asking' || keeping.value,
            onPress: () => void begin(),
          },
        ],
      ];
  const failed = state.type === 'failed' ? voiceFailureToMessage(state.why) : null;
  // Read so that each beat of the clock draws anew.
  const spoken = recording && clock.value >= 0 ? services.now() - state.since : 0;
  return (
    <Dialog title={`Voice note at ${words}`} onClose={back.onPress!} rows={rows}>
      {recording ? (
        <p class="voice-time" role="timer">
          Recording {lastsToWords(spoken)} of {lastsToWords(VOICE_MAX_MS)}
        </p>
      ) : (
        <p>
          Two minutes at most. The camera is off while it records. Stop saves it; locking the phone saves what you said
          so far.
        </p>
      )}
      <Caution>Others may be heard. Never beside a live microphone: what you say would go on air.</Caution>
      {(failed || wrong.value) && <p role="alert">{failed ? `${failed.what} ${failed.todo}` : wrong.value}</p>}
    </Dialog>
  );
}

// The settings of how a walk feels: what is heard and felt, the hand, gloves, the way the page stands. All of it stays
// on this phone, and whatever makes a sound is off until somebody turns it on.
import { useSignal } from '@preact/signals';
import { useServices } from '../context.ts';
import { cueFor } from '../feel/cueFor.ts';
import { canVibrate, holdUpright, phoneSpeaker, phoneTones, vibrate } from '../feel/phonePorts.ts';
import { hasSound } from '../feel/settings.ts';
import { useFeelSettings } from '../feel/useFeel.ts';
import { CheckRow, Choice, PlainButton } from '../parts/form.tsx';
import { SectionHead } from '../parts/rows.tsx';

export function HandSettings() {
  const services = useServices();
  const { settings, set } = useFeelSettings();
  const feel = settings.value;
  const held = useSignal<boolean | null>(null);
  const upright = async (on: boolean) => {
    set({ upright: on });
    held.value = on ? await holdUpright(true) : null;
    await holdUpright(false);
  };
  return (
    <>
      <SectionHead strong title="Hand" />
      <div class="desk-part">
        <Choice
          legend="Hand that holds the phone"
          hint="The button you press most is near that thumb."
          value={services.settings.value.hand}
          options={[
            { value: 'right', text: 'Right' },
            { value: 'left', text: 'Left' },
          ]}
          onChoose={(hand) => {
            services.settings.value = { ...services.settings.peek(), hand };
          }}
        />
      </div>
      <CheckRow
        text="Gloves"
        second="Larger buttons, farther apart; a second tap counts only after a longer pause."
        checked={feel.gloves}
        onChange={(gloves) => set({ gloves })}
      />
      <CheckRow
        text="Lock the walk upright"
        second={
          held.value === false
            ? 'This browser does not allow it here. Use the phone’s own rotation lock.'
            : 'Works where the browser allows it, usually once the app is installed.'
        }
        checked={feel.upright}
        onChange={(on) => void upright(on)}
      />
    </>
  );
}

export function WalkSettings() {
  const { settings, set } = useFeelSettings();
  const feel = settings.value;
  const tried = useSignal<string | null>(null);
  const test = (variant: 'as-planned' | 'differs') => {
    const said =
      variant === 'differs'
        ? ({ variant, jack: 'P03', label: '1004', word: 'differs' } as const)
        : ({ variant, jack: 'P02', label: '1002', word: 'as planned' } as const);
    const signal = cueFor(said, feel, false);
    if (signal.buzz) vibrate(signal.buzz);
    if (signal.tone) phoneTones().play(signal.tone, feel.ear);
    const spoke = signal.say !== null && phoneSpeaker().say(signal.say);
    tried.value =
      feel.micNear && hasSound(feel)
        ? 'A live microphone is near: no sound.'
        : signal.say !== null && !spoke
          ? 'This phone has no English voice of its own, so nothing is spoken.'
          : null;
  };
  const any = hasSound(feel) || feel.vibration;
  return (
    <>
      <SectionHead strong title="In the walk" />
      <div class="desk-part">
        <p>
          What you hear and feel after each entry, so your eyes can stay on the rack. All of it is off until you turn it
          on. While the walk is paused for going live there is no sound, whatever is set here.
        </p>
      </div>
      <CheckRow
        text="Live microphone near"
        second="No sound at all; “Sound on” in the walk’s bar does the same. Vibration stays as set below, and can be heard on a desk."
        checked={feel.micNear}
        onChange={(micNear) => set({ micNear })}
      />
      <CheckRow
        text="Tones"
        second="Rising: as planned. Falling: differs. Low and short: look at the screen. The phone’s mute switch may silence them."
        checked={feel.tones}
        onChange={(tones) => set({ tones })}
      />
      <CheckRow
        text="Spoken words"
        second="“P03, 1004, differs”, in a voice that is on this phone."
        checked={feel.speech}
        onChange={(speech) => set({ speech })}
      />
      <CheckRow
        text="Vibration"
        second={
          canVibrate()
            ? 'One short: as planned. Two: differs. One long: look at the screen.'
            : 'This browser cannot make the phone vibrate.'
        }
        checked={feel.vibration}
        disabled={!canVibrate()}
        onChange={(vibration) => set({ vibration })}
      />
      {hasSound(feel) && (
        <div class="desk-part">
          <Choice
            legend="Ear"
            hint="One earpiece is enough; keep the other ear on the room. Words always come on both sides."
            value={feel.ear}
            options={[
              { value: 'both', text: 'Both' },
              { value: 'left', text: 'Left' },
              { value: 'right', text: 'Right' },
            ]}
            onChoose={(ear) => set({ ear })}
          />
        </div>
      )}
      {any && (
        <div class="desk-part">
          <p>
            <PlainButton onPress={() => test('as-planned')}>Try “as planned”</PlainButton>{' '}
            <PlainButton onPress={() => test('differs')}>Try “differs”</PlainButton>
          </p>
          <p role="status">{tried.value}</p>
        </div>
      )}
    </>
  );
}

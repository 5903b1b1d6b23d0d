// What the screens read at a table share: waiting and failing in words, and the caution box. No state of its own.
import type { ComponentChildren } from 'preact';
import type { Asked } from '../context.ts';
import { Plate, Screen } from '../parts/frame.tsx';
import { Empty, ErrorBox } from '../parts/rows.tsx';
import { go } from '../router.ts';

export function toHome(): void {
  go({ screen: 'home' });
}

/** Goes where the person came from; a deep link has nothing behind it and goes to the first screen. */
export function back(): void {
  if (history.length > 1) history.back();
  else toHome();
}

/** A whole screen in place of an answer that is not there yet, or never will be. */
export function NoAnswer(props: { title: string; asked: Asked<unknown>; missing: string; next?: ComponentChildren }) {
  const { asked } = props;
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back', onPress: back }}
          cells={[{ small: 'Station record', big: props.title, heading: true }]}
        />
      }
    >
      {asked.type === 'loading' && (
        <p class="desk-note" role="status">
          Reading the record on this phone.
        </p>
      )}
      {asked.type === 'failed' && (
        <ErrorBox
          what="The record could not be read just now."
          where={asked.why}
          todo="Go to the first screen and come back. What was recorded is kept on this phone."
          action={{ text: 'First screen', onPress: toHome }}
        />
      )}
      {asked.type === 'ready' && (
        <Empty what={props.missing} why={props.next} next={{ text: 'First screen', onPress: toHome }} />
      )}
    </Screen>
  );
}

// The sheet that every form at a jack is drawn on: the way back to the walk, what is wrong, Cancel beside the act itself.
import type { ComponentChildren } from 'preact';
import type { WalkView } from '../../core/report/walk/walkView.ts';
import { type CellProps, Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { ErrorBox } from '../parts/rows.tsx';
import type { WalkFlow } from '../walk/walkFlowType.ts';
import '../look/desk.css';
import '../look/describe.css';

export interface PartProps {
  flow: WalkFlow;
  view: WalkView;
}

/** Leaves the form, as it is kept, for the jack it was opened at. */
export function backToJack(flow: WalkFlow): void {
  flow.mode.value = 'walk';
}

export function PartSheet(props: {
  flow: WalkFlow;
  /** What it is about, over the title. */
  about: string;
  title: string;
  act: CellProps;
  /** In the place of Cancel. */
  instead?: CellProps | undefined;
  wrong: string | null;
  todo?: string;
  children: ComponentChildren;
}) {
  const back = () => backToJack(props.flow);
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back to the jack', onPress: back }}
          cells={[{ small: props.about, big: props.title, heading: true, wide: true }]}
        />
      }
      foot={
        <TitleBlock
          rows={[
            [
              props.instead ?? { small: 'Don’t record', big: 'Cancel', onPress: back },
              { primary: true, share: 2, ...props.act },
            ],
          ]}
        />
      }
    >
      {props.wrong !== null && <ErrorBox what={props.wrong} todo={props.todo ?? 'What you entered is still here.'} />}
      {props.children}
    </Screen>
  );
}

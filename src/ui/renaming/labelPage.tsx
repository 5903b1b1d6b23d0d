// A page of labels that can be printed: how many, the page itself, a ruler to check the print by. Sizes are in
// millimetres; it changes nothing in the record.
//
// Limits: Labels are printed as plain pages, not on label stock.
import type { ComponentChildren } from 'preact';
import { Plate, type PlateCell, Screen, TitleBlock } from '../parts/frame.tsx';
import { count } from '../words.ts';
import { Qr } from './labelsQr.tsx';
import '../look/desk.css';
import '../look/report.css';
import '../look/renamingLabels.css';

export function LabelPage(props: {
  back: { label: string; onPress: () => void };
  cells: readonly PlateCell[];
  /** How many labels stand on the page, and which in words; nothing is printed where there is none. */
  labels: number;
  which: string;
  onPrint?: () => void;
  /** Over the page, and on the screen alone. */
  above: ComponentChildren;
  /** Instead of the page, where it is blank. */
  empty?: ComponentChildren;
  /** Beneath the ruler: what else is to be known of the print. */
  note: string;
  children: ComponentChildren;
}) {
  return (
    <Screen
      plate={<Plate back={props.back} cells={props.cells} />}
      foot={
        props.labels > 0 && (
          <TitleBlock
            rows={[
              [
                {
                  small: props.which,
                  big: `Print ${count(props.labels, 'label')}`,
                  primary: true,
                  onPress: props.onPrint ?? (() => print()),
                },
              ],
            ]}
          />
        )
      }
    >
      {props.above}
      {props.empty ?? (
        <>
          {props.children}
          <div class="label-ruler" aria-hidden="true">
            100 mm
          </div>
          <p class="desk-note">
            Print at 100 %, without fitting to the page: the line above then measures 100 mm. {props.note}
          </p>
        </>
      )}
    </Screen>
  );
}

/** "All of them", "The first 300 of 900". */
export function shownOf(shown: number, all: number): string {
  return shown === all ? 'All of them' : `The first ${shown} of ${all}`;
}

/** One label of a strip: code and text, with what is said of it in small type. */
export function StripLabel({ text, small }: { text: string; small: readonly string[] }) {
  return (
    <li class="strip-one">
      <Qr text={text} title={`Code of ${text}`} />
      <span class="strip-words">
        <span class="ident">{text}</span>
        {small.map((line) => (
          <small key={line}>{line}</small>
        ))}
      </span>
    </li>
  );
}

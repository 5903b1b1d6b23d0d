// The questions of a walk, one sheet at a time. Each is answered by one tap where the answer is one of a few;
// closing a sheet says nothing and records nothing.

import type { VNode } from 'preact';
import { useEffect } from 'preact/hooks';
import type { ScopePart } from '../../../core/report/walk/scopeView.ts';
import { STATE_WORDS } from '../../../core/report/words/recordWords.ts';
import type { LabelQuestion } from '../../../core/walk/question.ts';
import { useAsked, useServices } from '../../context.ts';
import { Dialog } from '../../parts/dialog.tsx';
import type { CellProps } from '../../parts/frame.tsx';
import { Row } from '../../parts/rows.tsx';
import { NameDialog, useNameless } from '../../settings/nameFirst.tsx';
import { timeToWords } from '../../words.ts';
import { MoreSheet } from '../more/walkMore.tsx';
import { ChangeSheet, LeftToBuildSheet, WorkSheet } from '../walkBuild.tsx';
import type { WalkCamera } from '../walkCamera.ts';
import type { WalkFlow } from '../walkFlowType.ts';
import { RadioSheet, WindowSheet } from '../walkRadio.tsx';
import type { SheetProps } from '../walkSheetProps.ts';
import { labelToShow } from '../walkState.ts';
import { ASK_WORDS, cutAt, goTo, isCable, labelOf, readAt, sameAsQuestion, whichOfSeveral } from './askWords.ts';
import { CameraSheet } from './walkCameraSheet.tsx';
import { EndsSheet } from './walkEnds.tsx';
import { JacketSheet } from './walkJacket.tsx';
import { FollowSheet } from './walkMarks.tsx';
import { addToAudit, ScopeSheet } from './walkScope.tsx';
import { SettingSheet } from './walkSetting.tsx';
import type { PlainSheet, Sheet } from './walkSheet.ts';
import { HazardSheet, JumpSheet, RefusedSheet } from './walkSheetsLists.tsx';
import { PhotoSheets } from './walkSheetsPhotos.tsx';
import { LooseSheet, PhotoSheet, UnitHereSheet } from './walkSheetsPlaces.tsx';
import { FinishSheet, PermissionSheet } from './walkSheetsRun.tsx';
import { NoteSheet, PatternSheet, TypeSheet } from './walkSheetsText.tsx';
import { TwinsSheet } from './walkTwins.tsx';
import { WaySheet } from './walkWay.tsx';

const PLAIN: Record<PlainSheet, (props: SheetProps) => VNode | null> = {
  pattern: PatternSheet,
  type: TypeSheet,
  setting: SettingSheet,
  work: WorkSheet,
  'left-to-build': LeftToBuildSheet,
  radio: RadioSheet,
  window: WindowSheet,
  way: WaySheet,
  ends: EndsSheet,
  jacket: JacketSheet,
  twins: TwinsSheet,
  more: MoreSheet,
  jump: JumpSheet,
  refused: RefusedSheet,
  hazard: HazardSheet,
  permission: PermissionSheet,
  scope: ScopeSheet,
  camera: CameraSheet,
  finish: FinishSheet,
  loose: LooseSheet,
  'unit-here': UnitHereSheet,
};

export function Sheets(props: { flow: WalkFlow; camera: WalkCamera }) {
  const { flow } = props;
  const sheet = flow.sheet.value;
  const shared: SheetProps = {
    ...props,
    close: () => {
      // A helper who was asked something in between is asked on.
      const told = sheet !== null && 'of' in sheet && sheet.of?.basis === 'told';
      flow.sheet.value = told ? { type: 'radio' } : null;
    },
  };
  const nameless = useNameless(flow.audit);
  const isAsked = nameless !== null && sheet === null;
  useEffect(() => {
    // As a sheet of the walk: while it is open nothing is read in nobody's name.
    if (isAsked) flow.sheet.value = { type: 'name' };
    else if (nameless === null && flow.sheet.peek()?.type === 'name') shared.close();
  }, [isAsked, nameless === null]);
  if (sheet === null) return null;
  switch (sheet.type) {
    case 'candidates':
      return <CandidatesSheet {...shared} sheet={sheet} />;
    case 'near':
      return <NearSheet {...shared} sheet={sheet} />;
    case 'named':
      return <NamedSheet {...shared} sheet={sheet} />;
    case 'unlikely':
      return <UnlikelySheet {...shared} sheet={sheet} />;
    case 'earlier':
      return <EarlierSheet {...shared} sheet={sheet} />;
    case 'note':
      return <NoteSheet {...shared} place={sheet.place} words={sheet.words} />;
    case 'change':
      return <ChangeSheet {...shared} place={sheet.place} jack={sheet.jack} label={sheet.label} />;
    case 'follow':
      return <FollowSheet {...shared} sheet={sheet} />;
    case 'name':
      return nameless && <NameDialog nameless={nameless} close={shared.close} />;
    case 'photos':
    case 'voice':
    case 'photo-caution':
      return <PhotoSheets {...shared} sheet={sheet} />;
    case 'photo':
      return <PhotoSheet {...shared} at={sheet} />;
    default: {
      const Plain = PLAIN[sheet.type];
      return <Plain {...shared} />;
    }
  }
}

type Of<T extends Sheet['type']> = { sheet: Extract<Sheet, { type: T }> };

/** Whatever a label looks like, it may be a cable's own: then it is entered as it was read. */
function ownCell(flow: WalkFlow, close: () => void, question: LabelQuestion): CellProps {
  const { text } = question;
  return {
    big: isCable(labelToShow(text)),
    onPress: () => {
      close();
      void flow.answerLabel(question, { text, own: true });
    },
  };
}

/** Where no plan says which is meant, two labels that hardly differ may be the two ends of one cable. */
function NearSheet({ flow, close, sheet }: SheetProps & Of<'near'>) {
  const { text, near } = sheet;
  return (
    <Dialog
      title={sameAsQuestion(
        labelToShow(text),
        near.map(({ label }) => labelToShow(label)),
      )}
      onClose={close}
      rows={[[{ big: ASK_WORDS.readItAgain, onPress: close }, ownCell(flow, close, sheet)]]}
    >
      {near.map(({ label, line }) => (
        <Row
          key={label}
          title={
            <>
              Same as <span class="ident">{labelToShow(label)}</span>
            </>
          }
          second={readAt(line)}
          onPress={() => {
            close();
            void flow.answerLabel(sheet, { text: label, printed: text });
          }}
        />
      ))}
    </Dialog>
  );
}

function CandidatesSheet({ flow, close, sheet }: SheetProps & Of<'candidates'>) {
  return (
    <Dialog
      title={whichOfSeveral(labelToShow(sheet.text))}
      onClose={close}
      rows={[[{ big: ASK_WORDS.noneOfThese, onPress: close }, ownCell(flow, close, sheet)]]}
    >
      {sheet.candidates.map((one) => (
        <Row
          key={`${one.id} ${one.line}`}
          title={<span class="ident">{labelToShow(one.label)}</span>}
          second={one.line}
          onPress={() => {
            if (one.type !== undefined && one.type !== 'cable') {
              const what = one.type;
              const { text, by, of } = sheet;
              flow.sheet.value = { type: 'named', what, id: one.id, label: one.label, text, by, ...(of ? { of } : {}) };
            } else {
              close();
              void flow.answerLabel(sheet, { text: sheet.text, means: one.id });
            }
          }}
        />
      ))}
    </Dialog>
  );
}

/** A unit's or rack's own label is where the person stands, never a cable that the plan forgot. */
function NamedSheet({ flow, close, sheet }: SheetProps & Of<'named'>) {
  const services = useServices();
  const asked = useAsked('stops', { audit: flow.audit });
  const stops = asked.type === 'ready' ? asked.value : [];
  const stop =
    sheet.what === 'unit'
      ? stops.find(({ unit }) => unit === sheet.id)
      : sheet.what === 'rack'
        ? stops.find(({ rack }) => rack === sheet.label)
        : undefined;
  const place = sheet.what === 'jack' ? sheet.id : (stop?.first ?? null);
  const known = place !== null && (sheet.what === 'jack' || stop !== undefined);
  const { id, label } = sheet;
  const part = !known && asked.type === 'ready' && sheet.what !== 'jack' ? { type: sheet.what, id, label } : null;
  const addAndGo = async (added: ScopePart) => {
    close();
    if (!(await addToAudit(services, flow, added))) return;
    const all = await services.ask('stops', { audit: flow.audit });
    const to = all.find(({ unit, rack }) => (added.type === 'unit' ? unit === id : rack === label));
    if (to) await flow.moveTo(to.first);
  };
  return (
    <Dialog
      title={labelOf(sheet.what, labelToShow(sheet.label))}
      onClose={close}
      rows={[
        [
          { small: ASK_WORDS.dontRecord, big: ASK_WORDS.stayHere, onPress: close },
          ...(part ? [{ small: ASK_WORDS.outside, big: ASK_WORDS.addAndGo, onPress: () => void addAndGo(part) }] : []),
          ...(known
            ? [
                {
                  small: ASK_WORDS.goOnThere,
                  big: goTo(labelToShow(sheet.label)),
                  primary: true,
                  share: 2,
                  onPress: () => {
                    close();
                    void flow.moveTo(place);
                  },
                },
              ]
            : []),
        ],
        [ownCell(flow, close, sheet)],
      ]}
    >
      <p>{known ? ASK_WORDS.nothingHere : ASK_WORDS.nothingOutside}</p>
    </Dialog>
  );
}

function UnlikelySheet({ flow, close, sheet }: SheetProps & Of<'unlikely'>) {
  return (
    <Dialog
      title={ASK_WORDS.unlikely}
      onClose={close}
      rows={[
        [
          { small: ASK_WORDS.dontRecord, big: ASK_WORDS.readAgain, onPress: close, primary: true },
          {
            small: ASK_WORDS.plugReadsThis,
            big: ASK_WORDS.recordIt,
            onPress: () => {
              close();
              void flow.sayLabel(sheet.text, sheet.by);
            },
          },
        ],
      ]}
    >
      <p>
        <span class="ident">{labelToShow(sheet.text)}</span>
        {sheet.length > sheet.text.length && ` ${cutAt(sheet.length)}`}
      </p>
    </Dialog>
  );
}

function EarlierSheet({ flow, close, sheet }: SheetProps & Of<'earlier'>) {
  const services = useServices();
  const now = sheet.sighting.plugs[0]?.labels[0]?.text ?? STATE_WORDS[sheet.sighting.state].brief;
  return (
    <Dialog
      title={ASK_WORDS.earlier}
      onClose={close}
      rows={[
        [
          { small: ASK_WORDS.misreadSmall, big: ASK_WORDS.misread, onPress: () => void flow.answerEarlier('misread') },
          { small: ASK_WORDS.changedSmall, big: ASK_WORDS.changed, onPress: () => void flow.answerEarlier('changed') },
        ],
        [
          { big: ASK_WORDS.dontRecord, onPress: close },
          { big: ASK_WORDS.unsure, onPress: () => void flow.answerEarlier('unsure') },
        ],
      ]}
    >
      <p>
        Now, {sheet.sighting.said[0]}: <strong class="ident">{labelToShow(now)}</strong>.
      </p>
      {sheet.earlier.map((look) => (
        <p key={look.event}>
          {look.author}, {timeToWords(look.at, services.now())}:{' '}
          <strong class="ident">{labelToShow(look.label ?? STATE_WORDS[look.state].brief)}</strong>
        </p>
      ))}
    </Dialog>
  );
}

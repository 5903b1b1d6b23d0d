// The renaming of an audit: what is half done, nearest first, what has not begun, what is done and may become the plan.
// Without a list it asks for one. Records label acts nowhere: those are made at the jack.

import { useSignal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import type { AuditId, PlaceId } from '../../core/plan/identity.ts';
import type { RenameLine, RenamingView } from '../../core/report/renamingView.ts';
import { useAsked, useServices } from '../context.ts';
import { PlainButton } from '../parts/form.tsx';
import { Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { Row, SectionHead, useShown } from '../parts/rows.tsx';
import { back, NoAnswer } from '../plan/planParts.tsx';
import { go } from '../router.ts';
import { NameFirst } from '../settings/nameFirst.tsx';
import { labelToShow } from '../walk/walkState.ts';
import { count } from '../words.ts';
import { Adopt } from './renamingAdopt.tsx';
import { BringInNames } from './renamingBringIn.tsx';
import { HandOver } from './renamingHandOver.tsx';
import { Pair } from './renamingPair.tsx';
import { doneToWords } from './renamingWords.ts';
import '../look/desk.css';
import '../look/renaming.css';

const STEP = 60;

export default function Renaming(props: { audit: AuditId; place: PlaceId | null }) {
  return (
    <>
      <NameFirst audit={props.audit} />
      <Names {...props} />
    </>
  );
}

function Names({ audit, place }: { audit: AuditId; place: PlaceId | null }) {
  const asked = useAsked('renaming', { audit, from: place });
  const bringing = useSignal(false);
  if (asked.type !== 'ready' || asked.value === null) {
    return <NoAnswer title="Renaming" asked={asked} missing="This audit is not on this phone, or its plan is not." />;
  }
  const view = asked.value;
  if (view.counts.all === 0 || bringing.value) {
    return (
      <BringInNames
        view={view}
        onDone={() => {
          bringing.value = false;
        }}
        onBack={() => {
          if (view.counts.all === 0) back();
          else bringing.value = false;
        }}
        toWalk={() => go({ screen: 'walk', audit, place })}
      />
    );
  }
  return (
    <Standing
      view={view}
      place={place}
      onMore={() => {
        bringing.value = true;
      }}
    />
  );
}

function Standing({ view, place, onMore }: { view: RenamingView; place: PlaceId | null; onMore: () => void }) {
  const handing = useSignal(false);
  const { audit, counts } = view;
  const left = view.half.filter((one) => one.handedOver === null);
  const toWalk = (to: string | null) => go({ screen: 'walk', audit, place: to });
  return (
    <>
      <Screen
        plate={
          <Plate
            back={{ label: 'Back', onPress: back }}
            cells={[
              { small: view.name, big: 'Renaming', heading: true, wide: true },
              { small: 'Half done', big: String(counts.half) },
              { small: 'Done', big: `${counts.done} of ${counts.all}` },
            ]}
          />
        }
        foot={
          <TitleBlock
            rows={[
              [
                ...(left.length > 0
                  ? [
                      {
                        small: 'To somebody else',
                        big: 'Hand over',
                        onPress: () => {
                          handing.value = true;
                        },
                      },
                    ]
                  : []),
                {
                  small: view.permission === 'look' ? 'Look only: plan the work' : 'Go on',
                  big: 'To the walk',
                  primary: true,
                  share: 2,
                  onPress: () => toWalk(place),
                },
              ],
            ]}
          />
        }
      >
        <HalfDone view={view} toWalk={toWalk} />
        <Part
          title="Not started"
          right={String(counts.untouched)}
          lines={view.untouched}
          total={counts.untouched}
          none="Every cable of the list has been started."
        >
          {(line) => <Line line={line} onPress={line.place === null ? undefined : () => toWalk(line.place)} />}
        </Part>
        <Part
          title="Done at every end"
          right={String(counts.done)}
          lines={view.done}
          total={counts.done}
          none="No cable has its new name at every end yet."
        >
          {(line) => <Line line={line} onPress={() => go({ screen: 'cable', id: line.cable })} />}
        </Part>
        {counts.done > 0 && <Adopt audit={audit} />}
        <Lists view={view} onMore={onMore} />
      </Screen>
      {handing.value && (
        <HandOver
          audit={audit}
          lines={left}
          onClose={() => {
            handing.value = false;
          }}
        />
      )}
    </>
  );
}

/** What is half done, with the ends that are still to do, and the settings that still show an old name. */
function HalfDone({ view, toWalk }: { view: RenamingView; toWalk: (to: PlaceId | null) => void }) {
  const { half, counts } = view;
  return (
    <>
      <Part
        title="Half done"
        right={counts.half > 0 ? 'nearest first' : '0'}
        lines={half}
        total={counts.half}
        none="Nothing is half done."
      >
        {(line) => (
          <>
            <Line line={line} onPress={line.place === null ? undefined : () => toWalk(line.place)} />
            {line.owed.length > 0 && (
              <div class="renaming-buttons renaming-go">
                {line.owed.map((end) => (
                  <PlainButton key={end.place} onPress={() => toWalk(end.place)}>
                    {end.outside
                      ? `Go to ${labelToShow(end.words)}, outside this audit`
                      : `Go to ${labelToShow(end.words)}`}
                  </PlainButton>
                ))}
              </div>
            )}
          </>
        )}
      </Part>
      {half
        .filter(({ state }) => state === 'settings-left')
        .map((line) => (
          <SettingsLeft key={line.cable} view={view} line={line} />
        ))}
    </>
  );
}

function Part(props: {
  title: string;
  right: string;
  lines: readonly RenameLine[];
  total: number;
  none: string;
  children: (line: RenameLine) => ComponentChildren;
}) {
  const { shown, more } = useShown(props.lines, STEP);
  return (
    <section aria-label={props.title}>
      <SectionHead title={props.title} right={props.right} />
      {props.total === 0 && <p class="desk-note">{props.none}</p>}
      {shown.map((line) => (
        <div key={`${line.cable} ${line.new}`}>{props.children(line)}</div>
      ))}
      {more}
      {props.total > props.lines.length && !more && (
        <p class="desk-note">And {props.total - props.lines.length} more, further away.</p>
      )}
    </section>
  );
}

function Line({ line, onPress }: { line: RenameLine; onPress: (() => void) | undefined }) {
  return (
    <Row
      title={<Pair old={line.old} fresh={line.new} done={line.state === 'done'} />}
      second={
        line.state === 'untouched' ? (
          line.route
        ) : line.state === 'done' ? (
          doneToWords(peopleOf(line))
        ) : (
          <>
            {line.todo.join(' ')}
            {line.handedOver !== null && <> Handed over: {line.handedOver}</>}
          </>
        )
      }
      onPress={onPress}
    />
  );
}

function peopleOf(line: RenameLine): string[] {
  return [...new Set(line.ends.flatMap((end) => [end.newOn, end.oldOff].flatMap((one) => one?.author ?? [])))];
}

/** Pages and strips that still show the old name: one tap says that the page was changed and read again. */
function SettingsLeft({ view, line }: { view: RenamingView; line: RenameLine }) {
  const services = useServices();
  const failed = useSignal<string | null>(null);
  return (
    <div class="desk-part">
      {line.pages.map((one) => (
        <p key={`${one.at} ${one.name}`}>
          {one.at}, {one.name}: <span class="ident">{labelToShow(one.old)}</span>{' '}
          <PlainButton
            onPress={async () => {
              const { unit, place, name } = one;
              const read = { unit, ...(place ? { place } : {}), name, value: one.new, basis: 'page' as const };
              const kept = await services.record('setting-read', read, { audit: view.audit });
              failed.value = kept.type === 'not-saved' ? kept.why : null;
            }}
          >
            It shows {labelToShow(one.new)}
          </PlainButton>
        </p>
      ))}
      {failed.value !== null && <p role="alert">Not saved: {failed.value}</p>}
    </div>
  );
}

function Lists({ view, onMore }: { view: RenamingView; onMore: () => void }) {
  return (
    <>
      <SectionHead title="Lists" right={String(view.lists.length)} />
      {view.lists.map((list) => (
        <List key={list.list} view={view} list={list} />
      ))}
      <Row title="Import another list" second="A sheet, pasted lines, or a rule." onPress={onMore} />
      <Row
        title="Labels to print"
        second="Two per cable, in walking order, each with its jack."
        onPress={() => go({ screen: 'labels', audit: view.audit })}
      />
    </>
  );
}

function List({ view, list }: { view: RenamingView; list: RenamingView['lists'][number] }) {
  const services = useServices();
  const sure = useSignal(false);
  const takeBack = async () => {
    for (const event of list.events) {
      await services.record('withdrawn', { target: { event }, why: 'undo' }, { audit: view.audit });
    }
  };
  return (
    <Row
      title={list.name}
      right={count(list.count, 'cable')}
      second={
        list.touched && !list.clash ? (
          'Started: it stays listed until it is done or handed over.'
        ) : sure.value ? (
          <PlainButton onPress={() => void takeBack()}>Remove the whole list</PlainButton>
        ) : (
          <PlainButton
            onPress={() => {
              sure.value = true;
            }}
          >
            Remove this list
          </PlainButton>
        )
      }
    />
  );
}

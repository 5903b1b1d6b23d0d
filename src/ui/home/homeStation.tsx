// What a station has on its home screen: what is owed next, the audits with one count each, what was not sent, and how to
// go on. Comes behind the first load.
import type { ComponentChildren } from 'preact';
import type { AuditSummary, HomeView } from '../../core/report/walk/homeView.ts';
import { useServices } from '../context.ts';
import { type CellProps, Screen, TitleBlock } from '../parts/frame.tsx';
import { HazardRow } from '../parts/hazard.tsx';
import { Ident } from '../parts/label.tsx';
import { Row, SectionHead } from '../parts/rows.tsx';
import { UndecidedSymbol } from '../parts/symbols.tsx';
import { go } from '../router.ts';
import { count } from '../words.ts';
import { HomeAudit } from './homeAudit.tsx';
import { syncToWords, unsentToWords } from './homeAuditWords.ts';
import { StorageLine, UpdateLine } from './homeFirst.tsx';

/** @param view Null until the record is open. */
export function HomeStation({ plate, view }: { plate: ComponentChildren; view: HomeView | null }) {
  const services = useServices();
  const unsent = services.unsent.value;
  const open = view?.audits.filter((audit) => !audit.closed) ?? [];
  const closed = view?.audits.filter((audit) => audit.closed) ?? [];
  const hazards = (view?.audits ?? []).flatMap((audit) => audit.hazards.map((hazard) => ({ audit, hazard })));
  return (
    <Screen
      plate={plate}
      above={
        <p class="home-unsent">
          {unsentToWords(unsent)} {syncToWords(services.sync.state.value, services.now())}
        </p>
      }
      foot={<TitleBlock rows={[footCells(open, view !== null)]} label="Go on" />}
    >
      <UpdateLine />
      {(hazards.length > 0 || open.some(({ next }) => next)) && <SectionHead title="Do next" />}
      {hazards.slice(0, 3).map(({ audit, hazard }, i) => (
        <HazardRow
          key={i}
          title={hazard.title}
          line={hazard.line}
          onPress={() => go({ screen: 'differences', audit: audit.id })}
        >
          {hazard.order}
        </HazardRow>
      ))}
      {hazards.length > 3 && hazards[3] && (
        <Row
          title={count(hazards.length - 3, 'more hazard')}
          onPress={() => go({ screen: 'differences', audit: hazards[3]?.audit.id ?? '' })}
        />
      )}
      {open.slice(0, 2).map(
        (audit) =>
          audit.next && (
            <Row
              key={audit.id}
              symbol={<UndecidedSymbol size={1.5} />}
              title={
                <>
                  {' '}
                  Check <Ident text={audit.next.words} />{' '}
                </>
              }
              second={audit.name}
              onPress={() => walkOn(audit)}
            />
          ),
      )}
      <SectionHead title="Audits" right={view ? String(view.audits.length) : 'opening the record'} />
      {[...open, ...closed].map((audit) => (
        <HomeAudit key={audit.id} audit={audit} now={services.now()} />
      ))}
      <Row
        title="Begin an audit"
        second="What to walk, what to leave out and why, and what you may do."
        onPress={() => go({ screen: 'start-audit' })}
      />
      <StorageLine />
      <SectionHead title="More" />
      <Row
        title="Import a schedule"
        second="A newer sheet, or another one."
        onPress={() => go({ screen: 'bring-in' })}
      />
      <Row title="Labels" second="Print or read them." onPress={() => go({ screen: 'labels', audit: null })} />
      <Row title="Send and receive" second="Server, other phones, a file." onPress={() => go({ screen: 'sync' })} />
      <Row title="Settings" onPress={() => go({ screen: 'settings' })} />
      <Row title="Help" onPress={() => go({ screen: 'help', topic: null })} />
      {view !== null && view.kept > 0 && (
        <p class="home-line">
          {count(view.kept, 'entry comes', 'entries come')} from a newer version of the app: kept and sent on, and shown
          once this phone is updated.
        </p>
      )}
    </Screen>
  );
}

function walkOn(audit: AuditSummary): void {
  go({ screen: 'walk', audit: audit.id, place: audit.next?.place ?? null });
}

function footCells(open: readonly AuditSummary[], known: boolean): CellProps[] {
  const [latest] = [...open].sort((a, b) => b.lastAt - a.lastAt);
  const first: CellProps = latest
    ? {
        small: latest.name,
        big: latest.next ? (
          <>
            Go on at <Ident text={latest.next.words} />
          </>
        ) : (
          'Go on'
        ),
        onPress: () => walkOn(latest),
      }
    : {
        small: 'No audit is open',
        big: 'Begin an audit',
        onPress: () => go({ screen: 'start-audit' }),
        disabled: !known,
      };
  return [
    { ...first, primary: true, share: 2 },
    { small: 'What is this?', big: 'Search', onPress: () => go({ screen: 'search', text: '' }) },
    { small: 'All racks', big: 'Plan', onPress: () => go({ screen: 'plan' }) },
  ];
}

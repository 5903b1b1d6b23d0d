// Who else is in this audit, in the walk: one quiet line in its head, a plain one at the jack that two are at. It also
// tells where this phone's person is, for as long as the walk is open.
import { useComputed, useSignal, useSignalEffect } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { WalkView } from '../../core/report/walk/walkView.ts';
import { useServices } from '../context.ts';
import { type CompanyWords, companyToWords } from './companyWords.ts';

const NOBODY: CompanyWords = { line: null, atJack: null };

export function useCompany(view: WalkView): CompanyWords {
  const services = useServices();
  const { audit, unit, current } = view;
  const labels = useSignal<ReadonlyMap<string, string>>(new Map());
  const unknown = useComputed(() =>
    services.presence.others.value.some(
      (one) => one.audit === audit && one.unit !== null && one.unit !== unit.id && !labels.value.has(one.unit),
    ),
  );
  useEffect(() => {
    services.presence.say({ audit, unit: unit.id, place: current.place });
  }, [audit, unit.id, current.place]);
  useEffect(() => () => services.presence.say(null), []);
  useSignalEffect(() => {
    if (!unknown.value) return;
    void services.ask('stops', { audit }).then((stops) => {
      labels.value = new Map(stops.map((stop) => [stop.unit, stop.label] as const));
    });
  });
  const others = services.presence.others.value;
  if (others.length === 0) return NOBODY;
  const here = { audit, unit, place: current.place, jack: current.jack, done: current.done };
  return companyToWords(others, here, (id) => labels.value.get(id) ?? id);
}

export function CompanyLine({ words }: { words: CompanyWords }) {
  return words.line === null ? null : <p class="walk-company">{words.line}</p>;
}

export function CompanyAtJack({ words }: { words: CompanyWords }) {
  return words.atJack === null ? null : <p class="walk-company-here">{words.atJack}</p>;
}

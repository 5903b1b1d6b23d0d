// Brings a list of old and new names in: a sheet, pasted lines or a rule. Every row is shown as it was read before
// anything is recorded, and what cannot be taken is told, not dropped.
import { type Signal, useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { type CheckedPair, renamesToEvents } from '../../core/renaming/renamingCheck.ts';
import { type RenamesRead, readRenames } from '../../core/renaming/renamingRead.ts';
import type { RenamingView } from '../../core/report/renamingView.ts';
import { useServices } from '../context.ts';
import { RENAMING } from '../drafts/deskDrafts.ts';
import { Choice, Field } from '../parts/form.tsx';
import { Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { ErrorBox } from '../parts/rows.tsx';
import { count } from '../words.ts';
import { Preview } from './renamingPreview.tsx';
import { NEW_RULE, type RuleDraft, RuleForm, ruleOf, ruleToName } from './renamingRule.tsx';
import { sortRows } from './renamingWords.ts';

interface Draft {
  source: 'sheet' | 'paste' | 'rule';
  text: string;
  rule: RuleDraft;
  /** What was read, once it was. */
  read: RenamesRead | null;
  name: string;
  answers: Record<string, string>;
}

const NEW_DRAFT: Draft = { source: 'sheet', text: '', rule: NEW_RULE, read: null, name: '', answers: {} };

export function BringInNames(props: {
  view: RenamingView;
  onDone: () => void;
  onBack: () => void;
  toWalk: () => void;
}) {
  const services = useServices();
  const { audit } = props.view;
  const key = `renaming:${audit}` as const;
  const draft = useSignal<Draft>(NEW_DRAFT);
  const rows = useSignal<CheckedPair[] | null>(null);
  const trouble = useSignal<{ what: string; where: string | null; todo: string } | null>(null);
  const saving = useSignal(false);
  const d = draft.value;

  const set = (change: Partial<Draft>) => {
    draft.value = { ...draft.value, ...change };
    void services.saveDraft(key, draft.value, RENAMING);
  };
  async function check(next: Pick<Draft, 'read' | 'answers'>): Promise<void> {
    rows.value = next.read
      ? await services.ask('renamingCheck', { audit, pairs: next.read.pairs, answers: next.answers })
      : null;
  }
  useEffect(() => {
    void services.draft(key, RENAMING).then(async (kept) => {
      if (!kept) return;
      draft.value = { ...NEW_DRAFT, ...kept };
      await check(draft.value);
    });
  }, []);

  async function show(read: RenamesRead, name: string): Promise<void> {
    trouble.value = null;
    set({ read, name, answers: {} });
    await check(draft.value);
  }
  async function takeFiles(files: { name: string; bytes: ArrayBuffer }[], name: string): Promise<void> {
    const taken = await services.readTables(files, new AbortController().signal);
    if (taken.type === 'tables') await show(readRenames(taken.tables), name);
    else trouble.value = { what: taken.what, where: taken.where, todo: taken.nextStep };
  }
  async function choose(list: FileList | null): Promise<void> {
    const files = await Promise.all(
      [...(list ?? [])].map(async (file) => ({ name: file.name, bytes: await file.arrayBuffer() })),
    );
    if (files.length > 0) await takeFiles(files, files.map(({ name }) => name).join(', '));
  }
  async function go(): Promise<void> {
    if (d.source === 'paste') {
      if (d.text.trim() === '') {
        trouble.value = {
          what: 'There are no lines yet.',
          where: null,
          todo: 'Paste or type one pair a line: old, new.',
        };
        return;
      }
      await takeFiles(
        [{ name: 'pasted', bytes: new TextEncoder().encode(d.text).buffer as ArrayBuffer }],
        'Pasted list',
      );
    } else if (d.source === 'rule') {
      const rule = ruleOf(d.rule);
      if (typeof rule === 'string') {
        trouble.value = { what: rule, where: null, todo: 'Fill it in and press Show every pair again.' };
        return;
      }
      const pairs = await services.ask('renamingRule', { audit, rule });
      if (pairs.length === 0) {
        trouble.value = {
          what: 'The rule changes no cable in the scope of this audit.',
          where: null,
          todo: 'Change it and press Show every pair again.',
        };
        return;
      }
      await show({ pairs, unread: [], guesses: [], columns: [], blank: 0 }, ruleToName(rule));
    }
  }
  async function accept(good: CheckedPair[]): Promise<void> {
    if (saving.value || good.length === 0) return;
    saving.value = true;
    const renames = good.map((row) => ({ cable: row.cable!, old: row.label!, new: row.new }));
    for (const payload of renamesToEvents(services.newId(), d.name, renames)) {
      const kept = await services.record('renaming-listed', payload, { audit });
      if (kept.type === 'saved') continue;
      trouble.value = {
        what: 'The list was not saved.',
        where: kept.why,
        todo: 'See the bar above, then try again.',
      };
      saving.value = false;
      return;
    }
    await services.dropDraft(key);
    saving.value = false;
    props.onDone();
  }

  const plate = (
    <Plate
      back={{ label: 'Back', onPress: d.read ? () => set({ read: null }) : props.onBack }}
      cells={[{ small: props.view.name, big: d.read ? 'Every pair' : 'Renaming list', heading: true }]}
    />
  );
  const said = trouble.value && (
    <ErrorBox
      what={trouble.value.what}
      where={trouble.value.where ?? undefined}
      todo={`${trouble.value.todo} Nothing was changed.`}
    />
  );
  if (d.read && rows.value) {
    const sorted = sortRows(rows.value);
    const out = rows.value.length - sorted.good.length + d.read.unread.length;
    return (
      <Screen
        plate={plate}
        foot={
          <TitleBlock
            rows={[
              [
                { small: 'Don’t record', big: 'Cancel', onPress: () => set({ read: null }) },
                {
                  small: out === 0 ? 'All of them' : `${count(out, 'row')} left out`,
                  big: saving.value ? 'Saving' : `Save ${count(sorted.good.length, 'pair')}`,
                  primary: true,
                  share: 2,
                  disabled: sorted.good.length === 0 || saving.value,
                  onPress: () => void accept(sorted.good),
                },
              ],
            ]}
          />
        }
      >
        {said}
        <Preview
          read={d.read}
          sorted={sorted}
          onAnswer={(row, cable) => {
            set({ answers: { ...d.answers, [row]: cable } });
            void check(draft.value);
          }}
        />
      </Screen>
    );
  }
  return (
    <Screen
      plate={plate}
      foot={
        <TitleBlock
          rows={[
            [
              { small: 'Without a list', big: 'To the walk', onPress: props.toWalk },
              ...(d.source === 'sheet'
                ? []
                : [
                    {
                      small: 'Nothing is recorded yet',
                      big: 'Show every pair',
                      primary: true,
                      share: 2,
                      onPress: () => void go(),
                    },
                  ]),
            ],
          ]}
        />
      }
    >
      {said}
      <SourceForm d={d} trouble={trouble} set={set} choose={choose} />
    </Screen>
  );
}

function SourceForm({
  d,
  trouble,
  set,
  choose,
}: {
  d: Draft;
  trouble: Signal<{ what: string; where: string | null; todo: string } | null>;
  set: (change: Partial<Draft>) => void;
  choose: (list: FileList | null) => Promise<void>;
}) {
  return (
    <div class="form-part">
      <p class="renaming-line">
        Old and new names of cables. The circuits stay the same, and the plan changes only when both ends have the new
        name.
      </p>
      <Choice
        legend="Where are the names?"
        options={[
          { value: 'sheet', text: 'Sheet' },
          { value: 'paste', text: 'Pasted' },
          { value: 'rule', text: 'By rule' },
        ]}
        value={d.source}
        onChoose={(source) => {
          trouble.value = null;
          set({ source });
        }}
      />
      {d.source === 'sheet' && (
        <>
          <p class="renaming-line">
            XLSX or CSV with two columns: old and new, from and to, current and becomes. Other columns are ignored.
          </p>
          <label class="plain-button plain-primary">
            Choose the list
            <input
              type="file"
              class="only-spoken"
              accept=".csv,.tsv,.txt,.xlsx,text/csv,application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
              onChange={(e) => {
                const { files } = e.currentTarget;
                void choose(files);
              }}
            />
          </label>
        </>
      )}
      {d.source === 'paste' && (
        <div class="renaming-text">
          <Field
            label="One pair a line"
            hint="2005, 3005 or 2005 -> 3005. Rows copied from a sheet work as they are."
            lines={8}
            ident
            value={d.text}
            onInput={(text) => set({ text })}
          />
        </div>
      )}
      {d.source === 'rule' && <RuleForm draft={d.rule} onChange={(rule) => set({ rule })} />}
    </div>
  );
}

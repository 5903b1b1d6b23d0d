// Brings a list of old and new names in: a sheet, pasted lines or a rule. Every row is shown as it was read before
// anything is recorded, and what cannot be taken is told, not dropped.
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { AuditId, CableId } from '../../core/plan/identity.ts';
import { type CheckedPair, renamesToEvents } from '../../core/renaming/renamingCheck.ts';
import { type RenamesRead, readRenames } from '../../core/renaming/renamingRead.ts';
import type { RenamingView } from '../../core/report/renamingView.ts';
import { useServices } from '../context.ts';
import { RENAMING } from '../drafts/deskDrafts.ts';
import { Choice, Field } from '../parts/form.tsx';
import { type CellProps, Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { ErrorBox } from '../parts/rows.tsx';
import type { Services } from '../services.ts';
import { count } from '../words.ts';
import { Preview } from './renamingPreview.tsx';
import { NEW_RULE, type RuleDraft, RuleForm, ruleOf } from './renamingRule.tsx';
import { type GoodPair, ruleToName, sortRows } from './renamingWords.ts';

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

interface Trouble {
  what: string;
  where: string | null;
  todo: string;
}

export function BringInNames(props: {
  view: RenamingView;
  onDone: () => void;
  onBack: () => void;
  toWalk: () => void;
}) {
  const list = useNameList(props.view.audit, props.onDone);
  const { draft: d, set, rows } = list;
  const back = () => set({ read: null });
  const sorted = d.read && rows && sortRows(rows);
  const out = rows && sorted && d.read ? rows.length - sorted.good.length + d.read.unread.length : 0;
  const said = list.trouble && (
    <ErrorBox
      what={list.trouble.what}
      where={list.trouble.where ?? undefined}
      todo={`${list.trouble.todo} Nothing was changed.`}
    />
  );
  const foot: CellProps[] = sorted
    ? [
        { small: 'Don’t record', big: 'Cancel', onPress: back },
        {
          small: out === 0 ? 'All of them' : `${count(out, 'row')} left out`,
          big: list.saving ? 'Saving' : `Save ${count(sorted.good.length, 'pair')}`,
          primary: true,
          share: 2,
          disabled: sorted.good.length === 0 || list.saving,
          onPress: () => void list.accept(sorted.good),
        },
      ]
    : [{ small: 'Without a list', big: 'To the walk', onPress: props.toWalk }];
  if (!sorted && d.source !== 'sheet') {
    const show = () => void (d.source === 'paste' ? list.takeText() : list.takeRule());
    foot.push({ small: 'Nothing is recorded yet', big: 'Show every pair', primary: true, share: 2, onPress: show });
  }
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back', onPress: d.read ? back : props.onBack }}
          cells={[{ small: props.view.name, big: d.read ? 'Every pair' : 'Renaming list', heading: true }]}
        />
      }
      foot={<TitleBlock rows={[foot]} />}
    >
      {said}
      {d.read && sorted ? (
        <Preview read={d.read} sorted={sorted} onAnswer={list.answer} />
      ) : (
        <SourceForm d={d} set={list.setSource} choose={list.choose} />
      )}
    </Screen>
  );
}

/** The list while it is read, checked and answered about; what cannot be read is told, and the draft stays. */
function useNameList(audit: AuditId, onDone: () => void) {
  const services = useServices();
  const key = `renaming:${audit}` as const;
  const draft = useSignal<Draft>(NEW_DRAFT);
  const rows = useSignal<CheckedPair[] | null>(null);
  const trouble = useSignal<Trouble | null>(null);
  const saving = useSignal(false);
  const set = (change: Partial<Draft>) => {
    draft.value = { ...draft.value, ...change };
    void services.saveDraft(key, draft.value, RENAMING);
  };
  const check = async ({ read, answers }: Draft) => {
    rows.value = read && (await services.ask('renamingCheck', { audit, pairs: read.pairs, answers }));
  };
  useEffect(() => {
    void services.draft(key, RENAMING).then(async (kept) => {
      if (!kept) return;
      draft.value = kept;
      await check(kept);
    });
  }, []);
  const show = async (read: RenamesRead, name: string) => {
    trouble.value = null;
    set({ read, name, answers: {} });
    await check(draft.value);
  };
  const takeFiles = async (files: { name: string; bytes: ArrayBuffer }[], name: string) => {
    const taken = await services.readTables(files, new AbortController().signal);
    if (taken.type === 'tables') await show(readRenames(taken.tables), name);
    else trouble.value = { what: taken.what, where: taken.where, todo: taken.nextStep };
  };
  return {
    draft: draft.value,
    rows: rows.value,
    trouble: trouble.value,
    saving: saving.value,
    set,
    setSource: (change: Partial<Draft>) => {
      if (change.source) trouble.value = null;
      set(change);
    },
    choose: async (chosen: FileList | null) => {
      const files = await Promise.all(
        [...(chosen ?? [])].map(async (file) => ({ name: file.name, bytes: await file.arrayBuffer() })),
      );
      if (files.length > 0) await takeFiles(files, files.map(({ name }) => name).join(', '));
    },
    takeText: async () => {
      const { text } = draft.peek();
      if (text.trim() === '') trouble.value = NO_LINES;
      else await takeFiles([{ name: 'pasted', bytes: new TextEncoder().encode(text).buffer }], 'Pasted list');
    },
    takeRule: async () => {
      const rule = ruleOf(draft.peek().rule);
      if (typeof rule === 'string') {
        trouble.value = { what: rule, where: null, todo: 'Fill it in and press Show every pair again.' };
        return;
      }
      const pairs = await services.ask('renamingRule', { audit, rule });
      if (pairs.length === 0) trouble.value = NO_CABLE;
      else await show({ pairs, unread: [], guesses: [], columns: [], blank: 0 }, ruleToName(rule));
    },
    answer: (row: string, cable: CableId) => {
      set({ answers: { ...draft.value.answers, [row]: cable } });
      void check(draft.value);
    },
    accept: async (good: readonly GoodPair[]) => {
      if (saving.value || good.length === 0) return;
      saving.value = true;
      const why = await saveNames(services, audit, draft.peek().name, good);
      saving.value = false;
      if (why !== null) {
        trouble.value = { what: 'The list was not saved.', where: why, todo: 'See the bar above, then try again.' };
        return;
      }
      await services.dropDraft(key);
      onDone();
    },
  };
}

/** @returns why the list is not saved; null when it is. */
async function saveNames(
  services: Services,
  audit: AuditId,
  name: string,
  good: readonly GoodPair[],
): Promise<string | null> {
  const renames = good.map(({ cable, label, new: fresh }) => ({ cable, old: label, new: fresh }));
  for (const payload of renamesToEvents(services.newId(), name, renames)) {
    const kept = await services.record('renaming-listed', payload, { audit });
    if (kept.type !== 'saved') return kept.why;
  }
  return null;
}

const NO_LINES: Trouble = {
  what: 'There are no lines yet.',
  where: null,
  todo: 'Paste or type one pair a line: old, new.',
};
const NO_CABLE: Trouble = {
  what: 'The rule changes no cable in the scope of this audit.',
  where: null,
  todo: 'Change it and press Show every pair again.',
};

function SourceForm(props: {
  d: Draft;
  set: (change: Partial<Draft>) => void;
  choose: (list: FileList | null) => Promise<void>;
}) {
  const { d, set, choose } = props;
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
        onChoose={(source) => set({ source })}
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
              accept=".csv,.tsv,.txt,.xlsx,.xlsm,.ods,.xls,.htm,.html,text/csv,application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
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

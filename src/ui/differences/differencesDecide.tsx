// A person judges a cause and decides a difference: what is usual by one tap, anything else with its reason, each signed
// and each taken back by one tap. It takes nothing from view and lowers no hazard.

import { type Signal, useSignal } from '@preact/signals';
import { type ComponentChildren, createContext } from 'preact';
import { useContext, useEffect } from 'preact/hooks';
import type { AuditId, EventId } from '../../core/plan/identity.ts';
import { MAX_NAME, MAX_REASON, MAX_WORDS } from '../../core/record/eventLimits.ts';
import { CHOICES, type Choice } from '../../core/record/judgedEvents.ts';
import {
  CHOICE_WORDS,
  type DecisionLine,
  type JudgingLine,
  type ReopenedLine,
  type SaidLine,
  saidToWords,
} from '../../core/report/decisionsView.ts';
import { useServices } from '../context.ts';
import { SIGN } from '../drafts/workDrafts.ts';
import { Dialog } from '../parts/dialog.tsx';
import { Field, PlainButton } from '../parts/form.tsx';
import { ErrorBox } from '../parts/rows.tsx';
import { dayAndClock } from '../times.ts';
import { type Act, missing, sign, type Typed, takeBack, wantsReason } from './decideActs.ts';

const Asking = createContext<Signal<Act | null> | null>(null);

/** Holds the sheet that asks for what is missing over the whole screen: a phone that is turned keeps it open. */
export function WithSigning({ audit, children }: { audit: AuditId; children: ComponentChildren }) {
  const asking = useSignal<Act | null>(null);
  const act = asking.value;
  return (
    <Asking.Provider value={asking}>
      {children}
      {act && <SignSheet key={titleOf(act)} audit={audit} act={act} />}
    </Asking.Provider>
  );
}

/** Signs at once where the name is known and no reason is due; else asks for what is missing. */
function useSigning(audit: AuditId) {
  const services = useServices();
  const asking = useContext(Asking);
  if (!asking) throw new Error('Nothing to sign with: render inside WithSigning.');
  const failed = useSignal<string | null>(null);
  async function put(act: Act, typed: Typed): Promise<boolean> {
    const done = await sign(services, audit, act, typed);
    failed.value = done.type === 'not-saved' ? done.why : null;
    return done.type === 'saved';
  }
  return {
    asking,
    failed,
    put,
    begin(act: Act): void {
      const typed = { by: services.settings.peek().author, reason: '', words: '' };
      if (!wantsReason(act) && typed.by.trim() !== '') void put(act, typed);
      else asking.value = act;
    },
  };
}
const NOT_AGREED = 'They do not agree. It stays undecided until one of the two is undone.';

/** What people say about a cause. */
export function Judge(props: { audit: AuditId; judging: JudgingLine; reopened: readonly ReopenedLine[] }) {
  const { audit, judging } = props;
  const signing = useSigning(audit);
  const again = useSignal(false);
  const isOpen = judging.takes.length > 0 && (judging.said.length === 0 || again.value);
  const begin = (act: Act) => () => {
    again.value = false;
    signing.begin(act);
  };
  return (
    <section class="decide" aria-label="Is that what happened?">
      <p class="decide-head">Is that what happened?</p>
      <SaidList audit={audit} said={props.reopened} />
      <SaidList audit={audit} said={judging.said} />
      {judging.disputed && <p class="decide-note">{NOT_AGREED}</p>}
      {isOpen ? (
        <div class="details-foot no-print">
          {judging.takes.map(({ as, words }) => (
            <PlainButton key={words} onPress={begin({ type: 'accepted', judging, as })}>
              {judging.takes.length > 1 ? `Accept: ${words.toLowerCase()}` : 'Accept'}
            </PlainButton>
          ))}
          <PlainButton onPress={begin({ type: 'other', judging })}>It is something else…</PlainButton>
          <PlainButton onPress={begin({ type: 'rejected', judging })}>Reject</PlainButton>
        </div>
      ) : (
        judging.takes.length > 0 && <Otherwise again={again} words="Change the answer" />
      )}
      {signing.failed.value && <NotSaved why={signing.failed.value} />}
    </section>
  );
}

/** What is to be done about a difference, or about all that a cause covers. */
export function Decide(props: { audit: AuditId; line: DecisionLine }) {
  const { audit, line } = props;
  const signing = useSigning(audit);
  const again = useSignal(false);
  return (
    <section class="decide" aria-label="What is to be done?">
      <p class="decide-head">What is to be done?</p>
      <SaidList audit={audit} said={line.said} />
      {line.disputed && <p class="decide-note">{NOT_AGREED}</p>}
      {line.said.length === 0 || again.value ? (
        <>
          <p class="decide-note">{line.usualWords}</p>
          <div class="details-foot no-print">
            {CHOICES.map((choice) => (
              <PlainButton
                key={choice}
                primary={choice === line.usual}
                onPress={() => {
                  again.value = false;
                  signing.begin({ type: 'decided', line, choice });
                }}
              >
                {choiceWords(choice, line)}
              </PlainButton>
            ))}
          </div>
        </>
      ) : (
        <Otherwise again={again} words="Change the decision" />
      )}
      {signing.failed.value && <NotSaved why={signing.failed.value} />}
    </section>
  );
}

function Otherwise({ again, words }: { again: { value: boolean }; words: string }) {
  return (
    <div class="details-foot no-print">
      <PlainButton
        onPress={() => {
          again.value = true;
        }}
      >
        {words}
      </PlainButton>
    </div>
  );
}

/** Each with who and when, and its undo; what is open again says what was seen since. */
export function SaidList({ audit, said }: { audit: AuditId; said: readonly (SaidLine & { why?: string })[] }) {
  const services = useServices();
  const failed = useSignal<string | null>(null);
  async function undo(event: EventId): Promise<void> {
    const done = await takeBack(services, audit, event);
    failed.value = done.type === 'not-saved' ? done.why : null;
  }
  return (
    <>
      {said.map((one) => (
        <div key={one.event} class="decide-said">
          <p>
            {one.why && <strong class="blue">{one.why}. </strong>}
            {saidToWords(one, dayAndClock(one.at))}
          </p>
          <PlainButton onPress={() => void undo(one.event)}>Undo</PlainButton>
        </div>
      ))}
      {failed.value && <NotSaved why={failed.value} />}
    </>
  );
}

function NotSaved({ why }: { why: string }) {
  return (
    <ErrorBox
      what="That is not saved on this phone."
      where={why}
      todo="Try again, or see the bar above. Nothing was changed."
    />
  );
}

function choiceWords(choice: Choice, { amendWords }: DecisionLine): string {
  return (choice === 'amend-record' && amendWords) || CHOICE_WORDS[choice];
}

function titleOf(act: Act): string {
  switch (act.type) {
    case 'accepted':
      return `Accept: ${act.judging.about}`;
    case 'rejected':
      return `Reject: ${act.judging.about}`;
    case 'other':
      return 'It is something else';
    case 'decided':
      return choiceWords(act.choice, act.line);
  }
}

function SignSheet({ audit, act }: { audit: AuditId; act: Act }) {
  const services = useServices();
  const signing = useSigning(audit);
  const key = `sign ${audit} ${act.type} ${act.type === 'decided' ? act.line.target.id : act.judging.key}` as const;
  const typed = useSignal<Typed>({ by: services.settings.peek().author, reason: '', words: '' });
  const pressed = useSignal(false);
  useEffect(() => {
    // The phone may lock in mid-sentence; what was typed is there again.
    void services.draft(key, SIGN).then((kept) => {
      if (kept && typed.peek().reason === '' && typed.peek().words === '') typed.value = { ...typed.peek(), ...kept };
    });
  }, [key]);
  const wrong = pressed.value ? missing(act, typed.value) : {};
  const type = (name: keyof Typed, most: number) => (value: string) => {
    typed.value = { ...typed.value, [name]: value.slice(0, most) };
    void services.saveDraft(key, typed.value, SIGN);
  };
  const close = () => {
    signing.asking.value = null;
  };
  async function put(): Promise<void> {
    pressed.value = true;
    if (Object.keys(missing(act, typed.value)).length > 0) return;
    const { settings } = services;
    if (settings.peek().author.trim() === '') settings.value = { ...settings.peek(), author: typed.value.by.trim() };
    if (!(await signing.put(act, typed.value))) return;
    await services.dropDraft(key);
    close();
  }
  return (
    <Dialog
      title={titleOf(act)}
      onClose={close}
      rows={[
        [
          { big: 'Cancel', onPress: close },
          { small: 'Kept with your name', big: 'Sign', primary: true, share: 2, onPress: () => void put() },
        ],
      ]}
    >
      {act.type === 'decided' && <p>{act.line.about}</p>}
      {act.type === 'other' && <p>Instead of: {act.judging.about}</p>}
      {act.type === 'other' && (
        <Field label="What it is" value={typed.value.words} error={wrong.words} onInput={type('words', MAX_WORDS)} />
      )}
      {wantsReason(act) && (
        <Field
          label={act.type === 'other' ? 'How you know' : 'Why'}
          lines={3}
          value={typed.value.reason}
          error={wrong.reason}
          onInput={type('reason', MAX_REASON)}
        />
      )}
      <Field
        label="Signed by"
        hint="Name as typed."
        value={typed.value.by}
        error={wrong.by}
        onInput={type('by', MAX_NAME)}
      />
      {signing.failed.value && <NotSaved why={signing.failed.value} />}
    </Dialog>
  );
}
